//! What the rule set asks for.

use rules_core::{judge_by, refusal_to_json};
use serde_json::{Value, json};
use wasm_bindgen::prelude::wasm_bindgen;

use crate::rules::rules_of;

/// What the rules need to know (see `rules_core::asked`), and under `missing` what the report of now waits for, what
/// would decide most first; `missing` is null where the plan is not one yet.
#[wasm_bindgen]
pub fn asked(plan: &str, rules: &str) -> String {
    let read = match rules_of(rules) {
        Ok(read) => read,
        Err(refusal) => return refusal_to_json(&refusal),
    };
    let found = judge_by(
        plan,
        (&read.rule_set, rules),
        &|name| siting_rulesets::rules(name),
        None,
    );
    let mut answer = json!(rules_core::asked::asked(&read.rule_set));
    if let Value::Object(answer) = &mut answer {
        let missing = found.ok().map(|(report, _)| report.questions);
        answer.insert("missing".to_owned(), json!(missing));
    }
    answer.to_string()
}
