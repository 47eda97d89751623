//! What the page calls: the library behind one function, and no logic of its own.

use rules_core::{judge_texts, to_json};
use wasm_bindgen::prelude::wasm_bindgen;

/// Judges a plan by a rule set; gives the report or what is wrong with the texts, as JSON.
///
/// The rule set must stand alone: a page has no other files for it to build on.
#[wasm_bindgen]
pub fn check(plan_text: &str, rules_text: &str) -> String {
    to_json(&judge_texts(plan_text, rules_text, &|_| None))
}

#[cfg(test)]
mod tests {
    use super::check;

    #[test]
    fn texts_that_say_nothing_are_refused_both_at_once() {
        let answer = check("", "");
        assert!(answer.starts_with("{\n  \"refused\": {\n    \"plan\": [\n      {"));
        assert_eq!(answer.matches("\"code\": \"empty-file\"").count(), 2);
    }
}
