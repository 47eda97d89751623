//! Cases made at the edges of limits.

use super::*;
use crate::cases::cases_tests::{BASE, RULES};
use crate::vocabulary::Vocabulary;

#[test]
fn each_limit_is_tried_at_its_edges() {
    let rules = crate::ruleset::read(RULES, &|_| None, Vocabulary::standard());
    let rules = rules.expect("good rules").rule_set;
    let cases = crate::text::read(&format!("{BASE}    all-others: pass\n")).expect("good text");
    let edges = edges(&rules, &cases).expect("good cases");
    let said: Vec<String> = edges
        .iter()
        .flat_map(|limit| {
            limit
                .edges
                .iter()
                .map(|edge| format!("{} {} {}", limit.rule, edge.amount, edge.outcome.word()))
        })
        .collect();
    let expected = [
        "depth 1.99 m pass",
        "depth 2 m pass",
        "depth 2.01 m fail",
        "gate 1.51 m pass",
        "gate 1.5 m pass",
        "gate 1.49 m fail",
    ];
    assert_eq!(said, expected);
    assert_eq!(edges[0].case.as_deref(), Some("one"));
}

const LINES: &str = "\
ruleset: lines
title: Lines
edition: \"1\"
authority: nobody
rules:
  - {id: line, title: Line, clause: S 1, each: lot-line, require: {distance: {from: pool.water, to: lot-line}, at-least: 4 ft}}
  - {id: gates, title: Gates, clause: S 2, require: {count: gate, at-most: 3}}
  - id: by-size
    title: By size
    clause: S 3
    each: gate
    require:
      fact: gate.width
      at-most: {table: {by: gate.use, rows: [{is: foot, then: 1 m}, {is: vehicle, then: 3 m}]}}
";

/// Every edge in words, with the rule.
fn said(edges: &[EdgeCase]) -> Vec<String> {
    let each = |limit: &EdgeCase| -> Vec<String> {
        let said = |edge: &Edge| format!("{} {} {}", limit.rule, edge.amount, edge.outcome.word());
        limit.edges.iter().map(said).collect()
    };
    edges.iter().flat_map(each).collect()
}

fn lines() -> (RuleSet, Node) {
    let rules = crate::ruleset::read(LINES, &|_| None, Vocabulary::standard());
    let rules = rules.expect("good rules").rule_set;
    let base = BASE.replace("latch-height: 1.6 m", "use: foot, width: 0.9 m");
    let base = base.replace("latch-height: 1.2 m", "use: vehicle, width: 2.5 m");
    let base = base.replace(
        "unit: m",
        "unit: m\n  sources: [{id: s, by: survey, accuracy: 0 mm, shift: 0 mm}]",
    );
    let base = base
        .replace("lot: {", "lot: {source: s, ")
        .replace("pool: {", "pool: {source: s, ");
    let cases = crate::text::read(&format!("{base}    all-others: pass\n")).expect("good text");
    (rules, cases)
}

#[test]
fn distances_counts_and_rows_have_edges_too() {
    let (rules, cases) = lines();
    let edges = edges(&rules, &cases).expect("good cases");
    let expected = [
        // A foot is 304.8 mm exactly: the pool is moved to the nanometre.
        "line 4 ft 1/8 in pass",
        "line 4 ft pass",
        "line 3 ft 11-7/8 in fail",
        "gates 2 pass",
        "gates 3 pass",
        "gates 4 fail",
        "by-size 0.99 m pass",
        "by-size 1 m pass",
        "by-size 1.01 m fail",
        "by-size 2.99 m pass",
        "by-size 3 m pass",
        "by-size 3.01 m fail",
    ];
    assert_eq!(said(&edges), expected);
}

#[test]
fn the_cases_that_are_written_out_come_out_as_they_say() {
    let (rules, cases) = lines();
    let edges = edges(&rules, &cases).expect("good cases");
    let made = kept(&edges, &cases);
    let mut file = cases.clone();
    crate::edit::tree::set(&mut file, "cases", made);
    let text = crate::text::to_yaml_text(&file);
    let again = crate::text::read(&text).expect("it is YAML");
    let tried = crate::cases::try_node(&rules, &again).expect("good cases");
    assert_eq!(tried.len(), said(&edges).len());
    let wrong: Vec<_> = tried.iter().flat_map(|case| &case.wrong).collect();
    assert!(wrong.is_empty(), "{wrong:?}\n{text}");
}
