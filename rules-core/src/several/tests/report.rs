//! The joint report of several rule sets.

use super::*;
use crate::check::{Outcome, Verdict};
use crate::plan::DocumentState;

#[test]
fn the_joint_verdict_is_the_worst_in_either_order() {
    let (keeps, breaks) = (depth("a", "2 m"), depth("b", "1 m"));
    let unknown = rules(
        "c",
        "rules: [{id: volume, title: V, clause: s. 2, require: {fact: pool.volume, at-most: 9 m3}}]\n",
    );
    let verdict = |sets: &[&str]| judged(&plan(""), sets).verdict.word;
    assert_eq!(verdict(&[&keeps, &breaks]), Verdict::DoesNotComply);
    assert_eq!(verdict(&[&breaks, &keeps]), Verdict::DoesNotComply);
    assert_eq!(verdict(&[&keeps, &unknown]), Verdict::NotDecided);
    assert_eq!(
        verdict(&[&unknown, &breaks, &keeps]),
        Verdict::DoesNotComply
    );
    let both = judged(&plan(""), &[&keeps, &depth("d", "3 m")]);
    assert_eq!(both.verdict.word, Verdict::NothingAgainst);
    assert_eq!(
        both.verdict.sentence,
        "Nothing in these rule sets stands against the plan."
    );
    assert_eq!(
        (both.counts.pass, both.counts.fail),
        (3, 0),
        "two rules on depth, and one on the lot"
    );
}

#[test]
fn a_rule_set_with_no_applicable_rule_leaves_the_verdict_open() {
    let idle = rules(
        "idle",
        "rules: [{id: spa, title: S, clause: s. 3, when: {fact: pool.depth, more-than: 9 m}, require: {fact: pool.depth, at-most: 10 m}}]\n",
    );
    let report = judged(&plan(""), &[&depth("a", "2 m"), &idle]);
    assert_eq!(report.verdict.word, Verdict::NotDecided);
    let own: Vec<_> = report
        .rule_sets
        .iter()
        .map(|set| set.verdict.word)
        .collect();
    assert_eq!(own, [Verdict::NothingAgainst, Verdict::NotDecided]);
}

#[test]
fn the_pool_on_the_lot_is_judged_once() {
    let report = judged(&plan(""), &[&depth("a", "2 m"), &depth("b", "1 m")]);
    assert_eq!(by(&report, "pool-inside-the-lot"), ["a", "b"]);
    let outcomes: Vec<_> = report
        .rules
        .iter()
        .map(|rule| (rule.id.as_str(), rule.outcome))
        .collect();
    let expected = [
        ("a/depth", Outcome::Pass),
        ("pool-inside-the-lot", Outcome::Pass),
        ("b/depth", Outcome::Fail),
    ];
    assert_eq!(
        outcomes, expected,
        "two rules of one id have the names of their sets before it"
    );
    assert_eq!(
        report.as_drawn.map(|drawn| drawn.fail),
        Some(vec!["b/depth".to_owned()])
    );
}

#[test]
fn a_base_that_two_rule_sets_share_is_reported_once() {
    let base = asking("base", "Is it noted?");
    let (a, b) = (
        rules("a", "builds-on: [base]\n"),
        rules("b", "builds-on: [base]\n"),
    );
    let text = plan("answers: {noted: yes}\n");
    let report = judged_with(&text, &[&a, &b, &base], &base).expect("one question");
    assert_eq!(ids(&report), ["noted", "pool-inside-the-lot"]);
    assert_eq!(by(&report, "noted"), ["a", "b", "base"]);
    assert_eq!(report.rules[0].layer, "base");
    assert_eq!(report.counts.pass, 2);
    assert_eq!(report.read_by_some, []);
}

#[test]
fn a_rule_of_a_shared_base_that_one_of_them_changes_is_reported_for_each() {
    let base = rear("base", "pool.water", "at-least: 1 m");
    let changed = format!(
        "builds-on: [base]\nrules:\n  - {{id: rear-base, replaces: rear-base, title: Rear, clause: s. 5, {REAR}, require: {{distance: {{from: pool.water, to: lot-line}}, at-least: 2 m}}}}\n"
    );
    let a = rules("a", &changed);
    let report = judged_with(&plan(""), &[&a, &base], &base);
    let report = report.unwrap_or_else(|refusal| panic!("{}", refusal.show("plan", "rules")));
    assert_eq!(
        ids(&report),
        ["a/rear-base", "pool-inside-the-lot", "base/rear-base"]
    );
    let sentence = "The distance from the water's edge to the lot line: at least 2 m governs (a, s. 5); base asks for at least 1 m (s. 4).";
    assert_eq!(report.governs[0].sentence, sentence);
    assert_eq!(report.governs[0].governs.rule, "a/rear-base");
}

