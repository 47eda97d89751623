//! No figure is printed that nobody measured, and none that contradicts what it is printed for.

use crate::common::*;
use serde_json::Value;

/// A plot of 30 m by 40 m, drawn exactly, with a pool of 8 m by 4 m, 3 m deep; and what is put below it.
fn plan(more: &str) -> String {
    format!(
        "plan: p
title: P
unit: m
sources: [{{id: drawing, by: survey, accuracy: 0 mm, shift: 0 mm}}]
lot:
  source: drawing
  corners: {{a: [0, 0], b: [30, 0], c: [30, 40], d: [0, 40]}}
  sides:
    - {{id: street, from: a, to: b, faces: front, beyond: road}}
    - {{id: east, from: b, to: c, faces: side, beyond: neighbour-lot}}
    - {{id: rear, from: c, to: d, faces: rear, beyond: neighbour-lot}}
    - {{id: west, from: d, to: a, faces: side, beyond: neighbour-lot}}
pool:
  id: pool
  source: drawing
  depth: 2 m
  excavation-depth: 2.4 m
  water: {{rectangle: {{at: [10, 28], length: 8 m, width: 4 m}}}}
  excavation: {{outward: 1 m, from: water, corners: square}}
{more}"
    )
}

fn rules(body: &str) -> String {
    format!("ruleset: small\ntitle: Small\nedition: '1'\nauthority: Small office\n{body}")
}

/// What the command says as text, and the deciding part of the first rule as another program gets it.
fn checked(test: &str, plan_text: &str, rules_text: &str) -> (String, Value) {
    let folder = scratch(&format!("figures-{test}"));
    let rules = write(&folder, "rules.yaml", &rules(rules_text));
    let plan = write(&folder, "plan.yaml", &plan(plan_text));
    let text = run(&["check", &plan, "--rules", &rules]);
    assert!(status(&text) < 3, "{}", stderr(&text));
    let json = run(&["check", &plan, "--rules", &rules, "--format", "json"]);
    let answer: Value = serde_json::from_str(&stdout(&json)).unwrap();
    let rule = &answer["report"]["rules"][0];
    let part = rule["deciding"].as_u64().map_or(Value::Null, |at| {
        rule["parts"][usize::try_from(at).unwrap()].clone()
    });
    (unwrapped(&stdout(&text)), part)
}

