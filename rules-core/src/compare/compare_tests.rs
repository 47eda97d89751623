use super::*;
use crate::ruleset;
use crate::vocabulary::Vocabulary;

const PLAN: &str = "\
plan: p
title: P
unit: m
sources: [{id: survey, by: survey, accuracy: 0 mm, shift: 0 mm}]
lot: {source: survey, corners: {a: [0, 0], b: [30, 0], c: [30, 30], d: [0, 30]}}
pool: {id: pool, source: survey, water: [[5, 5], [9, 5], [9, 9]], depth: 1.5 m}
";

fn rules(depth: &str, more: &str) -> RuleSet {
    let text = format!(
        "ruleset: r\ntitle: R\nedition: '1'\nauthority: nobody\nterms: {{deepest: {depth}}}\nrules:\n  - {{id: depth, \
         title: Depth, clause: s. 1, require: {{fact: pool.depth, at-most: deepest}}}}\n{more}"
    );
    let read = ruleset::read(&text, &|_| None, Vocabulary::standard());
    read.expect("good rules").rule_set
}

fn of(changes: &Changes, sort: Sort) -> Changed {
    let mut groups = changes.groups.iter();
    let found = groups.find(|(other, _)| *other == sort);
    found
        .map(|(_, changed)| changed.clone())
        .unwrap_or_default()
}

const WORK: &str =
    "  - {id: work, title: Work, clause: s. 2, require: {fact: pool.work, is: new}}\n";

#[test]
fn what_says_the_same_is_no_change() {
    let old = rules("2 m", "# a remark\n");
    let changes = compare(&old, &rules("2 m", ""));
    assert_eq!(changes, Changes::default());
    assert_eq!(changes.to_text(), "Both say the same.\n");
}

#[test]
fn a_changed_term_an_added_and_a_removed_rule_are_told() {
    let (old, new) = (rules("2 m", ""), rules("1.4 m", WORK));
    let changes = compare(&old, &new);
    assert_eq!(of(&changes, Sort::Words).changed.len(), 1);
    let rules_changed = of(&changes, Sort::Rules);
    let added: Vec<&str> = rules_changed
        .added
        .iter()
        .map(|said| said.id.as_str())
        .collect();
    assert_eq!((added, rules_changed.removed.len()), (vec!["work"], 0));
    let back = compare(&new, &old);
    assert_eq!(of(&back, Sort::Rules).removed, rules_changed.added);
    let text = changes.to_text();
    assert!(
        text.contains("before: This means 2 m.") && text.contains("now:    This means 1.4 m."),
        "{text}"
    );
}

#[test]
fn a_plan_comes_out_otherwise() {
    let (old, new) = (rules("2 m", ""), rules("1.4 m", WORK));
    let compared = compare_plan(PLAN, &old, &new).expect("a good plan");
    assert_eq!(
        compared.verdict,
        (Verdict::NothingAgainst, Verdict::DoesNotComply)
    );
    let expected = [
        ("depth".to_owned(), Some(Outcome::Pass), Some(Outcome::Fail)),
        ("work".to_owned(), None, Some(Outcome::Unknown)),
    ];
    assert_eq!(compared.rules, expected);
    let same = compare_plan(PLAN, &old, &old).expect("a good plan");
    assert_eq!(same.rules, []);
    assert!(compare_plan("plan: [", &old, &new).is_err());
}
