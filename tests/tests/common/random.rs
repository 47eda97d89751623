//! Random rule files and plans, and what they come to.

use std::sync::OnceLock;

use outside_checks::random_plans;
use outside_checks::random_rules::rule_set;
use rules_core::report::Report;
use rules_core::ruleset::{self, Checked};
use rules_core::vocabulary::Vocabulary;
use rules_core::{judge_texts, plan, to_json};
use serde_json::Value;

/// How many pairs of a rule file and a plan are tried.
pub fn pairs() -> u64 {
    let asked = std::env::var("PAIRS")
        .ok()
        .and_then(|pairs| pairs.parse().ok());
    asked.unwrap_or(2000)
}

pub fn clean(text: &str) -> Option<Checked> {
    ruleset::read(text, &|_| None, Vocabulary::standard()).ok()
}

/// Random rule files that check clean, each with its seed.
pub fn clean_files(least: u64) -> (Vec<(u64, String)>, u64) {
    let vocabulary = Vocabulary::standard();
    let (mut files, mut seed) = (Vec::new(), 0);
    while u64::try_from(files.len()).unwrap_or(u64::MAX) < least {
        let text = rule_set(seed, &vocabulary);
        if clean(&text).is_some() {
            files.push((seed, text));
        }
        seed += 1;
        assert!(
            seed < 20 * least,
            "hardly any random rule file checks clean"
        );
    }
    (files, seed)
}

/// Random plans that can be read; the others have a ± where a drawing has none.
fn plans() -> &'static [String] {
    static PLANS: OnceLock<Vec<String>> = OnceLock::new();
    PLANS.get_or_init(|| {
        let vocabulary = Vocabulary::standard();
        let texts = (0..2500).map(random_plans::plan);
        let valid: Vec<_> = texts
            .filter(|text| plan::read(text, &vocabulary).is_ok())
            .collect();
        assert!(valid.len() > 300, "{} plans can be read", valid.len());
        valid
    })
}

/// The valid plan of that number.
pub fn valid_plan(number: u64) -> &'static str {
    let count = u64::try_from(plans().len()).unwrap_or(1);
    let place = usize::try_from(number % count).unwrap_or(0);
    &plans()[place]
}

pub fn judged(seed: u64, rules: &str) -> Report {
    let report = judge_texts(valid_plan(seed), rules, &|_| None);
    report.unwrap_or_else(|refused| panic!("{seed}: {}\n{rules}", refused.show("plan", "rules")))
}

/// The answer without the lines in which things stand.
pub fn without_lines(report: Report) -> Value {
    let mut json = serde_json::from_str(&to_json(&Ok(report))).expect("JSON");
    strip(&mut json, &|key| key.ends_with("-line"));
    json
}

pub fn strip(json: &mut Value, drop: &dyn Fn(&str) -> bool) {
    match json {
        Value::Object(map) => {
            map.retain(|key, _| !drop(key));
            map.values_mut().for_each(|value| strip(value, drop));
        }
        Value::Array(items) => items.iter_mut().for_each(|item| strip(item, drop)),
        _ => {}
    }
}