/// The text with its paragraphs in one line each.
fn unwrapped(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn where_nothing_stands_in_the_way_no_width_is_printed() {
    let (text, part) = checked(
        "no-fence",
        "inventory: {barrier-stretch: none, gate: none}\n",
        "rules:
  - id: fence
    title: Fence
    clause: s. 1
    require:
      enclosure: {of: pool.water, from: [street, neighbour-lot], made-of: [barrier-stretch.line, gate.line]}
      at-most: 4 in
",
    );
    assert!(
        text.contains("is without end; it must be at most 4 in."),
        "{text}"
    );
    let reading = &part["readings"][0];
    assert_eq!(reading["measured"]["low"], Value::Null);
    assert_eq!(reading["measured"]["high"], Value::Null);
    assert_eq!(reading["measured"]["text"], "without end");
    assert_eq!(part["margin"], Value::Null);
    assert_eq!(part["outcome"], "fail");
    assert_eq!(part["brief"], "without end, at most 4 in asked");
}

const FOOTING: &str = "rules:
  - id: foundation
    title: Foundation
    clause: s. 1
    each: {kind: building}
    require:
      distance: {from: pool.excavation, to: building.foundation-at-grade}
      at-least: {difference: [pool.excavation-depth, building.footing-depth]}
";

fn shed(at: &str, footing: &str) -> String {
    format!(
        "things:
  - id: shed
    kind: building
    source: drawing
    wall: {{rectangle: {{at: {at}, length: 3 m, width: 2 m}}}}
    foundation-at-grade: {{rectangle: {{at: {at}, length: 3 m, width: 2 m}}}}
{footing}inventory: {{building: all-shown}}
"
    )
}

/// 17 m from the hole, of which 2.4 m are needed at most; and 1 m from it, which may be enough.
#[test]
fn of_a_limit_that_nobody_knows_the_whole_of_only_what_is_known_is_printed() {
    let (_, part) = checked("far-shed", &shed("[10, 8]", ""), FOOTING);
    let reading = &part["readings"][0];
    assert_eq!(part["outcome"], "pass", "{part}");
    assert_eq!(reading["limit"]["low"], Value::Null);
    assert_eq!(reading["limit"]["high"], "2.4 m");
    let sentence = part["sentence"].as_str().unwrap();
    assert!(
        sentence.contains("here at most 2.4 m, how much less nobody knows"),
        "{sentence}"
    );
    let (text, part) = checked("near-shed", &shed("[10, 24]", ""), FOOTING);
    assert_eq!(part["outcome"], "unknown");
    assert!(
        text.contains("here at most 2.4 m, how much less nobody knows: at worst 1.4 m short."),
        "{text}"
    );
    assert_eq!(part["margin"]["high"], Value::Null);
    // "At least" of a fact that somebody has half measured is open on one side as well.
    let half = shed("[10, 24]", "    footing-depth: at least 1 m\n");
    let (text, part) = checked("half-known", &half, FOOTING);
    assert!(
        text.contains("here at most 1.4 m, how much less nobody knows"),
        "{text}"
    );
    assert_eq!(part["readings"][0]["limit"]["high"], "1.4 m");
}

#[test]
fn a_limit_of_which_nothing_is_known_is_not_known() {
    let (text, part) = checked(
        "level",
        "",
        "rules:
  - id: rim
    title: Rim
    clause: s. 1
    require: {fact: pool.depth, at-most: {sum: [pool.rim-level, 1 m]}}
",
    );
    assert!(
        text.contains(
            "it must be at most the level of the pool's rim plus 1 m, which is not known."
        ),
        "{text}"
    );
    let limit = &part["readings"][0]["limit"];
    assert_eq!(
        (&limit["low"], &limit["high"]),
        (&Value::Null, &Value::Null)
    );
    assert_eq!(limit["text"], "not known");
}

fn gate(facts: &str) -> String {
    format!(
        "things:
  - {{id: gate, kind: gate, source: drawing, line: [[9, 20], [10, 20]]{facts}}}
inventory: {{gate: all-shown}}
"
    )
}

#[test]
fn what_must_not_be_is_said_so() {
    let rule = "rules:
  - id: lock
    title: Lock
    clause: s. 1
    each: {kind: gate}
    require: {not: {fact: gate.lock, is: none}}
";
    let (text, part) = checked("not-none", &gate(", lock: none"), rule);
    assert_eq!(part["outcome"], "fail");
    assert!(
        text.contains("the lock of the gate: none; it must not be none."),
        "{text}"
    );
    assert_eq!(part["readings"][0]["holds"], "fails");
    assert_eq!(part["readings"][0]["bound"], "not none");
    let rule = "rules:
  - id: height
    title: Height
    clause: s. 1
    each: {kind: gate}
    require: {not: {fact: gate.height, less-than: 1.2 m}}
";
    let (text, part) = checked("not-low", &gate(", height: 1 m"), rule);
    assert_eq!(part["outcome"], "fail");
    assert!(
        text.contains("is 1 m; it must be at least 1.2 m: 0.2 m short."),
        "{text}"
    );
    let (text, part) = checked("not-low-passes", &gate(", height: 1.3 m"), rule);
    assert_eq!(part["outcome"], "pass");
    assert!(
        text.contains("Height: 1.3 m, at least 1.2 m asked, 0.1 m to spare (s. 1)"),
        "{text}"
    );
    assert_eq!(part["margin"]["text"], "0.1 m to spare");
}

/// Two of them are none; one before several stands before each; and a term is told as it stands where it decides.
#[test]
fn a_not_counts_where_it_stands() {
    let twice = "rules:
  - id: height
    title: Height
    clause: s. 1
    each: {kind: gate}
    require: {not: {not: {fact: gate.height, at-least: 1.2 m}}}
";
    let (text, _) = checked("not-not", &gate(", height: 1 m"), twice);
    assert!(
        text.contains("it must be at least 1.2 m: 0.2 m short."),
        "{text}"
    );
    let none_of = "rules:
  - id: height
    title: Height
    clause: s. 1
    each: {kind: gate}
    require:
      not:
        any-of:
          - {fact: gate.height, less-than: 1.2 m}
          - {fact: gate.height, more-than: 2 m}
";
    let (text, part) = checked("not-any", &gate(", height: 2.5 m"), none_of);
    assert_eq!(part["outcome"], "fail");
    assert!(
        text.contains("is 2.5 m; it must be at most 2 m: 0.5 m too much."),
        "{text}"
    );
    let term = "terms: {low: {of: gate, fact: gate.height, less-than: 1.2 m}}
rules:
  - id: height
    title: Height
    clause: s. 1
    each: {kind: gate}
    require: [{not: {meets: low}}, {any-of: [{meets: low}, {fact: gate.lock, is: padlock}]}]
";
    let (text, part) = checked("not-term", &gate(", height: 1 m, lock: none"), term);
    assert_eq!(part["outcome"], "fail");
    assert!(
        text.contains("is 1 m; it must be at least 1.2 m: 0.2 m short."),
        "{text}"
    );
    let (text, part) = checked("term", &gate(", height: 1.5 m, lock: none"), term);
    assert_eq!(part["outcome"], "fail");
    assert!(
        text.contains("is 1.5 m; it must be less than 1.2 m: 0.3 m too much."),
        "{text}"
    );
}

/// 10 m are asked and 8 m are there, but a consent makes 6 m do: then 6 m is what is asked.
#[test]
fn a_row_that_passes_by_a_relief_shows_what_the_relief_asks() {
    let rule = "documents: [{id: consent-letter, title: Consent, from: the neighbour}]
rules:
  - id: rear
    title: Rear line
    clause: s. 1
    require: {distance: {from: pool.water, to: {kind: lot-line, where: {fact: lot-line.faces, is: rear}}}, at-least: 10 m}
    relief:
      - id: consent
        require:
          - {have: consent-letter}
          - {distance: {from: pool.water, to: {kind: lot-line, where: {fact: lot-line.faces, is: rear}}}, at-least: 6 m}
";
    let (text, part) = checked("relief", "documents: {consent-letter: in-hand}\n", rule);
    assert_eq!(part["outcome"], "pass");
    assert!(
        text.contains(
            "Rear line: 8 m, at least 6 m asked, 2 m to spare, by relief `consent` (s. 1)"
        ),
        "{text}"
    );
    let at = usize::try_from(part["telling"].as_u64().unwrap()).unwrap();
    assert_eq!(part["readings"][at]["bound"], "at least 6 m");
    assert_eq!(part["margin"]["text"], "2 m to spare");
    let (_, part) = checked("no-relief", "documents: {consent-letter: refused}\n", rule);
    let at = usize::try_from(part["telling"].as_u64().unwrap()).unwrap();
    assert_eq!(part["outcome"], "fail");
    assert_eq!(part["readings"][at]["bound"], "at least 10 m");
}

/// A relief that asks for a paper alone shows no figure that is short.
#[test]
fn a_relief_without_a_figure_shows_none() {
    let rule = "documents: [{id: consent-letter, title: Consent, from: the neighbour}]
rules:
  - id: deep
    title: Depth
    clause: s. 1
    require: {fact: pool.depth, at-most: 1 m}
    relief: [{id: consent, require: {have: consent-letter}}]
";
    let (text, part) = checked("paper", "documents: {consent-letter: in-hand}\n", rule);
    assert_eq!(part["outcome"], "pass");
    assert!(
        text.contains("Depth: met, by relief `consent` (s. 1)"),
        "{text}"
    );
    assert_eq!(part["telling"], Value::Null);
}

/// From 1 to 2 m high: 1.2 m are kept somewhere, 2.1 m nowhere. The lowest place would say otherwise.
#[test]
fn what_must_hold_somewhere_shows_the_whole_of_it() {
    let fence = "things:
  - {kind: barrier-stretch, id: f, source: drawing, line: [[8, 18], [29, 18]], height-outside: {from: 1 m, to: 2 m}}
inventory: {barrier-stretch: all-shown}
";
    let brief = |asked: &str| {
        let rule = format!(
            "rules:
  - {{id: high, title: High, clause: s. 1, each: barrier-stretch, require: {{fact: barrier-stretch.height-outside, at-least: {asked}, holds: anywhere}}}}
"
        );
        checked("somewhere", fence, &rule).1["brief"].clone()
    };
    assert_eq!(
        brief("1.2 m"),
        "between 1 m and 2 m, at least 1.2 m asked somewhere along it, 0.8 m to spare"
    );
    assert_eq!(
        brief("2.1 m"),
        "between 1 m and 2 m, at least 2.1 m asked somewhere along it, 0.1 m short"
    );
}

fn from_the_shed(bound: &str) -> String {
    format!(
        "rules:
  - {{id: shed, title: Shed, clause: s. 1, each: building, require: {{distance: {{from: pool.water, to: building.wall}}, {bound}}}}}
"
    )
}

/// A shed in the pool is not "exactly at the limit" of no distance; one at 1 m is at the limit of 1 m.
#[test]
fn what_overlaps_is_at_no_limit() {
    let (text, part) = checked(
        "overlap",
        &shed("[12, 29]", ""),
        &from_the_shed("more-than: 0 m"),
    );
    assert_eq!(part["outcome"], "fail");
    assert!(
        text.contains("is 0 m (they touch or overlap); it must be more than 0 m. Measured"),
        "{text}"
    );
    assert_eq!(part["brief"], "0 m, more than 0 m asked");
    let (_, part) = checked(
        "at-the-limit",
        &shed("[12, 25]", ""),
        &from_the_shed("at-least: 1 m"),
    );
    assert_eq!(
        part["brief"],
        "1 m, at least 1 m asked, exactly at the limit"
    );
}

/// The pool is surveyed, and nobody said how good the shed is: only the shed is asked about. Nobody can measure an area.
#[test]
fn only_what_nobody_told_is_asked_for() {
    let unsourced = shed("[12, 24]", "").replace("    source: drawing\n", "");
    let (text, part) = checked("one-end", &unsourced, &from_the_shed("at-least: 1 m"));
    assert_eq!(part["outcome"], "marginal");
    assert!(
        text.contains(
            "What to do: Say how far off the outside wall of the building `shed` may be, or have it surveyed."
        ),
        "{text}"
    );
    let area = "rules:
  - {id: built, title: Built, clause: s. 1, require: {area: {of: building.wall}, at-most: 7 m2}}
";
    let (text, _) = checked("area", &unsourced, area);
    assert!(
        text.contains(
            "What to do: Have the lines surveyed that count here, and say how far off they may be."
        ),
        "{text}"
    );
}
