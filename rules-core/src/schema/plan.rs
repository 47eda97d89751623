//! A plan.

use serde_json::{Map, Value, json};

use super::parts::{Keys, any_of, defined, map, or_nothing, plan_id, said};
use super::syntax::{self, properties};
use super::{facts, shapes, things};
use crate::grammar::plan::{ANSWER_GIVEN, DEFINED, LOT_CORNER, PLAN};
use crate::vocabulary::{Matter, Number, Vocabulary};

/// The definitions for plans.
pub(super) fn definitions(vocabulary: &Vocabulary) -> Map<String, Value> {
    let mut definitions = Map::new();
    shapes::define(&mut definitions, vocabulary);
    facts::define(&mut definitions, vocabulary);
    things::define(&mut definitions, vocabulary);
    syntax::define(&mut definitions, &DEFINED);
    let more = [
        ("plan", top(vocabulary)),
        ("thing", things::any_thing(vocabulary)),
        ("inventory", things::inventory(vocabulary)),
        ("corners", corners()),
        ("answered", answered()),
    ];
    definitions.extend(more.map(|(name, schema)| (name.to_owned(), schema)));
    definitions
}

/// The plan itself.
fn top(vocabulary: &Vocabulary) -> Value {
    let needed = PLAN.keys.iter().filter(|key| key.needed);
    let needed: Vec<_> = needed.map(|key| key.name).collect();
    map(top_keys(vocabulary), &needed)
}

/// The keys at the top of a plan.
pub(super) fn top_keys(vocabulary: &Vocabulary) -> Keys {
    let mut top = properties(&PLAN.keys);
    for (_, kind) in vocabulary.kinds() {
        if kind.number == Number::One && kind.name != "lot" {
            let single = or_nothing(defined(&things::definition_of(kind)));
            top.insert(kind.plan_key().to_owned(), said(&kind.ask, single));
        }
    }
    top
}

/// Answers given by others, each under the name of its matter.
fn answered() -> Value {
    let one = syntax::map(&ANSWER_GIVEN);
    let all = Matter::ALL.iter();
    let each = all.map(|it| (it.id().to_owned(), said(it.ask(), one.clone())));
    map(each.collect(), &[])
}

fn corners() -> Value {
    json!({
        "description": "The lot's corners, each with a name, in order round the lot: `{a: [0, 0], b: [24, 0], …}`.",
        "type": "object",
        "propertyNames": plan_id(),
        "minProperties": 3,
        "additionalProperties": any_of(vec![defined("point"), syntax::map(&LOT_CORNER)]),
    })
}
