//! When a change to a base's rule counts. Before its day, and where its condition does not hold, the base's rule stays.

use super::entry;
use super::parts::{combined, map};
use crate::text::{Content, Entry, Node};

/// When a change counts: where its `when` holds, on the days of its own `in-force` or else of its file's. `None`: always.
///
/// A file that names an earlier edition needs no day: its own day decides which of the two editions is read.
pub(super) fn where_it_counts(edit: &Node, file: &Node) -> Option<Node> {
    let own = edit.get("when").cloned();
    let of_file = || {
        file.get("in-force")
            .filter(|_| file.get("earlier").is_none())
    };
    let days = edit.get("in-force").or_else(of_file).and_then(on_its_days);
    let all = own.into_iter().chain(days);
    all.reduce(|one, two| combined("all-of", [one, two], edit.span))
}

/// A base's rule. If it names no days of its own, it gets those of its file.
pub(super) fn on_days_of_its_file(rule: &Node, file: &Node) -> Node {
    match (rule.get("in-force"), file.get("in-force")) {
        (None, Some(days)) => with(rule, entry("in-force", days.clone())),
        _ => rule.clone(),
    }
}

/// What `in-force` says, as a condition on the day that decides.
fn on_its_days(in_force: &Node) -> Option<Node> {
    let span = in_force.span;
    let by = in_force.get("by")?.clone();
    let bounds = [("from", "at-least"), ("to", "at-most")];
    let bounds = bounds
        .into_iter()
        .filter_map(|(key, bound)| Some(entry(bound, in_force.get(key)?.clone())));
    let day = map(
        span,
        [entry("fact", by)].into_iter().chain(bounds).collect(),
    );
    let day = match in_force.get("or-when") {
        Some(or_when) => combined("any-of", [day, or_when.clone()], span),
        None => day,
    };
    Some(match in_force.get("unless") {
        Some(unless) => combined("all-of", [day, not(unless)], span),
        None => day,
    })
}

pub(super) fn not(condition: &Node) -> Node {
    map(condition.span, vec![entry("not", condition.clone())])
}

/// A map with one more key.
fn with(node: &Node, more: Entry) -> Node {
    match &node.content {
        Content::Map(entries) => map(node.span, entries.iter().cloned().chain([more]).collect()),
        _ => node.clone(),
    }
}
