//! Requirements and terms.

use std::collections::BTreeMap;

use serde_json::{Map, Value, json};

use super::amounts::amount;
use super::facts::words_of;
use super::names::spellings;
use super::parts::{
    Keys, any_of, defined, keys, list_of, map, one_key, one_or_more, put, said, some_key, word,
    yes_no,
};
use super::syntax::{self, of, properties};
use crate::grammar::{
    BOUNDS, CHOOSING, CHOSEN_OUTLINES, COMBINATIONS, HOLDS, MEASURES, PART, PLACES, REQUIRE,
    SOURCED_TERM, TERM_EDIT, TERM_OF, VALUES, ZONE_MAP, mains,
};
use crate::quantity::Dimension;
use crate::vocabulary::{Answer, Fact, Vocabulary};

/// The definitions of requirements and terms.
pub(super) fn define(definitions: &mut Map<String, Value>, vocabulary: &Vocabulary) {
    syntax::define(definitions, &VALUES);
    syntax::define(definitions, &PLACES);
    let more = [
        ("measure", measure()),
        ("requirement", requirement()),
        ("one-requirement", one_requirement(vocabulary)),
        ("term", term()),
        ("term-of-one", term_of_one()),
    ];
    definitions.extend(more.map(|(name, schema)| (name.to_owned(), schema)));
}

fn measure_keys() -> Keys {
    properties(MEASURES.iter().map(|measure| &measure.key))
}

/// The names of the measures.
fn measures() -> impl Iterator<Item = &'static str> {
    MEASURES.iter().map(|measure| measure.key.name)
}

/// The names of the bounds.
fn bounds() -> impl Iterator<Item = &'static str> {
    BOUNDS.iter().map(|key| key.name)
}

/// A value that is measured or calculated.
fn measure() -> Value {
    let mut measure = map(measure_keys(), &[]);
    put(&mut measure, "allOf", json!([one_key(measures())]));
    measure
}

fn requirement() -> Value {
    any_of(vec![
        said(
            "A list: all of them must hold.",
            list_of(defined("requirement"), 1),
        ),
        json!({"const": "refer", "description": "This is for the authority."}),
        defined("one-requirement"),
    ])
}

fn combining_keys() -> Keys {
    let combining = COMBINATIONS.iter().map(|(_, key)| key);
    properties(combining.chain(&CHOOSING).chain([&PART, &REQUIRE]))
}

fn combining() -> impl Iterator<Item = &'static str> {
    COMBINATIONS.iter().map(|(_, key)| key.name)
}

/// One measure with its bounds, or one combination.
fn one_requirement(vocabulary: &Vocabulary) -> Value {
    let mut all = combining_keys();
    all.extend(measure_keys());
    all.extend(properties(&BOUNDS));
    all.extend(properties([&HOLDS]));
    let mut one = map(all, &[]);
    put(
        &mut one,
        "dependentRequired",
        json!({
            "each": ["require"], "require": ["each"], "where": ["each"], "in": ["each"], "if-none": ["each"],
        }),
    );
    let compared = measures().filter(|key| *key != "table");
    let mut rules = vec![
        one_key(mains()),
        json!({"if": some_key(compared), "then": some_key(bounds())}),
        json!({"if": some_key(combining()), "then": {"not": some_key(bounds())}}),
        json!({
            "if": {"required": ["area"], "properties": {"area": {"required": ["share-of"]}}},
            "then": limits(Dimension::Number),
        }),
        json!({
            "if": {"required": ["area"], "properties": {"area": {"not": {"required": ["share-of"]}}}},
            "then": limits(Dimension::Area),
        }),
    ];
    let limited = MEASURES.iter();
    rules.extend(limited.filter_map(|it| Some(limits_of(it.key.name, it.limits?))));
    rules.extend(by_fact(vocabulary));
    put(&mut one, "allOf", Value::from(rules));
    one
}

