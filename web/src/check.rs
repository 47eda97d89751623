//! The report.

use rules_core::judge_texts;
use wasm_bindgen::prelude::wasm_bindgen;

/// Judges a plan by a rule set: `{"report": …}`. What the rule set builds on is looked for among the bundled ones.
#[wasm_bindgen]
pub fn check(plan: &str, rules: &str) -> String {
    rules_core::to_json(&judge_texts(plan, rules, &|name| {
        siting_rulesets::rules(name)
    }))
}
