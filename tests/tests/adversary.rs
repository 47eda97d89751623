//! What somebody found who tried to get a false verdict: each with the answer worked out by hand, and each against a plan
//! that says a little less, which never may come to more.

mod areas;
mod barriers;
mod levels;
mod lines;
mod places;
mod sources;
mod walks;
mod words;

use crate::common::measured::judge_all;
use rules_core::check::Outcome;
use rules_core::quantity::Interval;

/// A lot of 30 by 40 m, surveyed exactly, with a pool of 8 by 4 m; a map that may be off by 0.5 m and shifted by 1 m, and a
/// tape of which nobody knows how far it is shifted.
fn plan(lot: &str, pool: &str, things: &str, inventory: &str) -> String {
    format!(
        "plan: hazel-bank-7
title: Hazel Bank 7
unit: m
sources:
  - {{id: survey, by: survey, accuracy: 0 mm, shift: 0 mm}}
  - {{id: map, by: map, accuracy: 0.5 m, shift: 1 m}}
  - {{id: tape, by: tape, accuracy: 50 mm}}
{lot}pool: {{id: pool, source: survey, water: {{rectangle: {{at: [10, 20], length: 8 m, width: 4 m}}}}{pool}}}
things:
{things}inventory: {{{inventory}}}
"
    )
}

/// The lot, and what else is said of it.
fn lot(more: &str) -> String {
    format!(
        "lot:
  source: survey
{more}  corners: {{a: [0, 0], b: [30, 0], c: [30, 40], d: [0, 40]}}
  sides:
    - {{id: street, from: a, to: b, faces: front, beyond: road}}
    - {{id: east, from: b, to: c, faces: side, beyond: neighbour-lot}}
    - {{id: rear, from: c, to: d, faces: rear, beyond: neighbour-lot}}
    - {{id: west, from: d, to: a, faces: side, beyond: neighbour-lot}}
"
    )
}

/// The outcome of one requirement, and what was measured, in metres (or square metres, or decibels).
fn judge(plan: &str, require: &str) -> (Outcome, (f64, f64)) {
    each(plan, "", require)
}

/// The same for each of something.
fn each(plan: &str, each: &str, require: &str) -> (Outcome, (f64, f64)) {
    let each = match each {
        "" => String::new(),
        kind => format!("    each: {kind}\n"),
    };
    let rule = format!("{each}    require: {require}\n");
    let (outcome, measured) = judge_all(plan, "", &[&rule]).swap_remove(0);
    (outcome, measured.map_or((f64::NAN, f64::NAN), metres))
}

/// Whether a requirement is left open.
fn is_open(plan: &str, require: &str) -> bool {
    matches!(outcome(plan, require), Outcome::Unknown | Outcome::Marginal)
}

fn outcome(plan: &str, require: &str) -> Outcome {
    judge(plan, require).0
}

fn metres(range: Interval) -> (f64, f64) {
    let end = |end: Option<i128>, otherwise| end.map_or(otherwise, |end| end as f64 / 1e9);
    (
        end(range.least(), f64::NEG_INFINITY),
        end(range.greatest(), f64::INFINITY),
    )
}

fn near(found: (f64, f64), low: f64, high: f64) {
    let close = |one: f64, two: f64| one == two || (one - two).abs() < 0.002;
    assert!(
        close(found.0, low) && close(found.1, high),
        "{found:?}, expected {low} to {high}"
    );
}
