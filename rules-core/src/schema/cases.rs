//! A file of cases.

use serde_json::{Map, Value, json};

use super::parts::{Keys, map, plan_id, said};
use super::plan::top_keys;
use super::syntax;
use super::things::definition_of;
use crate::grammar::plan::{CASE, CASES};
use crate::vocabulary::Vocabulary;

/// Adds what a file of cases has besides plans.
pub(super) fn add(definitions: &mut Map<String, Value>, vocabulary: &Vocabulary) {
    for (_, kind) in vocabulary.kinds() {
        let name = definition_of(kind);
        if let Some(whole) = definitions.get(&name) {
            let part = without_needs(whole);
            definitions.insert(name, part);
        }
    }
    definitions.insert("change".to_owned(), change(vocabulary));
    definitions.insert("case".to_owned(), syntax::map(&CASE));
    definitions.insert("cases".to_owned(), syntax::map(&CASES));
}

/// A thing with only some of its keys. An empty key removes what the base has there.
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

/// A change to the base: a plan in which everything is optional.
fn change(vocabulary: &Vocabulary) -> Value {
    let mut keys: Keys = top_keys(vocabulary);
    let thing = json!({"type": "object", "required": ["id"], "properties": {"id": plan_id()}});
    keys.insert("things".to_owned(), json!({"description": "Things to add, or to change by their ids.", "type": "array", "items": thing}));
    said(
        "What is laid over the base: the maps of a plan key by key, its things by their ids; all else is replaced.",
        map(keys, &[]),
    )
}
