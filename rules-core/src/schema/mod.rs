//! JSON Schemas (draft 2020-12) of the files that people write, built from the vocabulary and the grammar.
//!
//! With them, an editor completes kinds, facts and words, shows the question behind each, and underlines slips as you
//! type. They accept whatever the reader accepts. What a schema cannot see (an undefined term, a distance from a thing
//! to itself) is left to the reader, which has the last word.

mod amounts;
mod cases;
mod facts;
mod names;
mod parts;
mod plan;
mod requirement;
mod rules;
mod shapes;
mod syntax;
mod things;

use serde_json::{Map, Value, json};

use crate::vocabulary::Vocabulary;

/// The schema of a plan with the vocabulary's kinds of things.
pub fn plan(vocabulary: &Vocabulary) -> Value {
    let definitions = plan::definitions(vocabulary);
    whole(
        "plan.json",
        "A plan of a home with a pool",
        "plan",
        definitions,
    )
}

/// The schema of a rule file. Since a rule file may add kinds and facts of its own, names unknown to the vocabulary are
/// let through.
pub fn rule_set(vocabulary: &Vocabulary) -> Value {
    let definitions = rules::definitions(vocabulary);
    whole("rule-set.json", "A rule file", "rule-set", definitions)
}

/// The schema of a file of cases: small example plans with the outcomes that the rules must give on them.
pub fn cases(vocabulary: &Vocabulary) -> Value {
    let mut definitions = plan::definitions(vocabulary);
    cases::add(&mut definitions, vocabulary);
    whole("cases.json", "A file of cases", "cases", definitions)
}

fn whole(id: &str, title: &str, top: &str, definitions: Map<String, Value>) -> Value {
    json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$id": id,
        "title": title,
        "$ref": format!("#/$defs/{top}"),
        "$defs": definitions,
    })
}
