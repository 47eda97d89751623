//! The published JSON Schemas: current, sound by their own standard (JSON Schema, draft 2020-12), taking every file of
//! ours, and refusing spoilt ones.

mod keys;
mod spoilt;

use std::fs;

use jsonschema::Validator;
use outside_checks::pages::{of_rule_sets, pages, root};
use rules_core::text::{self, Content, Node};
use serde_json::Value;

/// A way in which a reader of YAML understands the words that are not in quotes.
#[derive(Debug, Clone, Copy)]
enum Reading {
    /// Everything is text.
    Text,
    /// Figures are numbers, `true` and `false` are such (YAML 1.2).
    Plain,
    /// `yes` and `no` are so too (YAML 1.1).
    Old,
}

const READINGS: [Reading; 3] = [Reading::Text, Reading::Plain, Reading::Old];

fn as_json(node: &Node, reading: Reading) -> Value {
    match &node.content {
        Content::Empty => Value::Null,
        Content::Scalar { text, quoted } => scalar(text, *quoted, reading),
        Content::List(items) => items.iter().map(|item| as_json(item, reading)).collect(),
        Content::Map(entries) => {
            let entries = entries.iter();
            entries
                .map(|entry| (entry.key.clone(), as_json(&entry.value, reading)))
                .collect()
        }
    }
}

fn scalar(text: &str, quoted: bool, reading: Reading) -> Value {
    let number = || serde_json::from_str(text).ok().filter(Value::is_number);
    let known = match (quoted, reading, text) {
        (true, ..) | (_, Reading::Text, _) => None,
        (_, _, "true") | (_, Reading::Old, "yes") => Some(Value::Bool(true)),
        (_, _, "false") | (_, Reading::Old, "no") => Some(Value::Bool(false)),
        _ => number(),
    };
    known.unwrap_or_else(|| Value::from(text))
}

/// A published schema.
fn schema(name: &str) -> Value {
    let text = fs::read_to_string(root().join("docs/schema").join(name)).expect("the schema");
    serde_json::from_str(&text).expect("JSON")
}

/// What checks by a published schema.
fn validator(name: &str) -> Validator {
    jsonschema::validator_for(&schema(name)).expect("a schema")
}

/// What is wrong with a text, in each reading.
fn wrong(validator: &Validator, yaml: &str) -> Vec<String> {
    let node = text::read(yaml).expect("a text that can be read");
    let mut all = Vec::new();
    for reading in READINGS {
        let json = as_json(&node, reading);
        let errors = validator.iter_errors(&json);
        all.extend(errors.map(|error| format!("{reading:?} {}: {error}", error.instance_path())));
    }
    all
}

#[test]
fn the_pages_are_current() {
    for (path, text) in pages().expect("the rule sets") {
        let old = fs::read_to_string(root().join(path)).unwrap_or_default();
        assert!(
            old == text,
            "{path} is out of date: run `cargo run -p outside-checks --bin docs -- write`"
        );
    }
}

#[test]
fn the_schemas_are_schemas() {
    for name in ["plan.json", "rule-set.json", "cases.json"] {
        assert!(jsonschema::meta::is_valid(&schema(name)), "{name}");
    }
}

/// All parts of a schema that show an example of a map.
fn with_examples<'s>(schema: &'s Value, found: &mut Vec<&'s Value>) {
    if schema.get("properties").is_some() && schema.get("examples").is_some_and(Value::is_array) {
        found.push(schema);
    }
    match schema {
        Value::Object(parts) => parts.values().for_each(|part| with_examples(part, found)),
        Value::Array(parts) => parts.iter().for_each(|part| with_examples(part, found)),
        _ => {}
    }
}

#[test]
fn each_example_of_a_map_is_such_a_map() {
    let mut tried = 0;
    for name in ["plan.json", "rule-set.json", "cases.json"] {
        let schema = schema(name);
        let mut found = Vec::new();
        with_examples(&schema, &mut found);
        for map in found {
            let mut alone = map.clone();
            alone["$defs"] = schema["$defs"].clone();
            let validator = jsonschema::validator_for(&alone).expect("a schema");
            for example in map["examples"].as_array().expect("examples") {
                let errors: Vec<_> = validator
                    .iter_errors(example)
                    .map(|it| it.to_string())
                    .collect();
                assert!(errors.is_empty(), "{name}: {example}: {errors:?}");
                tried += 1;
            }
        }
    }
    assert!(tried > 50, "{tried}");
}

fn takes(validator: &Validator, files: impl IntoIterator<Item = (String, String)>) {
    let mut told = String::new();
    for (name, text) in files {
        for wrong in wrong(validator, &text).into_iter().take(4) {
            told += &format!("{name} {}\n", wrong.chars().take(400).collect::<String>());
        }
    }
    assert!(told.is_empty(), "\n{told}");
}

#[test]
fn every_rule_file_is_taken() {
    let files = of_rule_sets("rules.yaml").expect("rule files");
    assert!(files.len() > 20);
    takes(&validator("rule-set.json"), files);
}

#[test]
fn every_file_of_cases_is_taken() {
    let files = of_rule_sets("cases.yaml").expect("cases");
    assert!(files.len() > 20);
    takes(&validator("cases.json"), files);
}

#[test]
fn every_plan_is_taken() {
    let read = |path: &str| {
        (
            path.to_owned(),
            fs::read_to_string(root().join(path)).expect("a plan"),
        )
    };
    let paths = [
        "rulesets/eldermere/home.yaml",
        "rulesets/eldermere/no-room.yaml",
        "rules-core/src/plan/read/quarry-lane.yaml",
    ];
    takes(&validator("plan.json"), paths.map(read));
    let random = (0..60).map(|seed| {
        (
            format!("random plan {seed}"),
            outside_checks::random_plans::plan(seed),
        )
    });
    takes(&validator("plan.json"), random);
}
