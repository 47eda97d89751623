//! What a homeowner reads: as drawn first, at which place along a thing, for which pool, and each paper for its thing.

use super::*;
use crate::check::{Outcome, check};
use crate::vocabulary::Vocabulary;

/// A plan of 30 m by 40 m from one source, and what is put below it.
fn plan(source: &str, more: &str) -> String {
    format!(
        "plan: p
title: P
unit: m
sources: [{{id: drawing, by: design{source}}}]
lot:
  source: drawing
  corners: {{a: [0, 0], b: [30, 0], c: [30, 40], d: [0, 40]}}
  sides:
    - {{id: street, from: a, to: b, faces: front, beyond: road}}
    - {{id: east, from: b, to: c, faces: side, beyond: neighbour-lot}}
    - {{id: rear, from: c, to: d, faces: rear, beyond: neighbour-lot}}
    - {{id: west, from: d, to: a, faces: side, beyond: neighbour-lot}}
{more}"
    )
}

const HOUSE: &str = "things:
  - {kind: building, id: house, source: drawing, wall: {rectangle: {at: [5, 9], length: 12 m, width: 10 m}}}
inventory: {building: all-shown}
";

fn pool_at(x: i64, y: i64) -> String {
    format!(
        "pool: {{id: pool, source: drawing, water: {{rectangle: {{at: [{x}, {y}], length: 8 m, width: 4 m}}}}}}\n{HOUSE}"
    )
}

const TO_THE_HOUSE: &str = "rules:
  - id: house
    title: Pool to the house
    clause: s. 1
    each: building
    require: {distance: {from: pool.water, to: building.wall}, at-least: 2 m}
    remedy: Move the pool away from the house.
";

#[track_caller]
fn told(plan_text: &str, body: &str) -> Report {
    let rules = format!("ruleset: r\ntitle: R\nedition: '1'\nauthority: the office\n{body}");
    let rules = match crate::ruleset::read(&rules, &|_| None, Vocabulary::standard()) {
        Ok(checked) => checked.rule_set,
        Err(files) => panic!("{}", files[0].faults.show("rules", &rules)),
    };
    let plan = match crate::plan::read(plan_text, &rules.vocabulary) {
        Ok(plan) => plan,
        Err(faults) => panic!("{}", faults.show("plan", plan_text)),
    };
    report(
        &check(&plan, &rules).unwrap(),
        &plan,
        &rules,
        &Texts::default(),
    )
}

fn sentences(report: &Report) -> Vec<&str> {
    let parts = report.rules[0].parts.iter();
    parts.map(|part| part.sentence.as_str()).collect()
}

/// Semantics, "Marginal advice": both accuracies together must come down to what lies between the distance and its limit.
#[test]
fn what_fails_as_drawn_is_told_whatever_nobody_stated() {
    let report = told(&plan("", &pool_at(10, 18)), TO_THE_HOUSE);
    assert_eq!(report.rules[0].outcome, Outcome::Marginal);
    assert_eq!(report.rules[0].as_drawn, Some(Outcome::Fail));
    assert_eq!(
        sentences(&report),
        [
            "For the building `house`, it fails as drawn: the distance from the water's edge to the outside wall of the \
             building is 0 m as drawn (they touch or overlap); it must be at least 2 m: 2 m short as drawn. It is not sure \
             until somebody says how far off the drawing may be: less than ± 2 m settles it."
        ]
    );
    let head = report.as_drawn.as_ref().unwrap();
    assert_eq!(
        head.sentence,
        "As drawn, 1 rule fails, which is not sure: Pool to the house."
    );
    assert_eq!(
        (&head.fail, &head.not_sure),
        (&vec!["house".to_owned()], &vec!["house".to_owned()])
    );
    let text = text::render(&report, text::Style::default());
    let place = |words: &str| {
        text.find(words)
            .unwrap_or_else(|| panic!("{words} in {text}"))
    };
    assert!(place("What fails as drawn, but not for sure") < place("What depends on how exact"));
    assert!(report.next[0].starts_with(
        "Move the pool away from the house (Pool to the house), if it is as it is drawn."
    ));
}

