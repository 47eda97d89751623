//! What a plan can state for a fact.

use serde_json::{Map, Value, json};

use super::amounts::{amount, name_of};
use super::parts::{any_of, choice, defined, keys, list_of, map, put, said, word, yes_no};
use crate::quantity::Dimension;
use crate::vocabulary::{Answer, Fact, Vocabulary};

/// One definition for all facts that are stated in the same way: `stated-length-varies`.
pub(super) fn define(definitions: &mut Map<String, Value>, vocabulary: &Vocabulary) {
    for id in vocabulary.kinds().flat_map(|(_, kind)| &kind.facts) {
        let fact = vocabulary.fact(*id);
        if let Some(name) = shared(fact) {
            definitions.entry(name).or_insert_with(|| possible(fact));
        }
    }
}

/// The name of the definition for a fact; `None` if the fact has words of its own.
fn shared(fact: &Fact) -> Option<String> {
    let sort = match &fact.answer {
        Answer::Amount { dimension, .. } => name_of(*dimension),
        Answer::YesNo => "yes-no",
        Answer::Word { .. } => return None,
    };
    let none = if fact.none { "-or-none" } else { "" };
    let varies = if fact.varies { "-varies" } else { "" };
    Some(format!("stated-{sort}{none}{varies}"))
}

/// The schema of a fact in a plan, with its question.
pub(super) fn stated(fact: &Fact) -> Value {
    let possible = shared(fact).map_or_else(|| possible(fact), |name| defined(&name));
    let mut stated = said(&question(fact), possible);
    put(&mut stated, "title", Value::from(fact.said.as_str()));
    stated
}

fn possible(fact: &Fact) -> Value {
    let known = known(fact);
    let mut single = vec![known.clone()];
    if fact.none {
        single.push(choice("none", "There is none."));
    }
    single.push(choice("unknown", "Nobody knows yet."));
    let choices = any_of(single.clone());
    let one_of = map(keys([("one-of", list_of(choices, 1))]), &["one-of"]);
    single.push(said("What it may still be.", one_of));
    if fact.varies {
        let ends = keys([("from", known.clone()), ("to", known)]);
        single.push(said(
            "The least and the greatest along the thing.",
            map(ends, &["from", "to"]),
        ));
    }
    any_of(single)
}

/// The question for a fact, and how to find the answer in the field.
pub(super) fn question(fact: &Fact) -> String {
    match fact.how.is_empty() {
        true => fact.ask.clone(),
        false => format!("{} {}", fact.ask, fact.how),
    }
}

fn known(fact: &Fact) -> Value {
    match &fact.answer {
        Answer::Amount { dimension, .. } => {
            amount(Some(*dimension), *dimension == Dimension::Length)
        }
        Answer::YesNo => yes_no(),
        Answer::Word { words, open } => words_of(words, *open),
    }
}

/// Words; if others are possible too, these are suggestions.
pub(super) fn words_of(words: &[String], open: bool) -> Value {
    let words = word(words.iter().map(String::as_str));
    if open {
        any_of(vec![words, json!({"type": ["string", "number"]})])
    } else {
        words
    }
}
