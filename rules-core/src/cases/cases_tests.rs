use super::*;
use crate::vocabulary::Vocabulary;

pub(crate) const RULES: &str = "\
ruleset: small
title: Small
edition: \"1\"
authority: nobody
rules:
  - {id: depth, title: Depth, clause: S 1, require: {fact: pool.depth, at-most: 2 m}}
  - {id: gate, title: Gate, clause: S 2, each: gate, require: {fact: gate.latch-height, at-least: 1.5 m}}
decide:
  - {id: size, table: {by: pool.depth, rows: [{at-most: 1 m, then: small}, {otherwise: large}]}}
";
pub(crate) const BASE: &str = "\
base:
  plan: p
  title: P
  unit: m
  lot: {corners: {a: [0, 0], b: [30, 0], c: [30, 30], d: [0, 30]}}
  pool: {id: pool, water: [[5, 5], [9, 5], [9, 9]], depth: 1.5 m}
  things: [{kind: gate, id: gate, latch-height: 1.6 m}, {kind: gate, id: low, latch-height: 1.2 m}]
  inventory: {gate: all-shown}
cases:
  - case: one
    title: One
";

fn read(text: &str) -> Node {
    crate::text::read(text).expect("good text")
}

fn tried(rest: &str) -> Tried {
    let rules = crate::ruleset::read(RULES, &|_| None, Vocabulary::standard());
    let rules = rules.expect("good rules").rule_set;
    try_node(&rules, &read(&format!("{BASE}{rest}")))
        .expect("a good file")
        .remove(0)
}

#[test]
fn outcomes_that_differ_from_those_expected_are_reported() {
    let good = "    expect: {depth: pass, gate: fail}\n    decide: {size: large}\n    verdict: does-not-comply\n";
    assert_eq!(tried(good).wrong, [""; 0]);
    assert_eq!(tried(good).outcomes.len(), 2);
    let bad = "    expect: {depth: fail, hedge: pass}\n    decide: {size: small}\n    verdict: not-decided\n";
    assert_eq!(tried(bad).wrong.len(), 4);
    assert_eq!(
        tried("    all-others: pass\n").wrong,
        ["Rule `gate` comes to fail, not pass."]
    );
    // The built-in rule can be expected by name, but does not count among the others.
    let inside = |outcome| tried(&format!("    expect: {{pool-inside-the-lot: {outcome}}}\n"));
    assert_eq!(inside("marginal").wrong, [""; 0]);
    assert_eq!(
        inside("fail").wrong,
        ["Rule `pool-inside-the-lot` comes to marginal, not fail."]
    );
    assert_eq!(
        tried("    expect: {gate: unsaid}\n    all-others: pass\n").wrong,
        [""; 0]
    );
}

#[test]
fn a_decision_that_stays_open_names_its_classes() {
    let open = |decide: &str| {
        let change = "    change: {pool: {depth: 0.5 m .. 1.5 m}}\n";
        tried(&format!("{change}    decide: {{size: {decide}}}\n")).wrong
    };
    assert_eq!(open("[small, large]"), [""; 0]);
    assert_eq!(open("small"), ["`size` decides large or small, not small."]);
    let decided = tried("    decide: {size: [small, large]}\n").wrong;
    assert_eq!(decided, ["`size` decides large, not large or small."]);
}

#[test]
fn a_change_is_laid_over_the_base() {
    let by_id = "    change: {things: [{id: low, latch-height: 1.5 m}], pool: {depth: 2.1 m}}\n    expect: {gate: pass, depth: fail}\n";
    assert_eq!(tried(by_id).wrong, [""; 0]);
    let without = "    without: [low]\n    expect: {gate: pass}\n";
    assert_eq!(tried(without).wrong, [""; 0]);
    let taken_out = "    change: {pool: {depth: }}\n    expect: {depth: unknown}\n";
    assert_eq!(tried(taken_out).wrong, [""; 0]);
}

#[test]
fn a_plan_that_cannot_be_read_is_reported() {
    let wrong =
        tried("    change: {pool: {depth: 1.5}, unit: kg}\n    expect: {depth: pass}\n").wrong;
    assert!(wrong.iter().any(|wrong| wrong.contains("kg")), "{wrong:?}");
}

#[test]
fn a_file_of_cases_is_checked_too() {
    let rules = crate::ruleset::read(RULES, &|_| None, Vocabulary::standard());
    let rules = rules.expect("good rules").rule_set;
    let codes = |text: &str| {
        let faults = try_node(&rules, &read(text)).expect_err("a fault").list;
        faults
            .into_iter()
            .map(|fault| fault.code.word())
            .collect::<Vec<_>>()
    };
    assert_eq!(codes("cases: [{case: a, title: A}]"), ["no-plan"]);
    assert_eq!(
        codes(&format!("{BASE}    expects: {{}}\n")),
        ["unknown-key"]
    );
}
