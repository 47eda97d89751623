//! One home under twelve combinations of rule sets, each held to what its rule sets say alone.

use std::collections::BTreeMap;
use std::fs;

use outside_checks::one_site::{TOGETHER, bare, together};
use outside_checks::pages::{of_rule_sets, root};
use rules_core::check::Outcome;
use rules_core::report::Report;

fn home() -> String {
    let path = root().join("rulesets/eldermere/home.yaml");
    bare(&fs::read_to_string(path).expect("the home"))
}

fn judged(names: &[&str], files: &BTreeMap<String, String>) -> Report {
    let report = together(&home(), names, files);
    report.unwrap_or_else(|refused| panic!("{names:?}: {}", refused.show("home", "rules")))
}

/// What each rule comes to: its rule set, its title and clause, its outcome, and the sentence.
fn told(report: &Report, of: &str) -> Vec<(String, String, Outcome, String)> {
    let own = |sets: &[String]| sets.is_empty() || sets.iter().any(|set| set == of);
    let rules = report.rules.iter().filter(|rule| own(&rule.rule_sets));
    let told = rules.map(|rule| {
        let (title, clause) = (rule.title.clone(), rule.clause.clone());
        (title, clause, rule.outcome, rule.sentence.clone())
    });
    let mut told: Vec<_> = told.collect();
    told.sort();
    told
}

#[test]
fn together_each_rule_set_says_what_it_says_alone() {
    let files = of_rule_sets("rules.yaml").expect("the rule sets");
    for names in TOGETHER {
        let all = judged(names, &files);
        let alone: Vec<Report> = names.iter().map(|name| judged(&[name], &files)).collect();
        for (name, report) in names.iter().zip(&alone) {
            assert_eq!(told(&all, name), told(report, name), "{names:?}: {name}");
        }
        let worst = alone.iter().map(|report| report.verdict.word).min();
        assert!(Some(all.verdict.word) >= worst, "{names:?}");
        let fails = alone.iter().any(|report| report.counts.fail > 0);
        assert_eq!(all.counts.fail > 0, fails, "{names:?}");
        let built_in = all
            .rules
            .iter()
            .filter(|rule| rule.id == "pool-inside-the-lot");
        assert_eq!(built_in.count(), 1, "{names:?}");
        let held = |report: &Report| -> Vec<String> {
            report
                .scope
                .held
                .iter()
                .map(|it| it.matter.clone())
                .collect()
        };
        for matter in alone.iter().flat_map(held) {
            assert!(held(&all).contains(&matter), "{names:?}: {matter}");
            let open = all.scope.open.iter().any(|it| it.matter == matter);
            assert!(!open, "{names:?}: {matter}");
        }
        let asked: usize = alone.iter().map(|report| report.questions.len()).sum();
        assert!(all.questions.len() <= asked, "{names:?}");
    }
}

/// No id stands for two rules, and each question names rules that are there.
#[test]
fn together_each_id_stands_for_one_rule() {
    let files = of_rule_sets("rules.yaml").expect("the rule sets");
    for names in TOGETHER {
        let all = judged(names, &files);
        let mut ids: Vec<&String> = all.rules.iter().map(|rule| &rule.id).collect();
        let asked = all.questions.iter().flat_map(|question| &question.rules);
        let papers = all.documents.iter().flat_map(|paper| &paper.rules);
        for rule in asked.chain(papers) {
            assert!(ids.contains(&rule), "{names:?}: {rule}");
        }
        let count = ids.len();
        ids.sort();
        ids.dedup();
        assert_eq!(ids.len(), count, "{names:?}");
    }
}

/// Georgia builds on the model barrier rules: what it leaves as they are is told once.
#[test]
fn a_base_named_besides_adds_no_rule_that_is_unchanged() {
    let files = of_rule_sets("rules.yaml").expect("the rule sets");
    let all = judged(&["georgia", "barrier-model"], &files);
    let both = all
        .rules
        .iter()
        .filter(|rule| rule.rule_sets.len() == 2)
        .count();
    let base = judged(&["barrier-model"], &files).rules.len();
    assert!(both * 10 > base * 9, "{both} of {base}");
}
