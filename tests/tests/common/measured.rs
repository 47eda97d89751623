//! One rule on one plan: its outcome, and what was measured.

use outside_checks::read;
use rules_core::check::{Outcome, check};
use rules_core::quantity::Interval;

/// A lot of 20 by 40 m, the road to the south, a house across its middle, a pool behind it.
pub const LOT: &str = "
plan: mill-lane-3
title: Mill Lane 3
unit: m
sources:
  - {id: survey, by: survey, accuracy: 0 mm, shift: 0 mm}
lot:
  source: survey
  corners: {a: [0, 0], b: [20, 0], c: [20, 40], d: [0, 40]}
  sides:
    - {id: front, from: a, to: b, faces: front, beyond: road}
    - {id: right, from: b, to: c, faces: side, beyond: neighbour-lot}
    - {id: rear, from: c, to: d, faces: rear, beyond: neighbour-lot}
    - {id: left, from: d, to: a, faces: side, beyond: neighbour-lot}
";

/// The outcome of one rule on a plan, and what was measured for it.
pub fn judge(plan: &str, terms: &str, rule: &str) -> (Outcome, Option<Interval>) {
    let mut found = judge_all(plan, terms, &[rule]);
    found.swap_remove(0)
}

/// The outcomes of some rules on a plan, and what was measured for each.
pub fn judge_all(plan: &str, terms: &str, rules: &[&str]) -> Vec<(Outcome, Option<Interval>)> {
    let mut text = format!(
        "ruleset: eldermere\ntitle: Eldermere\nedition: \"1\"\nauthority: Eldermere building office\n{terms}rules:\n"
    );
    for (number, rule) in rules.iter().enumerate() {
        text += &format!("  - id: rule-{number}\n    title: One\n    clause: s. 1\n{rule}");
    }
    let rules = read::rules(&text);
    let plan = read::plan(plan, &rules);
    let found = check(&plan, &rules).expect("not too much work");
    let of = |finding: &rules_core::check::Finding| {
        let reading = finding.parts.first().and_then(|part| part.readings.first());
        let measured = reading.and_then(|reading| reading.measured);
        (finding.outcome, measured)
    };
    // The rules that are in every rule set stand behind them.
    found.rules.iter().take(rules.rules.len()).map(of).collect()
}
