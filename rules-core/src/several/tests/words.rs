//! Which words of a plan each rule set reads, and which words are refused.

use super::*;
use crate::answer::{judge_texts, to_json};
use crate::check::{Outcome, Verdict};

#[test]
fn one_question_under_two_ids_is_refused_until_the_plan_names_the_rule_set() {
    let (a, b) = (
        asking("a", "Is it noted in the deed?"),
        asking("b", "Is it noted on the map?"),
    );
    let said = refused(&plan("answers: {noted: yes}\n"), &[&a, &b]);
    for part in [
        "`a`: \"Is it noted in the deed?\"",
        "`b`: \"Is it noted on the map?\"",
        "`a/noted` or `b/noted`",
    ] {
        assert!(said.contains(part), "{part}: {said}");
    }
    assert_eq!(said.matches("Several rule sets use").count(), 1, "{said}");
    let report = judged(&plan("answers: {a/noted: yes, b/noted: no}\n"), &[&a, &b]);
    let outcomes: Vec<_> = report
        .rules
        .iter()
        .map(|rule| (rule.id.as_str(), rule.outcome))
        .collect();
    assert!(
        outcomes.contains(&("a/noted", Outcome::Pass)),
        "{outcomes:?}"
    );
    assert!(
        outcomes.contains(&("b/noted", Outcome::Fail)),
        "{outcomes:?}"
    );
    // The same plan under one of them alone.
    let text = plan("answers: {a/noted: yes}\n");
    let alone = judge_texts(&text, &a, &|_| None).map(|report| report.verdict.word);
    assert_eq!(alone, Ok(Verdict::NothingAgainst));
}

#[test]
fn an_open_question_is_asked_with_the_name_of_its_rule_set() {
    let (a, b) = (
        asking("a", "Is it noted in the deed?"),
        asking("b", "Is it noted on the map?"),
    );
    let report = judged(&plan("answers: {a/noted: yes}\n"), &[&a, &b]);
    let asked: Vec<_> = report
        .questions
        .iter()
        .map(|one| (one.missing.name.as_str(), &one.rules[..]))
        .collect();
    assert_eq!(asked, [("answers.b/noted", &["b/noted".to_owned()][..])]);
    assert_eq!(report.questions[0].rule_sets, ["b"]);
}

#[test]
fn a_word_given_twice_for_one_rule_set_is_refused() {
    let a = asking("a", "Is it noted?");
    let text = plan("answers: {noted: yes, a/noted: no}\n");
    let refusal = judge_texts(&text, &a, &|_| None).expect_err("said twice");
    assert!(
        refusal
            .show("plan", "rules")
            .contains("`noted` is said twice")
    );
    assert!(refused(&text, &[&a, &depth("b", "2 m")]).contains("`noted` is said twice"));
}

#[test]
fn a_word_that_only_one_rule_set_knows_is_kept_and_reported() {
    let a = asking("a", "Is it noted?");
    let own = "kinds:\n  - {id: mast, said: a mast, ask: Is there a mast?, facts: [{id: lit, said: light, ask: Is it lit?, answer: yes-no}], outlines: [{id: foot, said: the foot, shape: point}]}\n\
               rules: [{id: lit, title: Lit, clause: s. 7, each: mast, require: {fact: mast.lit, is: yes}}]\n";
    let b = rules("b", own);
    let more = "answers: {noted: yes}\ninventory: {mast: all-shown}\nthings:\n  - {kind: mast, id: m, source: s, lit: yes, foot: [3, 3]}\n\
                measured: [{from: m.foot, to: pool.water, is: 27.89 m ± 1 m}]\n";
    let report = judged(&plan(more), &[&a, &b]);
    assert_eq!(report.verdict.word, Verdict::NothingAgainst);
    let read: Vec<_> = report
        .read_by_some
        .iter()
        .map(|one| (one.rule_sets.join(" "), one.parts.join(" ")))
        .collect();
    let expected = [
        ("a".to_owned(), "answers.noted".to_owned()),
        (
            "b".to_owned(),
            "inventory.mast things.m measured.1".to_owned(),
        ),
    ];
    assert_eq!(read, expected);
    let turned = judged(&plan(more), &[&b, &a]);
    assert_eq!(turned.verdict.word, report.verdict.word);
}

#[test]
fn a_word_that_none_of_them_knows_is_refused_once() {
    let own = "kinds: [{id: mast, said: a mast, ask: Any?, facts: [{id: lit, said: light, ask: Lit?, answer: yes-no}]}]\n\
               rules: [{id: lit, title: Lit, clause: s. 7, each: mast, require: {fact: mast.lit, is: yes}}]\n";
    let (a, b) = (rules("a", own), asking("b", "Is it noted?"));
    let more = "answers: {notted: yes, moon: yes}\nthings: [{kind: mast, id: m, lit: yes, colour: red}, {kind: gate, id: g, latch-hieght: 1 m}]\n";
    let said = refused(&plan(more), &[&a, &b]);
    for word in ["`notted`", "`moon`", "`colour`", "`latch-hieght`"] {
        assert_eq!(
            said.matches(&format!("{word} is not a key")).count(),
            1,
            "{word}: {said}"
        );
    }
    assert!(said.contains("Did you mean `noted`?"), "{said}");
    assert!(!said.contains("`lit` is not"), "{said}");
}

#[test]
fn one_run_reports_the_faults_of_all_files() {
    let broken = [
        rules("a", "rules: [{id: one}]\n"),
        rules("b", "rules: [{id: two}]\n"),
    ];
    let refusal = judged_with("plan: p\n", &[&broken[0], &broken[1]], "").expect_err("three files");
    let files: Vec<_> = refusal
        .rules
        .iter()
        .map(|file| file.name.as_deref())
        .collect();
    assert_eq!(files, [Some("file-1"), Some("file-2")]);
    assert!(refusal.plan.is_some());
}

#[test]
fn two_rule_sets_of_one_name_are_refused_but_a_repeated_text_counts_once() {
    let (one, other) = (depth("a", "2 m"), depth("a", "1 m"));
    assert!(refused(&plan(""), &[&one, &other]).contains("called `a`, too"));
    let once = judged(&plan(""), &[&one, &one]);
    let text = plan("");
    let alone = judge_texts(&text, &one, &|_| None);
    assert_eq!(to_json(&Ok(once)), to_json(&alone));
}