#[test]
fn a_matter_that_one_leaves_out_and_another_covers_is_covered() {
    let all_but = |held: &str, ask: &str| {
        let out: String = (Matter::ALL.iter())
            .filter(|matter| matter.id() != held)
            .map(|matter| format!("    - {{matter: {}, ask: {ask}}}\n", matter.id()))
            .collect();
        format!("scope:\n  holds: [{held}]\n  on-top: [Covenants.]\n  leaves-out:\n{out}")
    };
    let lines = rear("lines", "pool.water", "at-least: 1 m") + &all_but("lot-lines", "the county");
    let barrier = rules(
        "barrier",
        "rules: [{id: g, title: G, clause: s. 8, each: gate, require: {fact: gate.self-closing, is: yes}}]\n",
    ) + &all_but("barrier", "the county");
    let more = "inventory: {gate: all-shown}\nthings: [{kind: gate, id: g, self-closing: yes}]\n";
    let text = plan(more);
    let (before, after) = text.split_once("answered:\n").expect("answered");
    let after: String = after
        .lines()
        .filter(|line| !line.starts_with("  ") || line.contains("flood"))
        .map(|line| format!("{line}\n"))
        .collect();
    let report = judged(&format!("{before}answered:\n{after}"), &[&lines, &barrier]);
    let held: Vec<_> = report
        .scope
        .held
        .iter()
        .map(|it| (it.matter.as_str(), it.by.join(" ")))
        .collect();
    assert_eq!(
        held,
        [
            ("lot-lines", "lines".to_owned()),
            ("barrier", "barrier".to_owned())
        ]
    );
    assert_eq!(report.scope.answered.len(), 1);
    assert_eq!(report.scope.open.len(), Matter::ALL.len() - 3);
    let ask = &report.scope.open[0].ask;
    assert_eq!(
        (ask.len(), ask[0].rule_set.as_deref()),
        (1, Some("lines, barrier")),
        "asked once"
    );
    assert_eq!(report.scope.on_top.len(), 1);
    assert_eq!(report.verdict.word, Verdict::NothingInTheseRules);
}

#[test]
fn one_paper_that_two_rule_sets_want_is_listed_once() {
    let paper = |id: &str, rest: &str| {
        let rule = "{id: depth, title: D, clause: s. 1, require: {fact: pool.depth, at-most: 2 m}}";
        rules(
            id,
            &format!(
                "documents: [{{id: plan-{id}, title: Site plan, from: the applicant, {rest}}}]\nrules: [{rule}]\n"
            ),
        )
    };
    let surely = paper("b", "needed: always");
    let perhaps = paper("a", "needed: {when: {fact: pool.volume, more-than: 50 m3}}");
    let report = judged(&plan(""), &[&perhaps, &surely]);
    let papers: Vec<_> = report
        .documents
        .iter()
        .map(|it| (it.sentence.as_str(), it.rule_sets.join(" ")))
        .collect();
    assert_eq!(
        papers,
        [(
            "Site plan, from the applicant: needed, still to get.",
            "a b".to_owned()
        )]
    );
    // One of the two papers is in hand, the other is not.
    let apart = judged(
        &plan("documents: {plan-a: in-hand}\n"),
        &[&perhaps, &surely],
    );
    let states: Vec<_> = apart
        .documents
        .iter()
        .map(|it| (it.state, it.rule_sets.join(" ")))
        .collect();
    assert_eq!(
        states,
        [
            (DocumentState::InHand, "a".to_owned()),
            (DocumentState::NotYet, "b".to_owned())
        ]
    );
    let read = &apart.read_by_some[0];
    assert_eq!(
        (read.rule_sets.join(" "), read.parts.join(" ")),
        ("a".to_owned(), "documents.plan-a".to_owned())
    );
}

#[test]
fn rule_sets_that_belong_together_are_listed_unless_used() {
    let a = depth("a", "2 m") + "belongs-with: [b, power]\n";
    let b = depth("b", "2 m") + "belongs-with: [power]\n";
    let goes = |report: &Report| -> Vec<String> {
        let all = report.goes_with.iter();
        all.map(|one| format!("{}: {}", one.rule_sets.join(" "), one.with.join(" ")))
            .collect()
    };
    assert_eq!(goes(&judged(&plan(""), &[&a])), ["a: b power"]);
    assert_eq!(goes(&judged(&plan(""), &[&a, &b])), ["a b: power"]);
    assert_eq!(
        goes(&judged(&plan(""), &[&a, &b, &depth("power", "2 m")])),
        Vec::<String>::new()
    );
}