#[test]
fn what_passes_as_drawn_says_how_good_the_drawing_must_be() {
    let report = told(&plan("", &pool_at(10, 24)), TO_THE_HOUSE);
    assert_eq!(report.rules[0].as_drawn, Some(Outcome::Pass));
    assert_eq!(
        sentences(&report),
        [
            "For the building `house`, it passes as drawn: the distance from the water's edge to the outside wall of the \
             building is 5 m as drawn; it must be at least 2 m: 3 m to spare as drawn. It is sure as soon as distances on \
             the drawing are good to ± 3 m."
        ]
    );
    assert_eq!(report.as_drawn, None);
}

/// With just so good a drawing it is decided, with a hair less it is not.
#[test]
fn as_good_as_that_is_good_enough() {
    let outcome = |at: i64, accuracy: &str, shift: &str| {
        let source = format!(", accuracy: {accuracy}, shift: {shift}");
        told(&plan(&source, &pool_at(10, at)), TO_THE_HOUSE).rules[0].outcome
    };
    // 5 m from the house: both ends together may be off by 3 m.
    assert_eq!(outcome(24, "1.5 m", "0 m"), Outcome::Pass);
    assert_eq!(outcome(24, "1.501 m", "0 m"), Outcome::Marginal);
    // 1 m from the house: by less than 1 m.
    assert_eq!(outcome(20, "0.499 m", "0 m"), Outcome::Fail);
    assert_eq!(outcome(20, "0.5 m", "0 m"), Outcome::Marginal);
}

#[test]
fn the_pool_on_the_lot_is_told_in_words_of_its_own() {
    let built_in = |source: &str, x: i64| {
        let report = told(&plan(source, &pool_at(x, 30)), TO_THE_HOUSE);
        let rule = report.rules.last().unwrap().clone();
        (rule.outcome, rule.sentence, rule.parts[0].brief.clone())
    };
    let exact = ", accuracy: 0 mm, shift: 0 mm";
    let told =
        |outcome, sentence: &str, brief: &str| (outcome, sentence.to_owned(), brief.to_owned());
    assert_eq!(
        built_in(exact, 10),
        told(Outcome::Pass, "The pool lies on the lot.", "met")
    );
    assert_eq!(
        built_in(exact, -1),
        told(
            Outcome::Fail,
            "4 m² of the pool lies past the lot line.",
            "4 m² past the lot line"
        )
    );
    assert_eq!(
        built_in("", 10),
        told(
            Outcome::Marginal,
            "It passes as drawn: the pool lies on the lot. It is not sure until somebody says how far off the drawing may \
             be.",
            "not known"
        )
    );
    assert_eq!(
        built_in("", -1),
        told(
            Outcome::Marginal,
            "It fails as drawn: 4 m² of the pool lies past the lot line. It is not sure until somebody says how far off \
             the drawing may be.",
            "not known"
        )
    );
}

#[test]
fn where_there_must_be_none_it_is_said_so() {
    let foothold = |at: &str, looked: &str| {
        let things = format!(
            "pool: {{id: pool, source: drawing}}
things:
  - {{kind: barrier-stretch, id: fence, source: drawing, line: [[0, 25], [30, 25]]}}
{at}inventory: {{barrier-stretch: all-shown{looked}}}
"
        );
        let report = told(
            &plan(", accuracy: 0 mm, shift: 0 mm", &things),
            "rules:
  - id: foot
    title: Nothing to climb on
    clause: s. 6
    each: barrier-stretch
    require: {count: {kind: foothold, in: {around: barrier-stretch.line, by: 900 mm}}, is: 0}
",
        );
        (
            sentences(&report)[0].to_owned(),
            report.rules[0].parts[0].brief.clone(),
        )
    };
    let there = "For the stretch of the barrier `fence`, ";
    let near = "within 900 mm of the middle line of the stretch of the barrier";
    assert_eq!(
        foothold("", ", foothold: none"),
        (
            format!("{there}there are no footholds {near}."),
            "met".to_owned()
        )
    );
    let bench = "  - {kind: foothold, id: bench, source: drawing, region: {rectangle: {at: [3, 25.5], length: 1 m, width: 1 m}}}\n";
    assert_eq!(
        foothold(bench, ", foothold: all-shown"),
        (
            format!("{there}the number of footholds {near} is 1; there must be none."),
            "1, none allowed".to_owned()
        )
    );
}

