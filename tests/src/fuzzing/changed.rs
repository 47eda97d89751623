//! A tree changed in a few places: something inserted, left out, repeated, wrapped, or renamed.

use rules_core::text::{Content, Entry, Node, Span};

use super::stock::{Stock, scalar};
use crate::random_plans::Random;

/// The same tree with this many changes.
pub(super) fn changed(tree: &Node, changes: i64, stock: &Stock, random: &mut Random) -> Node {
    let mut tree = tree.clone();
    for _ in 0..changes {
        let last = i64::try_from(parts(&tree)).unwrap_or(1) - 1;
        let mut left = random.within(0, last);
        change(&mut tree, "", &mut left, stock, random);
    }
    tree
}

fn parts(node: &Node) -> usize {
    1 + match &node.content {
        Content::List(items) => items.iter().map(parts).sum(),
        Content::Map(entries) => entries.iter().map(|entry| parts(&entry.value)).sum(),
        Content::Empty | Content::Scalar { .. } => 0,
    }
}

/// Passes `left` parts and changes the next one. Returns whether it got that far.
fn change(node: &mut Node, key: &str, left: &mut i64, stock: &Stock, random: &mut Random) -> bool {
    if *left == 0 {
        here(node, key, stock, random);
        return true;
    }
    *left -= 1;
    match &mut node.content {
        Content::List(items) => items
            .iter_mut()
            .any(|item| change(item, key, left, stock, random)),
        Content::Map(entries) => entries
            .iter_mut()
            .any(|entry| change(&mut entry.value, &entry.key, left, stock, random)),
        Content::Empty | Content::Scalar { .. } => false,
    }
}

fn here(node: &mut Node, key: &str, stock: &Stock, random: &mut Random) {
    match (random.within(0, 6), &mut node.content) {
        (0 | 1, _) => *node = stock.value(key, random),
        (2, Content::List(items)) => again(items, random),
        (2, Content::Map(entries)) | (3, Content::Map(entries)) => one_key(entries, stock, random),
        (3, Content::List(items)) => {
            let at = place(items.len(), random);
            items.drain(at..(at + 1).min(items.len()));
        }
        (4, _) => *node = wrapped(node, stock, random),
        (_, Content::Scalar { .. } | Content::Empty) => *node = stock.word(random),
        _ => *node = stock.value(key, random),
    }
}

fn place(length: usize, random: &mut Random) -> usize {
    let last = i64::try_from(length).unwrap_or(1).max(1) - 1;
    usize::try_from(random.within(0, last)).unwrap_or(0)
}

/// Repeats an item, now and then many times over.
fn again(items: &mut Vec<Node>, random: &mut Random) {
    let at = place(items.len(), random);
    let times = if random.once_in(10) { 200 } else { 1 };
    if let Some(item) = items.get(at).cloned() {
        items.splice(at..at, std::iter::repeat_n(item, times));
    }
}

/// Leaves out a key, renames one, or adds one.
fn one_key(entries: &mut Vec<Entry>, stock: &Stock, random: &mut Random) {
    let at = place(entries.len(), random);
    let key = stock.key(random);
    match (random.within(0, 2), entries.get_mut(at)) {
        (0, Some(_)) => {
            entries.remove(at);
        }
        (1, Some(entry)) => entry.key = key,
        _ => {
            let value = stock.value(&key, random);
            entries.push(entry_of(&key, value));
        }
    }
    let mut seen = std::collections::BTreeSet::new();
    entries.retain(|entry| seen.insert(entry.key.clone()));
}

/// Wraps it in something that takes a requirement, a value or a zone.
fn wrapped(node: &Node, stock: &Stock, random: &mut Random) -> Node {
    let list = |times| Node {
        span: Span::default(),
        content: Content::List(vec![node.clone(); times]),
    };
    let (key, value) = match random.within(0, 7) {
        0 => ("not", node.clone()),
        1 => ("all-of", list(2)),
        2 => ("any-of", list(2)),
        3 => ("sum", list(3)),
        4 => ("largest-of", list(2)),
        5 => ("difference", list(2)),
        6 => ("product", list(2)),
        _ => ("require", node.clone()),
    };
    let mut entries = vec![entry_of(key, value)];
    if key == "require" {
        entries.push(entry_of("each", stock.value("each", random)));
    }
    match random.once_in(6) {
        true => scalar(key),
        false => Node {
            span: Span::default(),
            content: Content::Map(entries),
        },
    }
}

fn entry_of(key: &str, value: Node) -> Entry {
    Entry {
        key: key.to_owned(),
        key_span: Span::default(),
        value,
    }
}
