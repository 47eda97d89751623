//! The names that a rule file uses: kinds, outlines and facts, and names of its own.

use serde_json::{Map, Value, json};

use super::facts::question;
use super::parts::{any_of, choice};
use crate::vocabulary::{FactId, Role, Vocabulary};

/// A rule file's own name: a term, or a part of a kind of its own.
const OWN: &str = "^[a-z][a-z0-9-]*$";
const OWN_PART: &str = r"^[a-z][a-z0-9-]*(\.[a-z][a-z0-9-]*)?$";

/// The definitions of names.
pub(super) fn define(definitions: &mut Map<String, Value>, vocabulary: &Vocabulary) {
    let list = [
        ("kind-name", kinds(vocabulary)),
        ("outline-name", outlines(vocabulary)),
        ("fact-name", facts(vocabulary)),
        ("day-name", days(vocabulary)),
    ];
    definitions.extend(list.map(|(name, schema)| (name.to_owned(), schema)));
}

fn or_own(mut known: Vec<Value>, pattern: &str, own: &str) -> Value {
    known.push(json!({"type": "string", "pattern": pattern, "description": own}));
    any_of(known)
}

fn kinds(vocabulary: &Vocabulary) -> Value {
    let kinds = vocabulary
        .kinds()
        .map(|(_, kind)| choice(&kind.name, &kind.said));
    or_own(kinds.collect(), OWN, "A term, or a kind of this rule set.")
}

fn outlines(vocabulary: &Vocabulary) -> Value {
    let all = vocabulary.kinds().flat_map(|(_, kind)| &kind.outlines);
    let known = all.map(|id| choice(&vocabulary.outline_path(*id), &vocabulary.outline(*id).said));
    or_own(
        known.collect(),
        OWN_PART,
        "A term, a kind, or an outline of either.",
    )
}

fn facts(vocabulary: &Vocabulary) -> Value {
    let all = vocabulary.kinds().flat_map(|(_, kind)| &kind.facts);
    let known = all.flat_map(|id| {
        let asked = question(vocabulary.fact(*id));
        spellings(vocabulary, *id)
            .into_iter()
            .map(move |name| choice(&name, &asked))
    });
    or_own(
        known.collect(),
        OWN_PART,
        "A question or a fact of this rule set, or a term.",
    )
}

/// The days that the program knows of.
fn days(vocabulary: &Vocabulary) -> Value {
    let events = vocabulary.with_role(Role::Events);
    let facts = events
        .into_iter()
        .flat_map(|kind| &vocabulary.kind(kind).facts);
    let known = facts.map(|id| choice(&vocabulary.fact(*id).name, &question(vocabulary.fact(*id))));
    or_own(known.collect(), OWN_PART, "A fact that is a day.")
}

/// How a rule file may write a fact: with its kind, and also without it for a date or a question of its own.
pub(super) fn spellings(vocabulary: &Vocabulary, id: FactId) -> Vec<String> {
    let fact = vocabulary.fact(id);
    let short = vocabulary.kind(fact.kind).is_short();
    let whole = vocabulary.fact_path(id);
    if short {
        vec![whole, fact.name.clone()]
    } else {
        vec![whole]
    }
}