const FENCE: &str = "pool: {id: pool, source: drawing}
things:
  - {kind: barrier-stretch, id: fence, source: drawing, line: [[0, 25], [30, 25]], height-outside: {from: 1.22 m, to: 1.3 m}}
inventory: {barrier-stretch: all-shown}
";

#[test]
fn a_value_that_was_judged_at_a_place_says_where() {
    let height = |rule: &str| {
        let rule = format!(
            "rules:\n  - {{id: h, title: H, clause: s. 1, each: barrier-stretch, {rule}}}\n"
        );
        let report = told(&plan(", accuracy: 0 mm, shift: 0 mm", FENCE), &rule);
        let part = report.rules[0].parts[0].clone();
        (part.sentence, part.brief)
    };
    let (sentence, brief) =
        height("require: {fact: barrier-stretch.height-outside, at-least: 1.25 m}");
    assert_eq!(
        sentence,
        "For the stretch of the barrier `fence`, the height on the outside is 1.22 m where it is lowest (from 1.22 m to \
         1.3 m along it); it must be at least 1.25 m: 0.03 m short."
    );
    assert_eq!(
        brief,
        "1.22 m where it is lowest, at least 1.25 m asked, 0.03 m short"
    );
    let (sentence, _) =
        height("require: {fact: barrier-stretch.height-outside, at-most: 1.2 m, holds: anywhere}");
    assert!(
        sentence.ends_with("it must be at most 1.2 m somewhere along it: 0.02 m too much."),
        "{sentence}"
    );
}

#[test]
fn a_class_that_differs_along_a_thing_is_told_for_each_place() {
    let decide = "rules: []
decide:
  - id: route
    title: Permit
    clause: s. 9
    table: {by: pool.height-above-ground, rows: [{more-than: 600 mm, then: permit}, {otherwise: none}]}
";
    let pool = "pool: {id: pool, source: drawing, height-above-ground: {from: 20 cm, to: 80 cm}, water: {circle: {at: [9, 9], radius: 2 m}}}\n";
    let report = told(&plan("", pool), decide);
    let told: Vec<&str> = report
        .decisions
        .iter()
        .map(|one| one.sentence.as_str())
        .collect();
    assert_eq!(
        told,
        [
            "The pool, where the height of the pool above the ground is lowest (20 cm): none.",
            "The pool, where the height of the pool above the ground is highest (80 cm): permit.",
        ]
    );
    assert_eq!(report.decisions[0].at[0].end, "lowest");
    assert_eq!(report.decisions[0].at[0].amount.as_deref(), Some("20 cm"));
}

const TWO_POOLS: &str = "pool:
  - {id: pool, source: drawing, depth: 1.5 m, water: {rectangle: {at: [2, 28], length: 8 m, width: 4 m}}}
  - {id: spa, source: drawing, depth: 2.4 m, water: {rectangle: {at: [22, 28], length: 2 m, width: 2 m}}}
";

#[test]
fn of_several_pools_it_is_said_which() {
    let rules = "rules:
  - id: side
    title: Side
    clause: s. 2
    each: {kind: lot-line, where: {fact: lot-line.faces, is: side}}
    require: {distance: {from: pool.water, to: lot-line}, at-least: 3 m}
";
    let report = told(&plan(", accuracy: 0 mm, shift: 0 mm", TWO_POOLS), rules);
    let said: Vec<&str> = report.rules[0]
        .parts
        .iter()
        .map(|part| part.subject.said.as_str())
        .collect();
    assert_eq!(
        said,
        [
            "the side lot line `east` and the pool `pool`",
            "the side lot line `west` and the pool `pool`",
            "the side lot line `east` and the pool `spa`",
            "the side lot line `west` and the pool `spa`",
        ]
    );
    let deciding = &report.rules[0].parts[report.rules[0].deciding.unwrap()];
    assert_eq!(deciding.pool.as_deref(), Some("pool"));
    assert!(
        deciding
            .sentence
            .starts_with("For the side lot line `west` and the pool `pool`, the distance")
    );
    assert_eq!(
        deciding.brief,
        "2 m, at least 3 m asked, 1 m short, for the pool `pool`"
    );
    let built_in = report.rules.last().unwrap();
    assert_eq!(
        built_in.parts[1].sentence,
        "The pool `spa` lies on the lot."
    );
}

