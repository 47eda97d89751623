//! One plan under several rule sets, case by case, each worked out by hand.

use super::{RulesText, judge_together};
use crate::check::{Outcome, Verdict};
use crate::report::Report;
use crate::vocabulary::Matter;
use crate::{Refusal, judge_texts, to_json};

/// A lot of 30 m by 40 m, the water 2.5 m from the rear line, with all matters answered.
fn plan(more: &str) -> String {
    let answered: String = (Matter::ALL.iter())
        .map(|matter| format!("  {}: {{by: the office, on: 2026-03-02}}\n", matter.id()))
        .collect();
    format!(
        "plan: p\ntitle: P\nunit: m\n\
         sources: [{{id: s, by: survey, accuracy: 0 mm, shift: 0 mm}}]\n\
         lot:\n  source: s\n  corners: {{a: [0, 0], b: [30, 0], c: [30, 40], d: [0, 40]}}\n  sides:\n\
         \x20   - {{id: street, from: a, to: b, faces: front, beyond: road}}\n\
         \x20   - {{id: east, from: b, to: c, faces: side, beyond: neighbour-lot}}\n\
         \x20   - {{id: rear, from: c, to: d, faces: rear, beyond: neighbour-lot}}\n\
         \x20   - {{id: west, from: d, to: a, faces: side, beyond: neighbour-lot}}\n\
         pool: {{id: pool, source: s, depth: 1.5 m, water: [[10, 30], [18, 30], [18, 37.5], [10, 37.5]], \
         inside-face: {{same-as: water}}, coping: none, shell: {{outward: 0.3 m, from: water, corners: square}}}}\n\
         answered:\n{answered}{more}"
    )
}

fn rules(id: &str, rest: &str) -> String {
    format!(
        "ruleset: {id}\ntitle: Rules of {id}\nedition: '1'\nauthority: the office of {id}\n{rest}"
    )
}

/// A rule set that asks for a depth between two figures.
fn depth(id: &str, at_most: &str) -> String {
    let rule = format!(
        "{{id: depth, title: Depth, clause: s. 1, require: {{fact: pool.depth, at-most: {at_most}}}}}"
    );
    rules(id, &format!("rules: [{rule}]\n"))
}

const REAR: &str = "each: {kind: lot-line, where: {fact: lot-line.faces, is: rear}}";

/// A rule set with one rule on the way to the rear line.
fn rear(id: &str, from: &str, limit: &str) -> String {
    let distance = format!("{{distance: {{from: {from}, to: lot-line}}, {limit}}}");
    let rule = format!("{{id: rear-{id}, title: Rear, clause: s. 4, {REAR}, require: {distance}}}");
    rules(id, &format!("rules: [{rule}]\n"))
}

/// A rule set with a question of its own, and a rule on the answer.
fn asking(id: &str, question: &str) -> String {
    let question = format!("{{id: noted, ask: \"{question}\", answer: yes-no}}");
    let rule = "{id: noted, title: Noted, clause: s. 9, require: {fact: answers.noted, is: yes}}";
    rules(id, &format!("questions: [{question}]\nrules: [{rule}]\n"))
}

fn judged_with(plan: &str, sets: &[&str], base: &str) -> Result<Report, Refusal> {
    let find = |name: &str| (name == "base").then_some(base);
    let names: Vec<String> = (1..)
        .take(sets.len())
        .map(|at| format!("file-{at}"))
        .collect();
    let sets = sets.iter().zip(&names).map(|(text, name)| RulesText {
        name,
        text,
        bases: &find,
    });
    judge_together(plan, &sets.collect::<Vec<_>>())
}

fn judged(plan: &str, sets: &[&str]) -> Report {
    let report = judged_with(plan, sets, "");
    report.unwrap_or_else(|refusal| panic!("{}", refusal.show("plan", "rules")))
}

fn refused(plan: &str, sets: &[&str]) -> String {
    match judged_with(plan, sets, "") {
        Ok(_) => panic!("not refused"),
        Err(refusal) => refusal.show("plan", "rules").to_string(),
    }
}

fn ids(report: &Report) -> Vec<&str> {
    report.rules.iter().map(|rule| rule.id.as_str()).collect()
}

fn by(report: &Report, id: &str) -> Vec<String> {
    let rule = report.rules.iter().find(|rule| rule.id == id);
    rule.unwrap_or_else(|| panic!("{:?}", ids(report)))
        .rule_sets
        .clone()
}

