//! The made cases, written out to be kept.

use super::EdgeCase;
use super::made::scalar;
use crate::edit::tree::{list, map, set};
use crate::text::{Content, Entry, Node, Span};

/// The cases as a list to put under `cases`, each with its changes to the plan that all cases of the file share.
pub fn kept(edges: &[EdgeCase], cases: &Node) -> Node {
    let base = cases.get("base");
    let mut all = Vec::new();
    for (number, limit) in edges.iter().enumerate() {
        for edge in &limit.edges {
            let place = edge.place.replace(' ', "-");
            let mut case = map([
                (
                    "case",
                    scalar(&format!("{}-{}-{place}", limit.rule, number + 1)),
                ),
                (
                    "title",
                    quoted(&format!("{}: {}, {}", limit.limit, edge.place, edge.amount)),
                ),
            ]);
            say_plan(&mut case, base, &edge.plan);
            set(
                &mut case,
                "expect",
                map([(limit.rule.as_str(), scalar(edge.outcome.word()))]),
            );
            all.push(case);
        }
    }
    list(all)
}

fn quoted(text: &str) -> Node {
    Node {
        span: Span::default(),
        content: Content::Scalar {
            text: text.to_owned(),
            quoted: true,
        },
    }
}

/// Writes the changes to the shared plan, or the whole plan if none is shared.
fn say_plan(case: &mut Node, base: Option<&Node>, plan: &Node) {
    let Some(base) = base else {
        set(case, "plan", plan.clone());
        return;
    };
    let change = change(base, plan);
    if change.as_map().is_some_and(|entries| !entries.is_empty()) {
        set(case, "change", change);
    }
    let gone: Vec<Node> = things(base)
        .filter(|id| !things(plan).any(|it| it == *id))
        .map(scalar)
        .collect();
    if !gone.is_empty() {
        set(case, "without", list(gone));
    }
}

fn things(plan: &Node) -> impl Iterator<Item = &str> {
    let things = plan
        .get("things")
        .and_then(Node::as_list)
        .unwrap_or_default();
    things.iter().filter_map(|thing| thing.get("id")?.text())
}

/// The changes that turn one plan into another.
fn change(base: &Node, plan: &Node) -> Node {
    by_key(
        base,
        plan,
        &|_, old, new| match (old.as_map(), old.as_list(), new.as_list()) {
            (Some(_), ..) if new.as_map().is_some() => by_key(old, new, &|_, _, new| new.clone()),
            (_, Some(old), Some(new)) if has_ids(old) && has_ids(new) => by_id(old, new),
            _ => new.clone(),
        },
    )
}

/// The keys of a map that differ from another's; removed keys have an empty value.
fn by_key(base: &Node, plan: &Node, both: &dyn Fn(&str, &Node, &Node) -> Node) -> Node {
    let (old, new) = (
        base.as_map().unwrap_or_default(),
        plan.as_map().unwrap_or_default(),
    );
    let changed = new.iter().filter_map(|entry| match base.get(&entry.key) {
        Some(old) if same(old, &entry.value) => None,
        Some(old) => Some((entry.key.as_str(), both(&entry.key, old, &entry.value))),
        None => Some((entry.key.as_str(), entry.value.clone())),
    });
    let gone = old
        .iter()
        .filter(|entry| plan.get(&entry.key).is_none() && !entry.value.is_empty());
    let gone = gone.map(|entry| (entry.key.as_str(), nothing()));
    map(changed.chain(gone).collect::<Vec<_>>())
}

fn has_ids(items: &[Node]) -> bool {
    items.iter().all(|item| item.get("id").is_some())
}

/// New and changed things, each with only what is new in it.
fn by_id(old: &[Node], new: &[Node]) -> Node {
    let id = |thing: &Node| thing.get("id").and_then(Node::text).map(str::to_owned);
    let changed = new.iter().filter_map(|thing| {
        let Some(was) = old.iter().find(|was| id(was) == id(thing)) else {
            return Some(thing.clone());
        };
        let changed = by_key(was, thing, &|_, _, new| new.clone());
        let any = changed.as_map().is_some_and(|entries| !entries.is_empty());
        let mut named = map([("id", scalar(&id(thing)?))]);
        for entry in changed.as_map().unwrap_or_default() {
            set(&mut named, &entry.key, entry.value.clone());
        }
        any.then_some(named)
    });
    list(changed.collect())
}

fn nothing() -> Node {
    Node {
        span: Span::default(),
        content: Content::Empty,
    }
}

/// Whether two parts of plans have the same content, wherever they stand.
fn same(one: &Node, other: &Node) -> bool {
    let pairs = |one: &[Node], other: &[Node]| {
        one.len() == other.len() && one.iter().zip(other).all(|(one, other)| same(one, other))
    };
    let entries = |one: &[Entry], other: &[Entry]| {
        one.len() == other.len()
            && one
                .iter()
                .zip(other)
                .all(|(one, other)| one.key == other.key && same(&one.value, &other.value))
    };
    match (&one.content, &other.content) {
        (Content::Map(one), Content::Map(other)) => entries(one, other),
        (Content::List(one), Content::List(other)) => pairs(one, other),
        (Content::Scalar { text: one, .. }, Content::Scalar { text: other, .. }) => one == other,
        (one, other) => one == other,
    }
}
