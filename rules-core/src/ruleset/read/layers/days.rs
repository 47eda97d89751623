//! Where and from which day on a change of a base's rules counts: elsewhere, and before, the base's own text stays.

use super::entry;
use super::parts::{combined, map};
use crate::text::{Content, Entry, Node, Span};

/// A change with the days on which it, or else its file, is in force as one more condition under its `when`.
///
/// A file that names an earlier edition needs no day: its own day decides which of the two editions is read.
pub(super) fn where_it_counts(edit: &Node, file: &Node) -> Node {
    let own = edit.get("when").cloned();
    let of_file = || {
        file.get("in-force")
            .filter(|_| file.get("earlier").is_none())
    };
    let days = edit.get("in-force").or_else(of_file).and_then(on_its_days);
    let all = own.into_iter().chain(days);
    match all.reduce(|one, two| combined("all-of", [one, two], edit.span)) {
        Some(when) => with(edit, "when", when),
        None => edit.clone(),
    }
}

/// A base's rule as it counts by itself: where it names no days, on those of its file.
pub(super) fn on_days_of_its_file(rule: &Node, file: &Node) -> Node {
    match (rule.get("in-force"), file.get("in-force")) {
        (None, Some(days)) => with(rule, "in-force", days.clone()),
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

/// A map with a key that says this, whatever it said before.
fn with(node: &Node, key: &str, value: Node) -> Node {
    let said = |entries: &[Entry], span: Span| {
        let others = entries.iter().filter(|entry| entry.key != key).cloned();
        map(span, others.chain([entry(key, value.clone())]).collect())
    };
    match &node.content {
        Content::Map(entries) => said(entries, node.span),
        _ => node.clone(),
    }
}
