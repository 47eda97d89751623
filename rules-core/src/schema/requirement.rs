//! Requirements and terms.

use std::collections::BTreeMap;

use serde_json::{Map, Value, json};

use super::amounts::amount;
use super::facts::words_of;
use super::measures::{
    bound_keys, bounds, choosing, holds, measure_keys, measures, outline_keys, zone_maps,
};
use super::names::spellings;
use super::parts::{
    Keys, any_of, defined, defined_as, keys, list_of, map, one_key, one_or_more, put, said,
    some_key, text, word, yes_no,
};
use super::scope::cited;
use crate::quantity::Dimension;
use crate::vocabulary::{Answer, Fact, Vocabulary};

/// The keys that combine requirements.
const COMBINING: [&str; 7] = ["all-of", "any-of", "not", "meets", "have", "each", "refer"];

/// The definitions of requirements and terms.
pub(super) fn define(definitions: &mut Map<String, Value>, vocabulary: &Vocabulary) {
    let more = [
        ("requirement", requirement()),
        ("one-requirement", one_requirement(vocabulary)),
        ("term", term()),
        ("term-of-one", term_of_one()),
    ];
    definitions.extend(more.map(|(name, schema)| (name.to_owned(), schema)));
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
    let list = || list_of(defined("requirement"), 1);
    let mut all = choosing();
    all.extend(keys([
        (
            "id",
            said("A name by which another file can change this part.", text()),
        ),
        ("all-of", said("All of these must hold.", list())),
        ("any-of", said("At least one of these must hold.", list())),
        ("not", defined_as("requirement", "This must not hold.")),
        ("meets", said("What this term says must hold.", text())),
        ("have", said("This document must be in hand.", text())),
        (
            "each",
            defined_as("things", "What is required must hold of each of these."),
        ),
        (
            "require",
            defined_as("requirement", "What must hold of each."),
        ),
        ("refer", said("This is for the authority.", yes_no())),
    ]));
    all
}

/// One measure with its bounds, or one combination.
fn one_requirement(vocabulary: &Vocabulary) -> Value {
    let mut all = combining_keys();
    all.extend(measure_keys());
    all.extend(bound_keys());
    all.extend([holds()]);
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
        one_key(measures().chain(COMBINING)),
        json!({"if": some_key(compared), "then": some_key(bounds())}),
        json!({"if": some_key(COMBINING), "then": {"not": some_key(bounds())}}),
        json!({
            "if": {"required": ["area"], "properties": {"area": {"required": ["share-of"]}}},
            "then": limits(Dimension::Number),
        }),
        json!({
            "if": {"required": ["area"], "properties": {"area": {"not": {"required": ["share-of"]}}}},
            "then": limits(Dimension::Area),
        }),
        limits_of("distance", Dimension::Length),
        limits_of("length", Dimension::Length),
        limits_of("count", Dimension::Number),
        limits_of("enclosure", Dimension::Length),
        limits_of("sound", Dimension::Sound),
        limits_of("level", Dimension::Length),
        limits_of("ground-level", Dimension::Length),
        limits_of("fall", Dimension::Number),
        limits_of("volume", Dimension::Volume),
        limits_of("uplift", Dimension::Mass),
        limits_of("height", Dimension::Length),
    ];
    rules.extend(by_fact(vocabulary));
    put(&mut one, "allOf", Value::from(rules));
    one
}

fn limits_of(measure: &str, dimension: Dimension) -> Value {
    json!({"if": {"required": [measure]}, "then": limits(dimension)})
}

/// What the limits of something can be that is measured in that dimension.
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

/// What fits each fact, facts that are alike together.
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

/// What stands after a term's name: an amount or a name, a list, or a map that is told by its keys.
fn term() -> Value {
    let names = |key: &str| json!({"required": [key]});
    let zones = some_key(["around", "between", "corner", "inside"]);
    let not = any_of(vec![
        map(keys([("not", defined("zone"))]), &["not"]),
        defined("one-requirement"),
    ]);
    let sourced = map(
        keys([
            ("means", defined_as("term", "What it stands for.")),
            ("source", cited()),
        ]),
        &["means"],
    );
    let measured = otherwise(
        names("kind"),
        map(outline_keys(), &["kind"]),
        otherwise(
            zones,
            any_of(zone_maps()),
            otherwise(names("not"), not, defined("term-of-one")),
        ),
    );
    let chain = otherwise(
        some_key(["replaces", "withdraws"]),
        edit(),
        otherwise(names("means"), sourced, measured),
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

/// A value or a requirement; `of` says of which kind it speaks.
fn term_of_one() -> Value {
    let mut all = combining_keys();
    all.extend(measure_keys());
    all.extend(bound_keys());
    all.insert(
        "of".to_owned(),
        defined_as("kind-name", "It speaks of one of these."),
    );
    let mut one = map(all, &[]);
    put(
        &mut one,
        "allOf",
        json!([one_key(measures().chain(COMBINING))]),
    );
    one
}

fn edit() -> Value {
    let keys = keys([
        (
            "replaces",
            said("The term of a file under this one that changes.", text()),
        ),
        (
            "withdraws",
            said("The term of a file under this one that goes.", text()),
        ),
        ("with", defined("term")),
        ("when", defined_as("requirement", "Only where this holds.")),
        ("clause", text()),
        ("note", text()),
    ]);
    let mut edit = map(keys, &[]);
    put(
        &mut edit,
        "dependentRequired",
        json!({"replaces": ["with"]}),
    );
    edit
}
