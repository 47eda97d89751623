//! How to write as a list what should have been one.

use crate::grammar::{Main, main_named};
use crate::text::{Content, Entry, Node, begins_with_bullet, in_short};

/// Lists of which an example says more than a rule, by their keys.
const EXAMPLES: [(&str, &str); 13] = [
    (
        "all-of",
        "[{fact: pool.depth, at-most: 2 m}, {count: gate, at-most: 1}]",
    ),
    (
        "any-of",
        "[{fact: pool.depth, at-most: 2 m}, {count: gate, at-most: 1}]",
    ),
    ("relief", "[{id: consent, require: {have: consent}}]"),
    ("rows", "[{less-than: 500 m2, then: 1 m}, {otherwise: 2 m}]"),
    ("sum", "[pool.depth, 1 m]"),
    ("difference", "[pool.depth, 1 m]"),
    ("largest-of", "[pool.depth, 1 m]"),
    ("smallest-of", "[pool.depth, 1 m]"),
    ("product", "[2, pool.depth]"),
    (
        "documents",
        "[{id: consent, title: Consent of the neighbour, from: the neighbour}]",
    ),
    (
        "cautions",
        "[{id: digging, says: Have buried pipes located first.}]",
    ),
    (
        "do",
        "[{id: notify, what: Tell the neighbours, before: build}]",
    ),
    (
        "questions",
        "[{id: corner-lot, ask: Is it a corner lot?, answer: yes-no}]",
    ),
];

/// Keys of an item that has a name, besides its name.
const OF_ITEMS: [&str; 4] = ["title", "ask", "says", "what"];

/// How to write this as a list.
pub(super) fn as_list(node: &Node, key: &str) -> String {
    match &node.content {
        Content::Scalar { text, .. } if begins_with_bullet(text) => {
            "The mark at its beginning is no hyphen: type `-`, the hyphen of the keyboard, and a space.".to_owned()
        }
        Content::Map(entries) => entries.first().map_or_else(String::new, |first| {
            map_as_list(node, key, first)
        }),
        _ => match EXAMPLES.iter().find(|(known, _)| *known == key) {
            Some((_, example)) => format!("Write a list, as in `{key}: {example}`."),
            None => "Begin each item with `- ` on a line of its own.".to_owned(),
        },
    }
}

fn map_as_list(node: &Node, key: &str, first: &Entry) -> String {
    let name = &first.key;
    let is_item = OF_ITEMS.iter().any(|key| first.value.get(key).is_some());
    if first.value.as_list().is_some() {
        return format!("Take out `{name}:`, so that the list stands right under `{key}`.");
    }
    if is_item {
        return format!(
            "In place of `{name}:` write `- id: {name}`, and put its other keys below, under `id`."
        );
    }
    match node.is_braced() {
        true => format!("Put brackets round it: `{key}: [{}]`.", in_short(node)),
        false => format!(
            "Put `- ` before `{name}`, and two more spaces before the other lines of this item."
        ),
    }
}

/// Keys that choose among the things after `each`.
const CHOOSING: [&str; 4] = ["each", "where", "in", "if-none"];

/// What must hold of each of some things, with its `require`.
fn for_each(node: &Node, entries: &[Entry]) -> Option<String> {
    let chooses = |entry: &&Entry| CHOOSING.contains(&entry.key.as_str());
    let (chosen, rest): (Vec<&Entry>, Vec<&Entry>) = entries.iter().partition(chooses);
    let first = rest.first()?;
    if !chosen.iter().any(|entry| entry.key == "each") || first.key == "require" {
        return None;
    }
    if !node.is_braced() {
        return Some(format!(
            "Write `require:` in the column of `each`, and put `{}` and what belongs to it under it, two spaces further in.",
            first.key
        ));
    }
    let of = |entries: Vec<&Entry>| {
        in_short(&Node {
            content: Content::Map(entries.into_iter().cloned().collect()),
            ..*node
        })
    };
    let chosen = of(chosen);
    let chosen = chosen.trim_end_matches('}');
    Some(format!("Write `{chosen}, require: {}}}`.", of(rest)))
}

/// What to write for a measure with a table beside it in place of a limit.
fn table_as_limit(entries: &[Entry]) -> Option<String> {
    let [measure, table] = entries else {
        return None;
    };
    let measured = main_named(&measure.key).is_some_and(|main| matches!(main, Main::Measure(_)));
    (measured && table.key == "table").then(|| {
        format!(
            "If the table says how much `{}` must be, it stands under the limit: write `at-least:`, or `at-most:`, in place of `table:`, put `table:` under it, two spaces further in, and move its rows with it.",
            measure.key
        )
    })
}

/// Two requirements in one map, as a list of two.
pub(super) fn two_requirements(node: &Node, entries: &[Entry]) -> String {
    if let Some(help) = for_each(node, entries).or_else(|| table_as_limit(entries)) {
        return help;
    }
    let mut parts: Vec<Vec<Entry>> = Vec::new();
    for entry in entries {
        let begun = |part: &Vec<Entry>| part.iter().any(|it| main_named(&it.key).is_some());
        match parts.last_mut() {
            Some(part) if main_named(&entry.key).is_none() || !begun(part) => {
                part.push(entry.clone())
            }
            _ => parts.push(vec![entry.clone()]),
        }
    }
    if !node.is_braced() {
        let firsts: Vec<_> = parts
            .iter()
            .filter_map(|part| part.first())
            .map(|it| format!("`{}`", it.key))
            .collect();
        return format!(
            "Make a list of them: put `- ` before {}, and two more spaces before the other lines.",
            firsts.join(" and ")
        );
    }
    let parts = parts.into_iter().map(|part| {
        in_short(&Node {
            span: node.span,
            content: Content::Map(part),
        })
    });
    format!(
        "Make a list of them: `[{}]`.",
        parts.collect::<Vec<_>>().join(", ")
    )
}
