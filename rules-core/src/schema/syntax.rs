//! Schemas made from the grammar's declarations.

use serde_json::{Map, Value, json};

use super::amounts::amount;
use super::parts::{
    Keys, alone, any_of, choice, defined, list_of, meaning, one_or_more, or_nothing, plan_id, put,
    said, short_name, text, word, yes_no,
};
use crate::grammar::{Declaration, Key, Syntax, Tie};
use crate::quantity::Dimension;
use crate::text::{read, to_json};

/// The schema of a syntax.
pub(super) fn of(syntax: &Syntax) -> Value {
    match syntax {
        Syntax::Any => json!({}),
        Syntax::Text => text(),
        Syntax::Word => json!({"type": ["string", "boolean"]}),
        Syntax::Scalar => json!({"type": ["string", "number", "boolean"]}),
        Syntax::Told => defined("told"),
        Syntax::YesNo => yes_no(),
        Syntax::ShortName => short_name(),
        Syntax::PlanId => plan_id(),
        Syntax::Pattern(pattern, examples) => matching(pattern, examples),
        Syntax::Amount(dimension) => amount(*dimension, false),
        Syntax::Length => amount(Some(Dimension::Length), true),
        Syntax::Named(name) => defined(name),
        Syntax::Words(words) => word(words.iter().copied()),
        Syntax::Choice(word, means) => choice(word, means),
        Syntax::Meanings(words) => meaning(words),
        Syntax::AnyOf(ways) => any_of(ways.iter().map(of).collect()),
        Syntax::List(item, least) => list_of(of(item), *least),
        Syntax::Pair(item) => {
            json!({"type": "array", "items": of(item), "minItems": 2, "maxItems": 2})
        }
        Syntax::OneOrMore(item) => one_or_more(of(item)),
        Syntax::OrNothing(syntax) => or_nothing(of(syntax)),
        Syntax::ByName(syntax) => json!({
            "type": "object",
            "propertyNames": short_name(),
            "additionalProperties": of(syntax),
        }),
        Syntax::Each(syntax) => json!({"type": "object", "additionalProperties": of(syntax)}),
        Syntax::Alone(key, syntax) => alone(key, of(syntax)),
        Syntax::Open(keys) => with_keys(keys),
        Syntax::Map(declaration) => map(declaration),
        Syntax::Says(means, syntax) => said(means, of(syntax)),
    }
}

fn matching(pattern: &str, examples: &[&str]) -> Value {
    let mut schema = json!({"type": "string", "pattern": pattern});
    if !examples.is_empty() {
        put(&mut schema, "examples", json!(examples));
    }
    schema
}

fn with_keys(keys: &[&str]) -> Value {
    let mut schema = json!({"type": "object"});
    if !keys.is_empty() {
        put(&mut schema, "required", json!(keys));
    }
    schema
}

/// The schema of a declared map.
pub(super) fn map(declaration: &Declaration) -> Value {
    let all = || declaration.groups.iter().copied().flatten();
    let keys = declaration.keys.iter().chain(all());
    let needed: Vec<_> = keys
        .clone()
        .filter(|key| key.needed)
        .map(|key| key.name)
        .collect();
    let mut map = super::parts::map(properties(keys), &needed);
    tie(&mut map, declaration.ties);
    if let (false, Ok(example)) = (declaration.example.is_empty(), read(declaration.example)) {
        put(&mut map, "examples", json!([to_json(&example)]));
    }
    match declaration.means {
        "" => map,
        means => said(means, map),
    }
}

/// Keys, each with the schema of what may follow it.
pub(super) fn properties<'k>(keys: impl IntoIterator<Item = &'k Key>) -> Keys {
    let each = keys
        .into_iter()
        .map(|key| (key.name.to_owned(), after(key)));
    each.collect()
}

fn after(key: &Key) -> Value {
    let schema = of(&key.syntax);
    match key.means {
        "" => schema,
        means => said(means, schema),
    }
}

/// How the keys of a map depend on each other.
fn tie(map: &mut Value, ties: &[Tie]) {
    let sets = |sets: &[&[&str]]| sets.iter().map(|set| json!({"required": set})).collect();
    let alternatives = ties.iter().filter_map(|tie| match tie {
        Tie::One(each) => Some(("oneOf", sets(each))),
        Tie::Some(each) => Some(("anyOf", sets(each))),
        Tie::Needs(..) => None,
    });
    let alternatives: Vec<(_, Value)> = alternatives.collect();
    match alternatives.as_slice() {
        [] => {}
        [(word, sets)] => put(map, word, sets.clone()),
        several => {
            let each = several.iter().map(|(word, sets)| json!({*word: sets}));
            put(map, "allOf", each.collect());
        }
    }
    let mut needs = Map::new();
    for tie in ties {
        if let Tie::Needs(key, other) = tie {
            needs.insert((*key).to_owned(), json!([other]));
        }
    }
    if !needs.is_empty() {
        put(map, "dependentRequired", Value::from(needs));
    }
}

/// Adds a table's named declarations.
pub(super) fn define(definitions: &mut Map<String, Value>, declared: &[(&str, Syntax)]) {
    let all = declared.iter();
    definitions.extend(all.map(|(name, syntax)| ((*name).to_owned(), of(syntax))));
}
