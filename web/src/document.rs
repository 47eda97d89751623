//! The plan as a document: JSON in the page, YAML in a file.

use rules_core::text::{read, to_json_text, to_yaml_text};
use serde_json::json;
use wasm_bindgen::prelude::wasm_bindgen;

use crate::written::plan_refused;

/// The smallest plan to start from: no lot yet, and no pool.
#[wasm_bindgen]
pub fn blank() -> String {
    json!({"plan": "my-home", "title": "My home", "unit": "m", "things": []}).to_string()
}

/// A plan in YAML or JSON as JSON, every figure as it was typed: `{"plan": …}`. It need not be a whole plan yet.
#[wasm_bindgen]
pub fn to_json(plan: &str) -> String {
    match read(plan) {
        Ok(node) => format!("{{\"plan\": {}}}", to_json_text(&node)),
        Err(faults) => plan_refused(plan, faults),
    }
}

/// The same as YAML: `{"text": "…"}`.
#[wasm_bindgen]
pub fn to_yaml(plan: &str) -> String {
    match read(plan) {
        Ok(node) => json!({"text": to_yaml_text(&node)}).to_string(),
        Err(faults) => plan_refused(plan, faults),
    }
}
