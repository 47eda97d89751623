//! For tests: the report that a rule file's text gives for a small plan.

use super::{Report, Texts, report};
use crate::check::check;
use crate::vocabulary::Vocabulary;

/// A lot of 30 by 40 m, known exactly, with a pool of 8 by 4 m; its depth follows.
const PLAN: &str = "
plan: p
title: P
unit: m
sources: [{id: drawing, by: survey, accuracy: 0 mm, shift: 0 mm}]
lot:
  source: drawing
  corners: {a: [0, 0], b: [30, 0], c: [30, 40], d: [0, 40]}
  sides:
    - {id: street, from: a, to: b, faces: front, beyond: road}
    - {id: east, from: b, to: c, faces: side, beyond: neighbour-lot}
    - {id: rear, from: c, to: d, faces: rear, beyond: neighbour-lot}
    - {id: west, from: d, to: a, faces: side, beyond: neighbour-lot}
pool: {id: pool, source: drawing, water: {rectangle: {at: [10, 20], length: 8 m, width: 4 m}}, depth: ";

/// The report on a pool of that depth under these rules, in a language where one is asked for.
pub(super) fn tried(rules: &str, language: Option<&str>, depth: &str) -> Report {
    let read = crate::ruleset::read_in(language, rules, &|_| None, Vocabulary::standard());
    let rules = match read {
        Ok(checked) => checked.rule_set,
        Err(files) => panic!("{}", files[0].faults.show("rules", rules)),
    };
    let plan = crate::plan::read(&format!("{PLAN}{depth}}}\n"), &rules.vocabulary).unwrap();
    let findings = check(&plan, &rules).unwrap();
    report(&findings, &plan, &rules, &Texts::default())
}
