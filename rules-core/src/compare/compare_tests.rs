use super::*;
use crate::check::{Outcome, Verdict};
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

/// The effect on the rule `depth` of another limit.
fn effect(old: &str, new: &str) -> Effect {
    let changes = of(&compare(&rules(old, ""), &rules(new, "")), Sort::Rules);
    let change = changes.changed.into_iter().next().expect("a change");
    change.effect.expect("an effect")
}

#[test]
fn a_rule_is_stricter_or_laxer_or_each_in_some_cases() {
    assert_eq!(effect("2 m", "1.4 m").word, "stricter");
    assert_eq!(effect("2 m", "2.4 m").word, "laxer");
    assert_eq!(effect("2 m", "pool.excavation-depth").word, "changed");
    let table = |fixed: &str, other: &str| {
        format!(
            "{{table: {{by: pool.construction, rows: [{{is: in-ground, then: {fixed}}}, {{otherwise: {other}}}]}}}}"
        )
    };
    let both = effect(&table("1 m", "2 m"), &table("1.5 m", "1.8 m"));
    assert_eq!(both.word, "both");
    assert!(
        both.sentence
            .ends_with("laxer where the way the pool is built is in ground"),
        "{}",
        both.sentence
    );
    // The same length in another unit is the same.
    assert_eq!(
        compare(&rules("1 m", ""), &rules("1000 mm", ""))
            .groups
            .len(),
        2
    );
    assert_eq!(effect("1 m", "1000 mm").word, "same");
}

#[test]
fn a_renamed_rule_is_told_as_renamed() {
    let (old, new) = (
        rules("2 m", WORK),
        rules("2 m", &WORK.replace("id: work", "id: new-work")),
    );
    let changes = compare(&old, &new);
    let changed = of(&changes, Sort::Rules);
    assert!(changed.added.is_empty() && changed.removed.is_empty());
    assert_eq!(changed.renamed.len(), 1);
    let compared = compare_plan(PLAN, (&old, &new), &changes).expect("a good plan");
    assert!(compared.is_same(), "{compared:?}");
}

#[test]
fn papers_steps_cautions_and_days_in_force_are_told() {
    let more = "documents: [{id: letter, title: A letter, needed: always}]\ncautions: [{id: dig, says: Ask first.}]\n";
    let changes = compare(&rules("2 m", ""), &rules("2 m", more));
    let sorts: Vec<Sort> = changes.groups.iter().map(|(sort, _)| *sort).collect();
    assert_eq!(sorts, [Sort::Papers, Sort::Cautions]);
    let days = "in-force: {from: 2026-01-01, by: applied}\n";
    let text = compare(&rules("2 m", ""), &rules("2 m", days)).to_text();
    assert!(
        text.contains("now:    In force from 2026-01-01 on"),
        "{text}"
    );
}

#[test]
fn a_plan_comes_out_differently() {
    let (old, new) = (rules("2 m", ""), rules("1.4 m", WORK));
    let changes = compare(&old, &new);
    let compared = compare_plan(PLAN, (&old, &new), &changes).expect("a good plan");
    assert_eq!(
        compared.verdict,
        (Verdict::NothingInTheseRules, Verdict::DoesNotComply)
    );
    let rules: Vec<_> = (compared.rules.iter())
        .map(|rule| (rule.id.as_str(), rule.outcome(true), rule.outcome(false)))
        .collect();
    let expected = [
        ("depth", Some(Outcome::Pass), Some(Outcome::Fail)),
        ("work", None, Some(Outcome::Unknown)),
    ];
    assert_eq!(rules, expected);
    let text = summary(&[("p.yaml".to_owned(), compared)]);
    assert!(text.starts_with("1 of 1 plan newly fails.\n"), "{text}");
    let same = compare(&old, &old);
    let same = compare_plan(PLAN, (&old, &old), &same).expect("a good plan");
    assert!(same.is_same());
    assert!(compare_plan("plan: [", (&old, &new), &changes).is_err());
}
