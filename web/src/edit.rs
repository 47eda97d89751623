//! Changes of the plan by hand.

use rules_core::edit::{Change, Changed, change};
use rules_core::sides::proposed_sides;
use rules_core::text::{read, to_json_text};
use serde_json::json;
use wasm_bindgen::prelude::wasm_bindgen;

use crate::written::{plan_refused, written};

/// The plan with a change (JSON, as `rules_core::edit::Change` has it): `{"plan": …}`, with `"id"` where something was
/// drawn anew and `"closing"` (in millimetres) where a lot was drawn side by side; or `{"wrong": "…"}`.
#[wasm_bindgen]
pub fn edit(plan: &str, wanted: &str) -> String {
    let mut document = match read(plan) {
        Ok(document) => document,
        Err(faults) => return plan_refused(plan, faults),
    };
    let wanted: Change = match serde_json::from_str(wanted) {
        Ok(wanted) => wanted,
        Err(wrong) => return json!({"wrong": wrong.to_string()}).to_string(),
    };
    match change(&mut document, &wanted) {
        Ok(Changed { id, closing }) => {
            let closing = closing.map(|nanometres| nanometres / 1_000_000);
            let (id, closing) = (written(&id), written(&closing));
            let plan = to_json_text(&document);
            format!("{{\"plan\": {plan}, \"id\": {id}, \"closing\": {closing}}}")
        }
        Err(wrong) => json!({"wrong": wrong.0}).to_string(),
    }
}

/// What each side of the lot is proposed to face, and why: a list of `{"side", "faces", "why"}`, empty where the plan cannot
/// be read or its sides do not run once round the lot. A person confirms it.
#[wasm_bindgen]
pub fn faces(plan: &str) -> String {
    let found = read(plan).map(|plan| proposed_sides(&plan));
    written(&found.unwrap_or_default())
}

/// Where a thing can be taken hold of: a list for `handles` in the options of a drawing.
#[wasm_bindgen]
pub fn handles(plan: &str, path: &str) -> String {
    let found = read(plan).map(|plan| rules_core::edit::handles(&plan, path));
    written(&found.unwrap_or_default())
}
