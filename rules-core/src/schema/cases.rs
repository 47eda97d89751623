//! A file of cases.

use serde_json::{Map, Value, json};

use super::parts::{Keys, defined, keys, list_of, map, said, short_name, text, word};
use super::plan::top_keys;
use super::things::definition_of;
use crate::vocabulary::Vocabulary;

/// A rule's outcomes, in the report's words.
pub(super) const OUTCOMES: [&str; 6] = [
    "pass",
    "fail",
    "marginal",
    "unknown",
    "refer",
    "not-applicable",
];

/// Adds what a file of cases has beside plans.
pub(super) fn add(definitions: &mut Map<String, Value>, vocabulary: &Vocabulary) {
    for (_, kind) in vocabulary.kinds() {
        let name = definition_of(kind);
        if let Some(whole) = definitions.get(&name) {
            let part = without_needs(whole);
            definitions.insert(name, part);
        }
    }
    definitions.insert(
        "plan".to_owned(),
        map(top_keys(vocabulary), &["plan", "title", "lot", "pool"]),
    );
    definitions.insert("change".to_owned(), change(vocabulary));
    definitions.insert("case".to_owned(), case());
    definitions.insert("cases".to_owned(), top());
}

/// A thing of which only some keys are written; a key with nothing after it is taken out.
fn without_needs(whole: &Value) -> Value {
    let mut part = whole.clone();
    let Some(map) = part.as_object_mut() else {
        return part;
    };
    map.remove("required");
    if let Some(keys) = map.get_mut("properties").and_then(Value::as_object_mut) {
        for (_, value) in keys {
            let may = std::mem::take(value);
            *value = json!({"anyOf": [may, {"type": "null"}]});
        }
    }
    part
}

/// What is laid over the base: a plan of which everything may be left out.
fn change(vocabulary: &Vocabulary) -> Value {
    let mut keys: Keys = top_keys(vocabulary);
    let thing = json!({"type": "object", "required": ["id"], "properties": {"id": short_name()}});
    keys.insert("things".to_owned(), json!({"description": "Things to add, or to change by their ids.", "type": "array", "items": thing}));
    said(
        "What is laid over the base: the maps of a plan key by key, its things by their ids; all else is replaced.",
        map(keys, &[]),
    )
}

/// One case.
pub(super) fn case() -> Value {
    let outcomes = || word(OUTCOMES.into_iter().chain(["unsaid"]));
    let keys = keys([
        ("case", said("A short name.", short_name())),
        ("title", said("What it shows.", text())),
        (
            "plan",
            said("A plan of its own, in place of the base.", defined("plan")),
        ),
        ("change", defined("change")),
        (
            "without",
            said("Things of the base that are left out.", list_of(text(), 0)),
        ),
        (
            "expect",
            said(
                "Rules, and what each must come to.",
                json!({"type": "object", "additionalProperties": outcomes()}),
            ),
        ),
        (
            "all-others",
            said(
                "What all other rules of the file itself must come to.",
                outcomes(),
            ),
        ),
        (
            "decide",
            said(
                "Questions, and the class that each must be decided to be; a list where it must stay open between these.",
                json!({"type": "object", "additionalProperties": {"anyOf": [text(), list_of(text(), 1)]}}),
            ),
        ),
        (
            "verdict",
            said(
                "What all binding rules together must come to.",
                word(["does-not-comply", "not-decided", "nothing-against"]),
            ),
        ),
    ]);
    map(keys, &["case", "title"])
}

fn top() -> Value {
    let keys = keys([
        (
            "base",
            said("The plan that the cases share.", defined("plan")),
        ),
        ("cases", list_of(defined("case"), 0)),
    ]);
    map(keys, &["cases"])
}
