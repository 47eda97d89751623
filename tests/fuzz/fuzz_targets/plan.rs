//! Whatever bytes come as a plan: they are read or refused, and what is read can be judged.
#![no_main]

use libfuzzer_sys::fuzz_target;
use rules_core::{judge_texts, text::decode, to_json};

const RULES: &str = include_str!("../../../rulesets/eldermere/rules.yaml");

fuzz_target!(|bytes: &[u8]| {
    if let Ok(text) = decode(bytes) {
        let answer = judge_texts(text, RULES, &|_| None);
        if let Err(refusal) = &answer {
            assert!(!refusal.show("plan", "rules").is_empty());
        }
        to_json(&answer);
    }
});
