//! A rule file.

use serde_json::{Map, Value, json};

use super::parts::{any_of, choice, put, text};
use super::{names, requirement, syntax};
use crate::grammar::{ADDITION, Declaration, PART_REPLACED, RULE_FILE, WITHDRAWAL};
use crate::vocabulary::{Matter, Vocabulary};

/// The definitions for rule files.
pub(super) fn definitions(vocabulary: &Vocabulary) -> Map<String, Value> {
    let mut definitions = Map::new();
    names::define(&mut definitions, vocabulary);
    requirement::define(&mut definitions, vocabulary);
    syntax::define(&mut definitions, &RULE_FILE);
    let more = [
        ("entry", entry()),
        ("told", told_text()),
        ("matter", matter()),
    ];
    definitions.extend(more.map(|(name, schema)| (name.to_owned(), schema)));
    definitions
}

/// A text for people: one for all, or one for each language.
fn told_text() -> Value {
    let languages = json!({
        "type": "object",
        "minProperties": 1,
        "propertyNames": {"pattern": "^[a-z]{2,3}(-[A-Z]{2})?$"},
        "additionalProperties": text(),
    });
    any_of(vec![text(), languages])
}

fn matter() -> Value {
    let all = Matter::ALL.iter();
    any_of(all.map(|it| choice(it.id(), it.said())).collect())
}

/// A rule, or an edit of one, told apart by its key.
fn entry() -> Value {
    let edits: [(&str, &Declaration); 3] = [
        ("with", &PART_REPLACED),
        ("adds-to", &ADDITION),
        ("withdraws", &WITHDRAWAL),
    ];
    let rule = super::parts::defined("rule");
    let mut entry = edits.into_iter().fold(rule, |other, (key, edit)| {
        json!({"if": {"required": [key]}, "then": syntax::map(edit), "else": other})
    });
    put(&mut entry, "type", Value::from("object"));
    entry
}
