//! Where something stands in a plan's document: `things.3.wall` is what the fourth thing says of its wall.
//!
//! The keys stand behind each other with dots between them. A dot that belongs to a key, as in the name of a corner, has a
//! backslash before it.

use crate::edit::tree::{get_mut, list_mut, map_mut, set, take_out};
use crate::text::{Content, Entry, Node};

/// The keys of a path.
fn keys(path: &str) -> Vec<String> {
    let mut keys = vec![String::new()];
    let mut letters = path.chars();
    while let Some(letter) = letters.next() {
        match letter {
            '.' => keys.push(String::new()),
            '\\' => push(&mut keys, letters.next().unwrap_or('\\')),
            other => push(&mut keys, other),
        }
    }
    keys
}

fn push(keys: &mut [String], letter: char) {
    if let Some(last) = keys.last_mut() {
        last.push(letter);
    }
}

/// What stands at a path.
pub fn at<'n>(root: &'n Node, path: &str) -> Option<&'n Node> {
    keys(path).iter().try_fold(root, |node, key| {
        let items = node.as_list();
        let item = items.and_then(|items| items.get(key.parse::<usize>().ok()?));
        item.or_else(|| node.get(key))
    })
}

/// Puts a value at a path, with all that is missing on the way there; no value takes away what stands there, and a section of
/// the plan that is then empty with it.
pub(super) fn put(root: &mut Node, path: &str, value: Option<Node>) {
    let keys = keys(path);
    let Some((last, way)) = keys.split_last() else {
        return;
    };
    let next = way.iter().skip(1).chain([last]);
    let holder = way
        .iter()
        .zip(next)
        .try_fold(&mut *root, |node, (key, below)| step(node, key, below));
    match (holder, value) {
        (Some(node), Some(value)) => put_in(node, last, value),
        (Some(node), None) => take_from(node, last),
        (None, _) => {}
    }
    if let [section] = way {
        drop_empty(root, section);
    }
}

/// What stands under a key, or something empty that is put there: a list where the key below is a number.
fn step<'n>(node: &'n mut Node, key: &str, below: &str) -> Option<&'n mut Node> {
    if list_mut(node).is_some() {
        return list_mut(node)?.get_mut(key.parse::<usize>().ok()?);
    }
    if get_mut(node, key).is_none_or(|node| node.is_empty()) {
        let empty = match below.parse::<usize>() {
            Ok(_) => Content::List(Vec::new()),
            Err(_) => Content::Map(Vec::new()),
        };
        let span = node.span;
        set(
            node,
            key,
            Node {
                span,
                content: empty,
            },
        );
    }
    get_mut(node, key)
}

fn put_in(node: &mut Node, key: &str, value: Node) {
    let Some(items) = list_mut(node) else {
        return set(node, key, value);
    };
    let index = key.parse::<usize>().unwrap_or(items.len());
    match items.get_mut(index) {
        Some(old) => *old = value,
        None => items.push(value),
    }
}

fn take_from(node: &mut Node, key: &str) {
    let Some(items) = list_mut(node) else {
        return take_out(node, key);
    };
    if let Some(index) = key.parse().ok().filter(|index| *index < items.len()) {
        items.remove(index);
    }
}

fn drop_empty(root: &mut Node, section: &str) {
    let is_empty = |entry: &Entry| entry.key == section && entry.value.as_map() == Some(&[]);
    if let Some(entries) = map_mut(root) {
        entries.retain(|entry| !is_empty(entry));
    }
}
