//! Whatever the checker of rule files lets through can be judged on every plan; and how a file is written changes nothing.
//!
//! `PAIRS=100000 cargo test --release -p outside-checks --test all ruleset_soundness` runs more than the usual number.

use outside_checks::random_rules::{Spelling, respelled, spoilt};
use rules_core::report::Report;
use rules_core::ruleset;
use rules_core::vocabulary::Vocabulary;
use rules_core::{judge_texts, text, to_json};
use serde_json::Value;

use crate::common::random::{clean, clean_files, judged, pairs, strip, valid_plan, without_lines};

/// Random rule files are of use only if most check clean, and if the rules of those come to all sorts of outcomes.
#[test]
fn what_checks_clean_can_be_judged_on_every_plan() {
    let (files, tried) = clean_files(pairs() / 4);
    let mut words = std::collections::BTreeMap::<String, u64>::new();
    for (seed, rules) in &files {
        for plan in 0..4 {
            let report = judged(seed * 4 + plan, rules);
            let checked = clean(rules).expect("it was clean before");
            let rules = checked.rule_set.all_rules().count();
            assert_eq!(report.rules.len(), rules, "{seed}");
            let json = to_json(&Ok(report));
            let json: Value = serde_json::from_str(&json).expect("JSON");
            for rule in json["report"]["rules"].as_array().expect("rules") {
                *words.entry(rule["outcome"].to_string()).or_default() += 1;
            }
        }
    }
    assert!(
        tried < 4 * u64::try_from(files.len()).unwrap_or(0),
        "{tried} files tried for {} clean ones",
        files.len()
    );
    println!("{} of {tried} files are clean: {words:?}", files.len());
    assert!(words.len() == 6, "{words:?}");
}

#[test]
fn a_spoilt_file_is_refused_or_can_still_be_judged() {
    let (files, _) = clean_files(pairs() / 4);
    let (mut refused, mut judged_still) = (0, 0);
    for (seed, rules) in &files {
        let root = text::read(rules).expect("a file");
        for change in 0..4 {
            let spoilt = spoilt(seed * 4 + change, &root);
            match ruleset::read(&spoilt, &|_| None, Vocabulary::standard()) {
                Ok(_) => {
                    judged(*seed, &spoilt);
                    judged_still += 1;
                }
                Err(files) => {
                    let told = files
                        .iter()
                        .flat_map(|file| &file.faults.list)
                        .all(|fault| !fault.message.is_empty());
                    assert!(told && !files.is_empty(), "{files:?}{spoilt}");
                    refused += 1;
                }
            }
        }
    }
    println!("{refused} refused, {judged_still} judged");
    assert!(refused > pairs() / 20 && judged_still > pairs() / 20);
}

/// What every rule and each of its parts comes to, and the verdict.
fn outcomes(report: Report) -> Value {
    let mut json = without_lines(report);
    let kept = [
        "report",
        "verdict",
        "word",
        "counts",
        "rules",
        "id",
        "outcome",
        "as-drawn",
        "parts",
        "holds",
        "readings",
        "subject",
        "relief",
        "decisions",
        "classes",
    ];
    strip(&mut json, &|key| !kept.contains(&key));
    json
}

#[test]
fn the_form_of_a_file_changes_nothing() {
    let (files, _) = clean_files(pairs() / 8);
    for (seed, rules) in &files {
        let plan = valid_plan(*seed);
        let other_rules = respelled(*seed, &text::read(rules).expect("a file"), Spelling::Form);
        let other_plan = respelled(seed + 1, &text::read(plan).expect("a plan"), Spelling::Form);
        let report = judge_texts(&other_plan, &other_rules, &|_| None);
        let report = report.unwrap_or_else(|refused| {
            panic!(
                "{seed}: {}\n{other_rules}\n{other_plan}",
                refused.show("plan", "rules")
            )
        });
        assert_eq!(
            without_lines(judged(*seed, rules)),
            without_lines(report),
            "{rules}\n---\n{other_rules}\n---\n{other_plan}"
        );
    }
}

#[test]
fn the_units_of_a_file_change_no_outcome() {
    let (files, _) = clean_files(pairs() / 8);
    for (seed, rules) in &files {
        let other = respelled(*seed, &text::read(rules).expect("a file"), Spelling::Units);
        let report = judge_texts(valid_plan(*seed), &other, &|_| None);
        let report = report
            .unwrap_or_else(|refused| panic!("{seed}: {}\n{other}", refused.show("plan", "rules")));
        assert_eq!(
            outcomes(judged(*seed, rules)),
            outcomes(report),
            "{rules}\n---\n{other}"
        );
    }
}