#[test]
fn the_worst_of_the_verdicts_holds_either_way_round() {
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
fn a_rule_set_of_which_nothing_applies_leaves_it_undecided() {
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
fn what_is_not_answered_is_asked_for_with_the_name_of_its_rule_set() {
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
fn a_word_that_is_said_twice_for_one_rule_set_is_refused() {
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
fn a_base_that_two_rule_sets_share_is_told_once() {
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
fn a_rule_of_a_shared_base_that_one_of_them_changes_is_told_for_each() {
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
fn what_only_one_of_them_knows_is_kept_and_told() {
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
fn all_files_tell_their_faults_in_one_run() {
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
fn two_rule_sets_of_one_name_are_refused_and_one_text_counts_once() {
    let (one, other) = (depth("a", "2 m"), depth("a", "1 m"));
    assert!(refused(&plan(""), &[&one, &other]).contains("called `a`, too"));
    let once = judged(&plan(""), &[&one, &one]);
    let text = plan("");
    let alone = judge_texts(&text, &one, &|_| None);
    assert_eq!(to_json(&Ok(once)), to_json(&alone));
}

#[test]
fn of_two_limits_on_the_same_distance_the_stricter_governs() {
    let (state, town) = (
        rear("state", "pool.water", "at-least: 1.5 m"),
        rear("town", "pool.water", "at-least: 3 m"),
    );
    let report = judged(&plan(""), &[&state, &town]);
    let sentence = "The distance from the water's edge to the lot line: at least 3 m governs (town, s. 4); state asks for at least 1.5 m (s. 4).";
    let said: Vec<_> = report
        .governs
        .iter()
        .map(|one| one.sentence.as_str())
        .collect();
    assert_eq!(said, [sentence]);
    let turned = judged(&plan(""), &[&town, &state]);
    assert_eq!(turned.governs[0].governs, report.governs[0].governs);
    let more_than = rear("more", "pool.water", "more-than: 3 m");
    let edge = judged(&plan(""), &[&town, &more_than]);
    assert_eq!(
        edge.governs[0].governs.bound, "more than 3 m",
        "3 m keeps the one and not the other"
    );
}

#[test]
fn the_names_of_terms_do_not_matter_for_what_governs() {
    let plain = rear("plain", "pool.water", "at-least: 1.5 m");
    let termed = format!(
        "terms: {{edge: pool.water, back: {{kind: lot-line, where: {{fact: lot-line.faces, is: rear}}}}}}\n\
         rules: [{{id: r, title: R, clause: s. 2, each: back, require: {{distance: {{from: edge, to: lot-line}}, at-least: 2 m}}}}]\n"
    );
    let report = judged(&plan(""), &[&plain, &rules("termed", &termed)]);
    let bounds: Vec<_> = report
        .governs
        .iter()
        .map(|one| (&*one.governs.bound, &*one.over.bound))
        .collect();
    assert_eq!(bounds, [("at least 2 m", "at least 1.5 m")]);
}

#[test]
fn nothing_is_said_to_govern_where_something_else_is_measured() {
    let water = rear("water", "pool.water", "at-least: 1.5 m");
    let none = |other: &str| {
        let report = judged(&plan(""), &[&water, other]);
        assert_eq!(report.governs, [], "{other}");
    };
    none(&rear("structure", "pool.shell", "at-least: 3 m"));
    none(&rear("contrary", "pool.water", "at-most: 3 m"));
    none(&rear("alike", "pool.water", "at-least: 1.5 m"));
    none(
        &rear("farthest", "pool.water", "at-least: 3 m")
            .replace("to: lot-line}", "to: lot-line, farthest: yes}"),
    );
    none(&rear("front", "pool.water", "at-least: 3 m").replace("is: rear", "is: front"));
    none(
        &rear("advice", "pool.water", "at-least: 3 m")
            .replace("clause:", "strength: should, clause:"),
    );
    none(&rear("elsewhere", "pool.water", "at-least: 3 m").replace(
        "clause:",
        "when: {fact: pool.depth, more-than: 9 m}, clause:",
    ));
}

#[test]
fn a_matter_that_one_leaves_out_and_another_holds_is_held() {
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
    // One of the two is in hand, the other is not.
    let apart = judged(
        &plan("documents: {plan-a: in-hand}\n"),
        &[&perhaps, &surely],
    );
    let states: Vec<_> = apart
        .documents
        .iter()
        .map(|it| (it.state.as_str(), it.rule_sets.join(" ")))
        .collect();
    assert_eq!(
        states,
        [("in-hand", "a".to_owned()), ("not-yet", "b".to_owned())]
    );
}

#[test]
fn what_goes_with_a_rule_set_is_told_unless_it_is_named() {
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
