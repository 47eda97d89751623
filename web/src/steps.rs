//! The steps and their days.

use crate::held::texts;
use rules_core::steps::day;
use rules_core::{steps_texts, steps_to_json};
use serde_json::json;
use wasm_bindgen::prelude::wasm_bindgen;

/// The steps that the rule set asks for, from a day on: `{"steps": …}`, or `{"wrong": "…"}` where that is no day.
#[wasm_bindgen]
pub fn steps(start: &str) -> String {
    let [plan, rules] = texts();
    match day(start) {
        Ok(start) => steps_to_json(&steps_texts(
            &plan,
            &rules,
            &|name| siting_rulesets::rules(name),
            start,
        )),
        Err(wrong) => json!({"wrong": wrong}).to_string(),
    }
}
