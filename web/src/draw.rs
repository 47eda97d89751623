//! The drawing.

use rules_core::drawing::Options;
use rules_core::refusal_to_json;
use serde_json::json;
use wasm_bindgen::prelude::wasm_bindgen;

use crate::rules::{fitted, judged, rules_of};

/// The plan as SVG, whose text begins with `<`; what cannot be drawn comes back as `{"refused": …}`, options that are
/// none as `{"wrong": "…"}`. `options` is a JSON object with any of the keys of `rules_core::drawing::Options`.
#[wasm_bindgen]
pub fn draw(plan: &str, rules: &str, options: &str) -> String {
    let options = match wanted(options) {
        Ok(options) => options,
        Err(wrong) => return wrong,
    };
    let drawn = rules_of(rules).and_then(|read| {
        let mut document = fitted(plan, &read)?.document;
        let options = options.holding(&mut document);
        judged(&document, &read, [plan, rules], &options)
    });
    match drawn {
        Ok((_, drawing)) => drawing.map_or_else(String::new, |drawing| drawing.svg()),
        Err(refusal) => refusal_to_json(&refusal),
    }
}

/// How a drawing is wanted; or an answer that says what is wrong with it.
pub fn wanted(options: &str) -> Result<Options, String> {
    serde_json::from_str(options).map_err(|wrong| json!({"wrong": wrong.to_string()}).to_string())
}