#[test]
fn each_paper_is_told_for_its_thing() {
    let rules = "documents:
  - {id: consent, title: Written consent, from: the neighbour, form: one page, each: {kind: lot-line, where: {fact: lot-line.beyond, is: neighbour-lot}}}
rules:
  - id: side
    title: Side
    clause: s. 2
    each: {kind: lot-line, where: {fact: lot-line.faces, is: side}}
    require: {distance: {from: pool.water, to: lot-line}, at-least: 25 m}
    relief: [{id: consent, require: {have: consent}}]
";
    let more = format!(
        "{}documents: {{consent: {{west: in-hand}}}}\n",
        pool_at(11, 30)
    );
    let report = told(&plan(", accuracy: 0 mm, shift: 0 mm", &more), rules);
    let papers: Vec<(Option<&str>, &str)> = (report.documents.iter())
        .map(|paper| (paper.subject.id.as_deref(), paper.sentence.as_str()))
        .filter(|(_, sentence)| !sentence.contains("not needed"))
        .collect();
    assert_eq!(
        papers,
        [
            (
                Some("east"),
                "Written consent for the side lot line `east` (one page), from the neighbour: needed, still to get."
            ),
            (
                Some("west"),
                "Written consent for the side lot line `west` (one page), from the neighbour: needed, in hand."
            ),
        ]
    );
    let asked: Vec<(&str, Option<&str>)> = (report.questions.iter())
        .map(|one| {
            (
                one.missing.question.as_str(),
                one.missing.subject.as_deref(),
            )
        })
        .collect();
    assert_eq!(
        asked,
        [(
            "Can you get this document from the neighbour for the side lot line `east`: Written consent?",
            Some("east")
        )]
    );
}

/// Between 46 in and 50 in against 48 in: whether the rule applies is open though the height is stated.
#[test]
fn what_is_stated_but_not_exactly_enough_is_asked_again() {
    let rules = "rules:
  - id: fence
    title: Fence
    clause: a
    when: {fact: pool.height-above-ground, less-than: 48 in}
    require: {fact: pool.depth, at-most: 1 m}
";
    let asked = |height: &str, depth: &str| {
        let pool = format!(
            "pool: {{id: pool, source: drawing, height-above-ground: {height}, depth: {depth}, water: {{circle: {{at: [9, 9], radius: 2 m}}}}}}\n"
        );
        let report = told(&plan(", accuracy: 0 mm, shift: 0 mm", &pool), rules);
        let asked = report
            .questions
            .iter()
            .map(|one| (one.missing.kind.clone(), one.missing.question.clone()));
        (report.rules[0].outcome, asked.collect::<Vec<_>>())
    };
    let again = (
        "inexact".to_owned(),
        "The pool: how high does the pool stand above the finished ground? Between 46 in and 50 in is not exact enough."
            .to_owned(),
    );
    assert_eq!(
        asked("46 in .. 50 in", "2 m"),
        (Outcome::Unknown, vec![again])
    );
    let depth = ("inexact".to_owned(), "The pool: how deep is the water at the deepest place? Between 0.9 m and 1.1 m is not exact enough.".to_owned());
    assert_eq!(
        asked("46 in", "0.9 m .. 1.1 m"),
        (Outcome::Unknown, vec![depth])
    );
    assert_eq!(asked("46 in .. 50 in", "0.5 m").0, Outcome::Pass);
}

/// 3 m from the line; 2.24 m from the house, so that 4 m are asked as drawn, and 1 m if it is no more than 2 m.
#[test]
fn no_room_is_told_where_it_could_be_either_side() {
    let rule = "rules:
  - id: line
    title: Pool to the line
    clause: s. 1
    require:
      distance: {from: pool.water, to: lot-line}
      at-least: {table: {by: {distance: {from: pool.water, to: building.wall}}, rows: [{at-most: 2 m, then: 1 m}, {otherwise: 4 m}]}}
";
    let report = told(&plan("", &pool_at(19, 20)), rule);
    assert_eq!(report.rules[0].as_drawn, Some(Outcome::Fail));
    assert_eq!(
        sentences(&report),
        [
            "For the pool, it fails as drawn: the distance from the water's edge to the nearest lot line is 3 m as drawn; it must be \
             at least what the table gives for the distance from the water's edge to the outside wall of the nearest building, here \
             1 m to 4 m. It is not sure until somebody says how far off the drawing may be."
        ]
    );
}
