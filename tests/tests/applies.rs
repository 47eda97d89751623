//! Where a rule does not apply: `pass` and `not-applicable` are told apart.

mod common;

use common::{Outcome, Plot, outcome};

/// A rule for each gate that speaks of the pool in its `when`.
const GATES: &str = "rules:
  - id: r
    title: A rule
    clause: \"1\"
    when: {fact: pool.fill-depth, more-than: 1 m}
    each: gate
    require: {fact: gate.self-closing, is: yes}
";

/// A gate that does not close by itself, and a pool that can be filled so deep.
fn with_gate(depth: &str, closes: &str) -> Plot {
    Plot::thing(&format!("{{kind: gate, id: g, self-closing: {closes}}}"))
        .and_pool("fill-depth", depth)
}

#[test]
fn a_condition_on_the_pool_decides_whether_a_rule_for_gates_applies() {
    assert_eq!(outcome(GATES, &with_gate("2 m", "no")), Outcome::Fail);
    assert_eq!(outcome(GATES, &with_gate("2 m", "yes")), Outcome::Pass);
    assert_eq!(
        outcome(GATES, &with_gate("1 m", "no")),
        Outcome::NotApplicable
    );
    assert_eq!(
        outcome(GATES, &with_gate("1 m", "yes")),
        Outcome::NotApplicable
    );
    assert_eq!(
        outcome(GATES, &Plot::pool("fill-depth", "2 m")),
        Outcome::NotApplicable
    );
}

#[test]
fn where_the_condition_is_not_known_the_rule_is_open() {
    let unknown = Plot::thing("{kind: gate, id: g, self-closing: no}");
    assert_eq!(outcome(GATES, &unknown), Outcome::Unknown);
    let closes = Plot::thing("{kind: gate, id: g, self-closing: yes}");
    assert_eq!(outcome(GATES, &closes), Outcome::Pass);
}
