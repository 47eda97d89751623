//! A file of cases, as written.

use super::overlay::{laid_over, leave_out};
use crate::faults::Code;
use crate::grammar::plan::{CASE, CASES};
use crate::text::{Entry, Faults, Node};

/// One case as written.
pub(crate) struct Case<'a> {
    pub id: &'a str,
    pub title: &'a str,
    pub plan: Node,
    pub expect: &'a [Entry],
    pub all_others: Option<&'a str>,
    pub decide: &'a [Entry],
    pub verdict: Option<&'a str>,
}

/// Reads a file of cases, or the list of them that stands in a rule file.
pub(crate) fn read_file<'a>(root: &'a Node, faults: &mut Faults) -> Option<Vec<Case<'a>>> {
    if let Some(items) = root.as_list() {
        return read_list(items, None, faults);
    }
    let [base, list] = CASES.read(root, faults)?;
    let list = list?;
    let Some(items) = list.value.as_list() else {
        faults.add(Code::NotAList, list.value.span, "`cases` needs a list.");
        return None;
    };
    read_list(items, base.map(|base| &base.value), faults)
}

fn read_list<'a>(
    items: &'a [Node],
    base: Option<&'a Node>,
    faults: &mut Faults,
) -> Option<Vec<Case<'a>>> {
    let read: Vec<_> = items
        .iter()
        .map(|item| read_case(item, base, faults))
        .collect();
    read.into_iter().collect()
}

fn read_case<'a>(node: &'a Node, base: Option<&'a Node>, faults: &mut Faults) -> Option<Case<'a>> {
    let [
        id,
        title,
        plan,
        change,
        without,
        expect,
        decide,
        all_others,
        verdict,
    ] = CASE.read(node, faults)?;
    let entries = |entry: Option<&'a Entry>| {
        entry
            .and_then(|entry| entry.value.as_map())
            .unwrap_or_default()
    };
    let Some(under) = plan.map(|plan| &plan.value).or(base) else {
        faults.add(
            Code::NoPlan,
            node.span,
            "This case has no plan, and the file has no `base`.",
        )
.help("Give the case a `plan`, or put a plan that all cases share under `base`, before `cases`.");
        return None;
    };
    let mut plan = change.map_or_else(|| under.clone(), |change| laid_over(under, &change.value));
    let gone = without
        .and_then(|entry| entry.value.as_list())
        .unwrap_or_default();
    leave_out(
        &mut plan,
        &gone.iter().filter_map(Node::text).collect::<Vec<_>>(),
    );
    Some(Case {
        id: id?.value.text()?,
        title: title?.value.text()?,
        plan,
        expect: entries(expect),
        all_others: all_others.and_then(|entry| entry.value.text()),
        decide: entries(decide),
        verdict: verdict.and_then(|entry| entry.value.text()),
    })
}
