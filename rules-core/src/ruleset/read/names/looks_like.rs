//! What a defined term looks like before anything in it is resolved: an amount, outlines, a zone, a requirement …

use crate::grammar::{Main, main_named};
use crate::ruleset::read::value::is_amount;
use crate::ruleset::read::value::zones::is_zone;
use crate::text::{Content, Entry, Node};

/// What a term looks like before anything in it is resolved.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Sort {
    Name,
    Amount,
    Value,
    Outlines,
    Things,
    Zone,
    Not,
    Requirement,
    Unclear,
}

pub(super) fn sort_of(node: &Node) -> Sort {
    match &node.content {
        Content::Empty => Sort::Unclear,
        Content::Scalar { text, .. } if is_amount(text) => Sort::Amount,
        Content::Scalar { .. } => Sort::Name,
        Content::List(items) if items.iter().any(|item| sort_of(item) == Sort::Requirement) => {
            Sort::Requirement
        }
        Content::List(_) => Sort::Outlines,
        Content::Map(entries) => sort_of_map(node, entries),
    }
}

/// Whether a term written so may say of which kind it speaks, with `of`.
pub(super) fn takes_of(node: &Node) -> bool {
    let zone = |inner: &Node| {
        matches!(
            sort_of(inner),
            Sort::Name | Sort::Zone | Sort::Outlines | Sort::Things
        )
    };
    node.as_map().is_some()
        && match sort_of(node) {
            Sort::Value | Sort::Requirement => true,
            Sort::Not => !node.get("not").is_some_and(zone),
            _ => false,
        }
}

fn sort_of_map(node: &Node, entries: &[Entry]) -> Sort {
    let has = |key: &str| entries.iter().any(|entry| entry.key == key);
    if let Some(kind) = node.get("kind") {
        let dotted = kind.text().is_some_and(|text| text.contains('.'));
        return if dotted || has("outline") || has("counted") {
            Sort::Outlines
        } else {
            Sort::Things
        };
    }
    // `{all: pool.water}`; a requirement for each thing has more keys.
    if entries.len() == 1 && (has("all") || has("each")) {
        return Sort::Outlines;
    }
    if entries.iter().any(|entry| is_zone(&entry.key)) {
        return Sort::Zone;
    }
    if has("not") {
        return Sort::Not;
    }
    let bounded = crate::ruleset::read::rule::bounds::is_bounded(entries);
    let listed_count = node
        .get("count")
        .is_some_and(|count| count.as_list().is_some());
    let mains = || entries.iter().filter_map(|entry| main_named(&entry.key));
    let combined = mains().any(|main| matches!(main, Main::Combination(_)));
    if bounded || listed_count || combined {
        return Sort::Requirement;
    }
    match node.get("table") {
        Some(table) => sort_of_table(table),
        None if mains().next().is_some() => Sort::Value,
        None => Sort::Unclear,
    }
}

/// A table is of the sort its rows are.
fn sort_of_table(table: &Node) -> Sort {
    let rows = table
        .get("rows")
        .and_then(Node::as_list)
        .unwrap_or_default();
    let gives = rows
        .iter()
        .filter_map(|row| row.get("then").or(row.get("otherwise")));
    let requirement = gives
        .map(sort_of)
        .any(|sort| matches!(sort, Sort::Requirement | Sort::Not));
    if requirement {
        Sort::Requirement
    } else {
        Sort::Value
    }
}
