//! The schemas know just those keys that the readers know, place by place.

use std::collections::BTreeSet;

use rules_core::vocabulary::Vocabulary;
use rules_core::{plan, ruleset, text};

use super::schema;

/// A key that nobody knows, in the place of which the reader lists the keys that it knows.
const STRAY: &str = "zzzzzzzz: 1";

const PLAN: &str = "\
plan: p
title: P
unit: m
TOP
sources: [{id: s, by: map, SOURCE}]
dates: {EVENTS}
works: {WORKS}
zone: {ZONE}
lot:
  corners: {a: [0, 0], b: [9, 0], c: [9, 9]}
  sides: [{id: front, from: a, to: b, SIDE}]
  LOT
pool:
  id: pool
  water: {circle: {at: [4, 4], radius: 1, CIRCLE}}
  coping: {outward: 1, from: water, corners: round, OUTWARD}
  POOL
things:
  - {kind: gate, id: gate, GATE}
  - {kind: building, id: house, wall: {rectangle: {at: [0, 0], length: 1, width: 1, RECTANGLE}}, BUILDING}
  - {kind: deck, id: deck, region: {oval: {from: [0, 0], to: [1, 1], radius: 1, OVAL}}}
measured: [{from: pool.water, to: house.wall, is: 3, TAPE}]
";

/// A place in the plan, and the definition of it.
const IN_PLAN: [(&str, &str); 13] = [
    ("TOP", "plan"),
    ("SOURCE", "source"),
    ("EVENTS", "thing-events"),
    ("WORKS", "thing-works"),
    ("ZONE", "thing-zone"),
    ("SIDE", "thing-lot-line"),
    ("LOT", "thing-lot"),
    ("POOL", "thing-pool"),
    ("GATE", "thing-gate"),
    ("BUILDING", "thing-building"),
    ("CIRCLE", "circle/properties/circle"),
    ("RECTANGLE", "rectangle/properties/rectangle"),
    ("TAPE", "tape"),
];

const RULES: &str = "\
ruleset: r
title: R
edition: e
authority: a
TOP
in-force: {from: 2026-01-01, by: applied, FORCE}
questions: [{id: q, ask: Q, answer: yes-no, QUESTION}]
kinds: [{id: mast, said: a mast, ask: Any, KIND, facts: [{id: f, said: f, ask: F, answer: length, FACT}]}]
rules:
  - id: one
    title: One
    clause: C
    each: gate
    require: {fact: gate.latch-height, at-least: 1 m}
    relief: [{id: r, require: {have: d}, RELIEF}]
    RULE
  - id: two
    title: Two
    clause: C
    require: {distance: {from: pool.water, to: lot-line, DISTANCE}, at-least: {table: {by: pool.depth, rows: [{at-most: 1 m, then: 1 m}, {otherwise: 2 m}], TABLE}}}
  - {id: three, title: Three, clause: C, require: {area: {of: pool.water, AREA}, at-most: 1 m2}}
  - {id: four, title: Four, clause: C, require: {enclosure: {of: pool.water, from: street, made-of: barrier-stretch, ENCLOSURE}, at-most: 1 m}}
  - {id: five, title: Five, clause: C, require: {sound: {from: equipment, at: lot-line, during: day, SOUND}, at-most: 40 dB}}
documents: [{id: d, title: D, DOCUMENT}]
decide: [{id: c, table: {rows: [{otherwise: a}]}, DECISION}]
do: [{id: x, what: X, DUTY}]
cautions: [{id: y, says: Y, CAUTION}]
";

const IN_RULES: [(&str, &str); 16] = [
    ("TOP", "rule-set"),
    ("FORCE", "in-force"),
    ("QUESTION", "question"),
    ("KIND", "own-kind"),
    ("FACT", "own-fact"),
    ("RELIEF", "relief"),
    ("RULE", "rule"),
    ("DISTANCE", "distance"),
    ("TABLE", "table"),
    ("AREA", "area"),
    ("ENCLOSURE", "enclosure"),
    ("SOUND", "sound"),
    ("DOCUMENT", "document"),
    ("DECISION", "decision"),
    ("DUTY", "duty"),
    ("CAUTION", "caution"),
];

/// Keys that the reader knows only to say that they are wrong there.
fn only_to_refuse(place: &str, key: &str) -> bool {
    matches!(
        (place, key),
        ("DECISION", "when" | "unless") | ("LOT", "boundary")
    )
}

/// The text with the stray key in one place, and nothing in the others.
fn with_stray(text: &str, places: &[(&str, &str)], place: &str) -> String {
    let mut text = text.to_owned();
    for (other, _) in places {
        let put = if *other == place { STRAY } else { "" };
        for (old, new) in [
            (format!(", {other},"), format!(", {put},")),
            (format!(", {other}}}"), format!(", {put}}}")),
            (format!("{{{other}}}"), format!("{{{put}}}")),
            (format!("\n{other}\n"), format!("\n{put}\n")),
            (format!("  {other}\n"), format!("  {put}\n")),
        ] {
            text = text.replacen(&old, &new, 1);
        }
    }
    text.replace(", ,", ",").replace(", }", "}")
}

fn listed(faults: &text::Faults) -> BTreeSet<String> {
    let stray = faults
        .list
        .iter()
        .find(|fault| fault.message.contains("zzzzzzzz"));
    let help = stray
        .and_then(|fault| fault.help.as_ref())
        .map(|help| help.says.clone())
        .unwrap_or_default();
    let list = help.split("The keys here are ").nth(1).unwrap_or_default();
    list.split('`')
        .skip(1)
        .step_by(2)
        .map(str::to_owned)
        .collect()
}

fn compare(name: &str, places: &[(&str, &str)], known: impl Fn(&str) -> BTreeSet<String>) {
    let schema = schema(name);
    let mut wrong = String::new();
    for (place, definition) in places {
        let map = schema.pointer(&format!("/$defs/{definition}/properties"));
        let keys = map
            .and_then(|map| map.as_object())
            .expect("a definition")
            .keys();
        let keys: BTreeSet<_> = keys.filter(|key| *key != "zzzzzzzz").cloned().collect();
        let known: BTreeSet<_> = known(place)
            .into_iter()
            .filter(|key| !only_to_refuse(place, key) && key != "zzzzzzzz")
            .collect();
        if keys != known {
            let missing: Vec<_> = known.difference(&keys).collect();
            let more: Vec<_> = keys.difference(&known).collect();
            wrong += &format!(
                "{name}, {definition}: the reader also knows {missing:?}, the schema also {more:?}\n"
            );
        }
    }
    assert!(wrong.is_empty(), "\n{wrong}");
}

#[test]
fn the_plan_reader_and_its_schema_know_the_same_keys() {
    compare("plan.json", &IN_PLAN, |place| {
        let vocabulary = outside_checks::pages::of_all_rule_sets().expect("the rule sets");
        listed(&plan::read(&with_stray(PLAN, &IN_PLAN, place), &vocabulary).expect_err("a fault"))
    });
}

#[test]
fn the_rule_reader_and_its_schema_know_the_same_keys() {
    compare("rule-set.json", &IN_RULES, |place| {
        let text = with_stray(RULES, &IN_RULES, place);
        let faults = ruleset::read(&text, &|_| None, Vocabulary::standard()).expect_err("a fault");
        faults
            .first()
            .map(|file| listed(&file.faults))
            .unwrap_or_default()
    });
}
