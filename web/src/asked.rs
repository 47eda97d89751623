//! What the rule set asks for.

use rules_core::refusal_to_json;
use wasm_bindgen::prelude::wasm_bindgen;

use crate::held::texts;
use crate::rules::rules_of;
use crate::written::written;

/// What the rules need to know of a plan (see `rules_core::asked`).
#[wasm_bindgen]
pub fn asked() -> String {
    let [_, rules] = texts();
    match rules_of(&rules) {
        Ok(read) => written(&rules_core::asked::asked(&read.rule_set)),
        Err(refusal) => refusal_to_json(&refusal),
    }
}
