//! The answer against its published description, by a JSON Schema validator of its own (draft 2020-12).

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
