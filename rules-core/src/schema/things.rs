//! The things of a plan, kind by kind.

use serde_json::{Map, Value, json};

use super::facts::stated;
use super::parts::{Keys, any_of, choice, defined, defined_as, map, put, said};
use super::shapes::outline;
use super::syntax::properties;
use crate::grammar::plan::{LOT, PLACED, SIDE, THING};
use crate::vocabulary::{Kind, KindId, Number, Role, Vocabulary};

/// The name of a kind's definition: `thing-gate`.
pub(super) fn definition_of(kind: &Kind) -> String {
    format!("thing-{}", kind.name)
}

/// Whether things of this kind are listed under `things`.
pub(super) fn listed(kind: &Kind) -> bool {
    kind.is_listed()
}

/// A definition for each kind.
pub(super) fn define(definitions: &mut Map<String, Value>, vocabulary: &Vocabulary) {
    for (id, kind) in vocabulary.kinds() {
        let thing = match kind.role {
            Some(Role::Lot) => lot(vocabulary, id),
            Some(Role::LotLine) => side(vocabulary, id),
            Some(Role::Answers) => answers(vocabulary, id),
            _ if kind.number == Number::One => map(facts(vocabulary, id), &[]),
            _ => thing(vocabulary, id),
        };
        definitions.insert(definition_of(kind), said(&kind.said, with_named(thing)));
    }
}

/// How a word is written with its rule set in front: `florida/counts-on-barrier`.
const NAMED: &str = "^[a-z][a-z0-9-]*/[a-z][a-z0-9-]*$";

/// A map whose keys may name the rule set they belong to, for a plan used with several rule sets.
fn with_named(mut map: Value) -> Value {
    let any = said("A word of the rule set named before the `/`.", json!({}));
    put(&mut map, "patternProperties", json!({NAMED: any}));
    map
}

/// The facts of a kind.
fn facts(vocabulary: &Vocabulary, kind: KindId) -> Keys {
    let mut all = Keys::new();
    for &id in &vocabulary.kind(kind).facts {
        let fact = vocabulary.fact(id);
        let schema = stated(fact);
        // Two rule sets may each have added a fact of the same name.
        let both = match all.remove(&fact.name) {
            Some(other) if other != schema => any_of(vec![other, schema]),
            _ => schema,
        };
        all.insert(fact.name.clone(), both);
    }
    all
}

fn placed(vocabulary: &Vocabulary, kind: KindId) -> Keys {
    let mut all = facts(vocabulary, kind);
    for &id in &vocabulary.kind(kind).outlines {
        let name = vocabulary.outline(id).name.clone();
        all.insert(name, outline(vocabulary, kind, id));
    }
    all.extend(properties(&PLACED));
    all
}

fn thing(vocabulary: &Vocabulary, kind: KindId) -> Value {
    let mut all = placed(vocabulary, kind);
    all.extend(properties(&THING.keys));
    let kind = vocabulary.kind(kind);
    all.insert("kind".to_owned(), choice(&kind.name, &kind.said));
    map(all, &["id"])
}

fn lot(vocabulary: &Vocabulary, kind: KindId) -> Value {
    let mut all = placed(vocabulary, kind);
    all.remove("boundary");
    all.extend(properties(&LOT.keys));
    map(all, &["corners"])
}

fn side(vocabulary: &Vocabulary, kind: KindId) -> Value {
    let mut all = placed(vocabulary, kind);
    for &outline in &vocabulary.kind(kind).outlines {
        all.remove(&vocabulary.outline(outline).name);
    }
    all.extend(properties(&SIDE.keys));
    map(all, &["id", "from", "to"])
}

/// The answers to a rule set's own questions, some of which the vocabulary does not know.
fn answers(vocabulary: &Vocabulary, kind: KindId) -> Value {
    let mut answers = map(facts(vocabulary, kind), &[]);
    put(&mut answers, "additionalProperties", Value::from(true));
    answers
}

/// One of `things`: its kind says what else it may have.
pub(super) fn any_thing(vocabulary: &Vocabulary) -> Value {
    let kinds: Vec<_> = vocabulary
        .kinds()
        .map(|(_, kind)| kind)
        .filter(|kind| listed(kind))
        .collect();
    let named = json!({"type": "string", "pattern": NAMED});
    let choices = kinds.iter().map(|kind| choice(&kind.name, &kind.said));
    let choices = choices
        .chain([said("A kind of the rule set named before the `/`.", named)])
        .collect();
    let by_kind: Vec<_> = kinds.iter().map(|kind| {
        json!({"if": {"properties": {"kind": {"const": kind.name}}, "required": ["kind"]}, "then": defined(&definition_of(kind))})
    }).collect();
    json!({
        "type": "object",
        "properties": {"kind": said("What kind of thing it is.", any_of(choices))},
        "required": ["kind", "id"],
        "allOf": by_kind,
    })
}

/// What was looked for.
pub(super) fn inventory(vocabulary: &Vocabulary) -> Value {
    let kinds = vocabulary
        .kinds()
        .map(|(_, kind)| kind)
        .filter(|kind| kind.number != Number::One);
    let asked = kinds.map(|kind| (kind.name.clone(), defined_as("looked", &kind.ask)));
    let mut inventory = with_named(map(asked.collect(), &[]));
    put(
        &mut inventory,
        "description",
        Value::from("What was looked for: a kind that is not listed here counts as not checked."),
    );
    inventory
}