fn limits_of(measure: &str, dimension: Dimension) -> Value {
    json!({"if": {"required": [measure]}, "then": limits(dimension)})
}

/// The limits of something measured in that dimension.
fn limits(dimension: Dimension) -> Value {
    let own = amount(Some(dimension), false);
    let limit = any_of(vec![own.clone(), defined("fact-name"), defined("measure")]);
    let compared = bounds().map(|key| {
        let schema = if key == "is" {
            one_or_more(any_of(vec![own.clone(), json!({"const": "none"})]))
        } else {
            limit.clone()
        };
        (key.to_owned(), schema)
    });
    json!({"properties": compared.collect::<Map<_, _>>()})
}

/// The limits that fit each fact, with similar facts grouped.
fn by_fact(vocabulary: &Vocabulary) -> Vec<Value> {
    let mut alike: BTreeMap<String, (Value, Vec<String>)> = BTreeMap::new();
    for fact in vocabulary.kinds().flat_map(|(_, kind)| &kind.facts) {
        let Some(fits) = fitting(vocabulary.fact(*fact)) else {
            continue;
        };
        let group = alike
            .entry(fits.to_string())
            .or_insert_with(|| (fits, Vec::new()));
        group.1.extend(spellings(vocabulary, *fact));
    }
    let conditional = alike.into_values().map(|(fits, names)| {
        json!({"if": {"required": ["fact"], "properties": {"fact": {"enum": names}}}, "then": fits})
    });
    conditional.collect()
}

fn fitting(fact: &Fact) -> Option<Value> {
    match &fact.answer {
        Answer::Amount { dimension, .. } => Some(limits(*dimension)),
        Answer::YesNo => Some(answered(yes_no(), fact)),
        Answer::Word { words, open } => Some(answered(words_of(words, *open), fact)),
    }
}

fn answered(answer: Value, fact: &Fact) -> Value {
    let mut fits = vec![answer];
    if fact.none {
        fits.push(word(["none"]));
    }
    let mut properties: Map<_, _> = bounds()
        .map(|key| (key.to_owned(), Value::from(false)))
        .collect();
    properties.insert("is".to_owned(), one_or_more(any_of(fits)));
    json!({"properties": properties})
}

/// What follows a term's name: an amount or a name, a list, or a map whose keys say what it is.
fn term() -> Value {
    let names = |key: &str| json!({"required": [key]});
    let zones = some_key(["around", "between", "corner", "inside"]);
    let not = any_of(vec![
        map(keys([("not", defined("zone"))]), &["not"]),
        defined("one-requirement"),
    ]);
    let measured = otherwise(
        names("kind"),
        syntax::map(&CHOSEN_OUTLINES),
        otherwise(
            zones,
            of(&ZONE_MAP),
            otherwise(names("not"), not, defined("term-of-one")),
        ),
    );
    let chain = otherwise(
        some_key(["replaces", "withdraws"]),
        syntax::map(&TERM_EDIT),
        otherwise(names("means"), syntax::map(&SOURCED_TERM), measured),
    );
    any_of(vec![
        said(
            "An amount, a fact, an outline, a kind or another term.",
            json!({"type": ["string", "number"]}),
        ),
        said(
            "A list of outlines, or of requirements, of which all must hold.",
            list_of(any_of(vec![defined("outlines"), defined("requirement")]), 1),
        ),
        {
            let mut map = chain;
            put(&mut map, "type", Value::from("object"));
            map
        },
    ])
}

fn otherwise(condition: Value, then: Value, other: Value) -> Value {
    json!({"if": condition, "then": then, "else": other})
}

/// A value or a requirement; `of` says which kind it is about.
fn term_of_one() -> Value {
    let mut all = combining_keys();
    all.extend(measure_keys());
    all.extend(properties(&BOUNDS));
    all.extend(properties([&TERM_OF]));
    let mut one = map(all, &[]);
    put(&mut one, "allOf", json!([one_key(mains())]));
    one
}
