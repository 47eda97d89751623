//! How an answer is written.

use rules_core::refusal_to_json;
use rules_core::text::Faults;
use serde::Serialize;

/// An answer as JSON.
pub fn written(answer: &impl Serialize) -> String {
    // Text, numbers and lists of them can always be written.
    serde_json::to_string(answer).unwrap_or_default()
}

/// What is wrong with a plan's text.
pub fn plan_refused(text: &str, faults: Faults) -> String {
    refusal_to_json(&rules_core::plan_refused(text, faults))
}
