//! One plan laid over another.

use crate::text::{Content, Entry, Node, in_quotes};

/// One plan with a change laid over it.
pub fn laid_over(base: &Node, change: &Node) -> Node {
    merged(base, change, |under, over| {
        match (under.as_map(), under.as_list()) {
            (Some(_), _) if over.as_map().is_some() => merged(under, over, |_, new| new.clone()),
            (_, Some(things)) if has_ids(over) => with_things(things, over),
            _ => over.clone(),
        }
    })
}

/// A map with its keys changed. `both` gives the new value of a key that both maps have.
fn merged(base: &Node, change: &Node, both: impl Fn(&Node, &Node) -> Node) -> Node {
    let (Some(under), Some(over)) = (base.as_map(), change.as_map()) else {
        return change.clone();
    };
    let mut entries = under.to_vec();
    for new in over {
        let place = entries.iter().position(|old| old.key == new.key);
        match place.and_then(|place| entries.get_mut(place)) {
            Some(old) => old.value = both(&old.value, &new.value),
            None => entries.push(new.clone()),
        }
    }
    entries.retain(|entry| !entry.value.is_empty());
    Node {
        span: change.span,
        content: Content::Map(entries),
    }
}

fn has_ids(list: &Node) -> bool {
    list.as_list()
        .is_some_and(|items| items.iter().all(|item| item.get("id").is_some()))
}

fn with_things(things: &[Node], change: &Node) -> Node {
    let mut list = things.to_vec();
    for new in change.as_list().unwrap_or_default() {
        let place = list.iter().position(|old| id(old) == id(new));
        match place.and_then(|place| list.get_mut(place)) {
            Some(old) => *old = merged(old, new, |_, new| new.clone()),
            None => list.push(new.clone()),
        }
    }
    Node {
        span: change.span,
        content: Content::List(list),
    }
}

fn id(thing: &Node) -> Option<&str> {
    thing.get("id")?.text()
}

pub(super) fn leave_out(plan: &mut Node, gone: &[&str]) {
    let Content::Map(entries) = &mut plan.content else {
        return;
    };
    let things = entries.iter_mut().find(|entry| entry.key == "things");
    if let Some(Entry {
        value: Node {
            content: Content::List(list),
            ..
        },
        ..
    }) = things
    {
        list.retain(|thing| id(thing).is_none_or(|id| !gone.contains(&id)));
    }
}

/// Part of a text as JSON, with every value as a string, so that the plan reader sees `0.10 m` and `yes` as they were
/// written.
pub fn json(node: &Node) -> String {
    match &node.content {
        Content::Empty => "null".to_owned(),
        Content::Scalar { text, .. } => in_quotes(text),
        Content::List(items) => format!("[{}]", joined(items.iter().map(json))),
        Content::Map(entries) => {
            let pairs = entries
                .iter()
                .map(|entry| format!("{}: {}", in_quotes(&entry.key), json(&entry.value)));
            format!("{{{}}}", joined(pairs))
        }
    }
}

fn joined(parts: impl Iterator<Item = String>) -> String {
    parts.collect::<Vec<_>>().join(", ")
}
