//! A file of cases, as written.

use super::overlay::{laid_over, leave_out};
use crate::faults::Code;
use crate::grammar::plan::{CASE, CASES, EXPECTED};
use crate::text::{Entry, Faults, Node, meant_and};

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

/// What to write for a case without a plan, in a file of cases.
const BASE_ABOVE: &str =
    "Give the case a `plan`, or put a plan that all cases share under `base`, before `cases`.";
/// The same, in a rule file.
const OWN_PLAN: &str = "Give the case a `plan` of its own; or move `cases` into a file `cases.yaml` beside this one, where a plan that all cases share stands before it, under `base`.";

/// Reports an outcome that no rule can come to.
fn known_outcome(entry: &Entry, faults: &mut Faults) {
    let word = entry.value.text().unwrap_or_default();
    let known = || EXPECTED.iter().copied();
    if known().any(|outcome| outcome == word) {
        return;
    }
    let list: Vec<_> = known().map(|word| format!("`{word}`")).collect();
    let message = match entry.value.text() {
        Some(word) => format!("`{word}` is not an outcome of a rule."),
        None => format!(
            "An outcome of a rule is expected here, not {}.",
            entry.value.describe()
        ),
    };
    let says = format!("The outcomes are {}.", list.join(", "));
    faults
        .add(Code::UnknownWord, entry.value.span, message)
        .help(meant_and(word, known(), says));
}

/// Reads a file of cases, or the list of them that stands in a rule file.
pub(crate) fn read_file<'a>(root: &'a Node, faults: &mut Faults) -> Option<Vec<Case<'a>>> {
    if let Some(items) = root.as_list() {
        return read_list(items, None, OWN_PLAN, faults);
    }
    let [base, list] = CASES.read(root, faults)?;
    let list = list?;
    let Some(items) = list.value.as_list() else {
        faults.add(Code::NotAList, list.value.span, "`cases` needs a list.");
        return None;
    };
    read_list(items, base.map(|base| &base.value), BASE_ABOVE, faults)
}

fn read_list<'a>(
    items: &'a [Node],
    base: Option<&'a Node>,
    no_plan: &'static str,
    faults: &mut Faults,
) -> Option<Vec<Case<'a>>> {
    let read: Vec<_> = items
        .iter()
        .map(|item| read_case(item, base, no_plan, faults))
        .collect();
    read.into_iter().collect()
}

fn read_case<'a>(
    node: &'a Node,
    base: Option<&'a Node>,
    no_plan: &'static str,
    faults: &mut Faults,
) -> Option<Case<'a>> {
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
        faults
            .add(
                Code::NoPlan,
                node.span,
                "This case has no plan, and the file has no `base`.",
            )
            .help(no_plan);
        return None;
    };
    let named = expect.and_then(|entry| entry.value.as_map());
    let outcomes = named.into_iter().flatten().chain(all_others);
    outcomes.for_each(|entry| known_outcome(entry, faults));
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
