//! The answer against its published description, by a JSON Schema validator of its own (draft 2020-12).

use std::path::Path;
use std::process::Command;

use serde_json::Value;

const PLAN: &str = concat!(
    env!("CARGO_MANIFEST_DIR"),
    "/../rulesets/eldermere/home.yaml"
);
const RULES: &str = concat!(
    env!("CARGO_MANIFEST_DIR"),
    "/../rulesets/eldermere/rules.yaml"
);
const SCHEMA: &str = include_str!("../../docs/schema/report.json");

fn schema() -> Value {
    serde_json::from_str(SCHEMA).unwrap()
}

fn answer(plan: &str, rules: &str) -> Value {
    let mut command = Command::new(env!("CARGO_BIN_EXE_siting"));
    let output = command
        .args(["check", plan, "--rules", rules, "--format", "json"])
        .output()
        .unwrap();
    serde_json::from_slice(&output.stdout).unwrap()
}

fn faults(answer: &Value) -> Vec<String> {
    let validator = jsonschema::validator_for(&schema()).unwrap();
    validator
        .iter_errors(answer)
        .map(|error| error.to_string())
        .collect()
}

#[test]
fn the_schema_is_a_schema() {
    assert!(jsonschema::meta::is_valid(&schema()));
}

#[test]
fn a_report_and_a_refusal_fit_the_schema() {
    assert_eq!(faults(&answer(PLAN, RULES)), Vec::<String>::new());
    let refusal = answer(RULES, PLAN);
    assert!(refusal["refused"].is_object());
    assert_eq!(faults(&refusal), Vec::<String>::new());
}

#[test]
fn the_schema_notices_what_is_missing_or_new() {
    let report = answer(PLAN, RULES);
    for place in [
        "/report",
        "/report/rules/0",
        "/report/rules/0/parts/0/subject",
        "/report/counts",
    ] {
        let keys = report.pointer(place).unwrap().as_object().unwrap().keys();
        for key in keys {
            let mut without = report.clone();
            without
                .pointer_mut(place)
                .unwrap()
                .as_object_mut()
                .unwrap()
                .remove(key);
            assert!(!faults(&without).is_empty(), "{place} without {key}");
        }
        let mut with = report.clone();
        with.pointer_mut(place).unwrap()["more"] = Value::Null;
        assert!(!faults(&with).is_empty(), "{place} with one key more");
    }
}

#[test]
fn a_report_of_several_rule_sets_fits_the_schema() {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("schema-several");
    std::fs::create_dir_all(&folder).unwrap();
    let town = folder.join("town.yaml");
    std::fs::write(&town, TOWN).unwrap();
    let mut command = Command::new(env!("CARGO_BIN_EXE_siting"));
    command.args(["check", PLAN, "--rules", RULES, "--rules"]);
    command.arg(&town).args(["--format", "json"]);
    let answer: Value = serde_json::from_slice(&command.output().unwrap().stdout).unwrap();
    assert_eq!(faults(&answer), Vec::<String>::new());
    let report = &answer["report"];
    assert_eq!(report["rule-sets"][1]["id"], "town");
    assert_eq!(report["goes-with"][0]["with"][0], "county");
    assert_eq!(report["read-by-some"][0]["rule-sets"][0], "eldermere");
    assert_eq!(report["governs"][0]["governs"]["rule-set"], "town");
}

/// A distance that the example's rules ask for too, and more of it.
const TOWN: &str = "ruleset: town
title: Town
edition: '1'
authority: the town
belongs-with: [county]
rules:
  - id: front
    title: Front line
    clause: s. 1
    each: {kind: lot-line, where: {fact: lot-line.faces, is: front}}
    require: {distance: {from: pool.water, to: lot-line}, at-least: 7 m}
";

/// A plan of two pools, one on a slope, with nothing said of how exact it is; a paper for each line; two editions.
#[test]
fn places_pools_papers_and_editions_fit_the_schema() {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("schema-more");
    std::fs::create_dir_all(&folder).unwrap();
    let write = |name: &str, text: &str| {
        let path = folder.join(name);
        std::fs::write(&path, text).unwrap();
        path.to_string_lossy().into_owned()
    };
    let head = "edition: '1'\ntitle: Small\nauthority: the office\n";
    write(
        "small-2019.yaml",
        &format!("ruleset: small-2019\n{head}rules: []\n"),
    );
    let rules = write(
        "small.yaml",
        &format!("ruleset: small\n{head}{RULES_OF_EACH}"),
    );
    let plan = write("plan.yaml", PLAN_OF_TWO);
    let answer = answer(&plan, &rules);
    assert_eq!(faults(&answer), Vec::<String>::new());
    let report = &answer["report"];
    assert_eq!(report["editions"].as_array().unwrap().len(), 2);
    assert_eq!(report["decisions"][0]["at"][0]["end"], "lowest");
    assert_eq!(report["rules"][0]["parts"][0]["pool"], "pool");
    assert_eq!(report["documents"][0]["subject"]["id"], "street");
    let applied = format!("{PLAN_OF_TWO}dates: {{applied: 2026-02-02}}\n");
    let applied = self::answer(&write("applied.yaml", &applied), &rules);
    assert_eq!(faults(&applied), Vec::<String>::new());
    assert_eq!(applied["report"]["as-drawn"]["not-sure"][0], "line");
}

const RULES_OF_EACH: &str = "earlier: small-2019
in-force: {from: 2026-01-01, by: applied}
documents:
  - {id: consent, title: Consent, each: lot-line}
rules:
  - id: line
    title: Line
    clause: s. 1
    each: lot-line
    require: {distance: {from: pool.water, to: lot-line}, at-least: 9 m}
    documents: [consent]
decide:
  - id: route
    title: Permit
    table: {by: pool.height-above-ground, rows: [{more-than: 600 mm, then: permit}, {otherwise: none}]}
";

const PLAN_OF_TWO: &str = "plan: p
title: P
unit: m
sources: [{id: drawing, by: design}]
lot:
  source: drawing
  corners: {a: [0, 0], b: [30, 0], c: [30, 40], d: [0, 40]}
  sides:
    - {id: street, from: a, to: b, faces: front, beyond: road}
    - {id: east, from: b, to: c, faces: side, beyond: neighbour-lot}
    - {id: rear, from: c, to: d, faces: rear, beyond: neighbour-lot}
    - {id: west, from: d, to: a, faces: side, beyond: neighbour-lot}
pool:
  - {id: pool, source: drawing, height-above-ground: {from: 20 cm, to: 80 cm}, water: {rectangle: {at: [2, 28], length: 8 m, width: 4 m}}}
  - {id: spa, source: drawing, height-above-ground: 50 cm, water: {rectangle: {at: [22, 28], length: 2 m, width: 2 m}}}
";
