//! Finding and changing parts of a document's tree.

use crate::text::{Content, Entry, Node, Span};

/// What a map says under a key.
pub(crate) fn get_mut<'n>(node: &'n mut Node, key: &str) -> Option<&'n mut Node> {
    let Content::Map(entries) = &mut node.content else {
        return None;
    };
    let entry = entries.iter_mut().find(|entry| entry.key == key)?;
    Some(&mut entry.value)
}

pub(crate) fn list_mut(node: &mut Node) -> Option<&mut Vec<Node>> {
    match &mut node.content {
        Content::List(items) => Some(items),
        _ => None,
    }
}

pub(crate) fn map_mut(node: &mut Node) -> Option<&mut Vec<Entry>> {
    match &mut node.content {
        Content::Map(entries) => Some(entries),
        _ => None,
    }
}

/// Puts a value under a key, in the place of what stood there or at the end.
pub(crate) fn set(node: &mut Node, key: &str, value: Node) {
    if let Some(old) = get_mut(node, key) {
        *old = value;
        return;
    }
    if let Some(entries) = map_mut(node) {
        entries.push(Entry {
            key: key.to_owned(),
            key_span: Span::default(),
            value,
        });
    }
}

/// Takes a key and what it says out of a map.
pub(crate) fn take_out(node: &mut Node, key: &str) {
    if let Some(entries) = map_mut(node) {
        entries.retain(|entry| entry.key != key);
    }
}

pub(crate) fn list(items: Vec<Node>) -> Node {
    Node {
        span: Span::default(),
        content: Content::List(items),
    }
}

pub(crate) fn map<'k>(entries: impl IntoIterator<Item = (&'k str, Node)>) -> Node {
    let entry = |(key, value): (&str, Node)| Entry {
        key: key.to_owned(),
        key_span: Span::default(),
        value,
    };
    Node {
        span: Span::default(),
        content: Content::Map(entries.into_iter().map(entry).collect()),
    }
}

/// A thing of the plan: one of `things`, or a pool; `pool` stands for the only one, whatever its id.
pub(crate) fn thing_mut<'n>(plan: &'n mut Node, id: &str) -> Option<&'n mut Node> {
    let is_it = |node: &Node| node.get("id").and_then(Node::text) == Some(id);
    let listed = plan
        .get("things")
        .and_then(Node::as_list)
        .unwrap_or_default();
    if let Some(place) = listed.iter().position(is_it) {
        return list_mut(get_mut(plan, "things")?)?.get_mut(place);
    }
    let pool = get_mut(plan, "pool")?;
    match pool.as_list().is_some() {
        true => {
            let pools = list_mut(pool)?;
            let only = pools.len() == 1 && id == "pool";
            let place = pools.iter().position(is_it).or(only.then_some(0));
            pools.get_mut(place?)
        }
        false => (is_it(pool) || id == "pool").then_some(pool),
    }
}

/// The ids of all things that are part of one.
pub(crate) fn parts_of(plan: &Node, id: &str) -> Vec<String> {
    let things = plan
        .get("things")
        .and_then(Node::as_list)
        .unwrap_or_default();
    let parts = things
        .iter()
        .filter(|thing| thing.get("part-of").and_then(Node::text) == Some(id));
    parts
        .filter_map(|part| part.get("id")?.text().map(str::to_owned))
        .collect()
}

/// The ids of all things.
pub(crate) fn ids(plan: &Node) -> Vec<&str> {
    let things = plan
        .get("things")
        .and_then(Node::as_list)
        .unwrap_or_default();
    let pools = plan.get("pool").into_iter();
    let pools = pools.flat_map(|pool| pool.as_list().unwrap_or(std::slice::from_ref(pool)));
    things
        .iter()
        .chain(pools)
        .filter_map(|thing| thing.get("id")?.text())
        .collect()
}
