//! The steps and their days.

use rules_core::drawing::Options;
use rules_core::refusal_to_json;
use rules_core::steps::day;
use serde_json::json;

use crate::check::answered;

/// The steps that the rules ask of the current plan, from a day on, as JSON: a list of `steps` and what goes with them,
/// or `{"wrong": "…"}` if that is not a day. The page dates the steps of the plan that it shows in the same way.
pub fn steps(start: &str) -> String {
    let start = match day(start) {
        Ok(start) => start,
        Err(wrong) => return json!({"wrong": wrong}).to_string(),
    };
    match answered(&Options::default()) {
        Ok(answered) => json!({"steps": answered.steps(start)}).to_string(),
        Err(refusal) => refusal_to_json(&refusal),
    }
}
