//! The drawing.

use rules_core::drawing::Options;
use rules_core::edit::handles;
use rules_core::report::Report;
use rules_core::text::read;
use rules_core::{judge_by, refusal_to_json};
use serde::Serialize;
use serde_json::json;
use wasm_bindgen::prelude::wasm_bindgen;

use crate::answer::written;
use crate::rules::rules_of;

/// The plan as SVG, whose text begins with `<`; what cannot be drawn comes back as `{"refused": …}`, options that are
/// none as `{"wrong": "…"}`. `options` is a JSON object with any of the keys of `rules_core::drawing::Options`.
#[wasm_bindgen]
pub fn draw(plan: &str, rules: &str, options: &str) -> String {
    found(plan, rules, options).map_or_else(|refused| refused, |(_, drawing)| drawing)
}

/// One step of a drag: the report and the drawing of a plan that is judged once: `{"report": …, "drawing": "<svg …"}`,
/// or as [`draw`] has it where that cannot be.
#[wasm_bindgen]
pub fn frame(plan: &str, rules: &str, options: &str) -> String {
    match found(plan, rules, options) {
        Ok((report, drawing)) => written(&Frame { report, drawing }),
        Err(refused) => refused,
    }
}

#[derive(Serialize)]
struct Frame {
    report: Report,
    drawing: String,
}

fn found(plan: &str, rules: &str, options: &str) -> Result<(Report, String), String> {
    let mut options: Options = serde_json::from_str(options)
        .map_err(|wrong| json!({"wrong": wrong.to_string()}).to_string())?;
    // The page says so itself where other things are taken hold of than the one chosen: for a side, the lot's corners.
    if let (true, Some(thing)) = (options.handles.is_empty(), &options.chosen)
        && let Ok(document) = read(plan)
    {
        options.handles = handles(&document, thing);
    }
    let found = rules_of(rules).and_then(|read| {
        judge_by(
            plan,
            (&read.rule_set, rules),
            &|name| siting_rulesets::rules(name),
            Some(&options),
        )
    });
    let (report, drawing) = found.map_err(|refusal| refusal_to_json(&refusal))?;
    Ok((report, drawing.unwrap_or_default()))
}
