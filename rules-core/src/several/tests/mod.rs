//! One plan judged by several rule sets. Each case was worked out by hand.

mod governs;
mod report;
mod steps;
mod words;

use super::{RulesText, judge_together_in};
use crate::Refusal;
use crate::report::Report;
use crate::vocabulary::Matter;

/// A lot of 30 m by 40 m with the water 2.5 m from the rear line and all matters answered.
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

/// A rule set with limits on the depth.
fn depth(id: &str, at_most: &str) -> String {
    let rule = format!(
        "{{id: depth, title: Depth, clause: s. 1, require: {{fact: pool.depth, at-most: {at_most}}}}}"
    );
    rules(id, &format!("rules: [{rule}]\n"))
}

const REAR: &str = "each: {kind: lot-line, where: {fact: lot-line.faces, is: rear}}";

/// A rule set with one rule on the distance to the rear line.
fn rear(id: &str, from: &str, limit: &str) -> String {
    let distance = format!("{{distance: {{from: {from}, to: lot-line}}, {limit}}}");
    let rule = format!("{{id: rear-{id}, title: Rear, clause: s. 4, {REAR}, require: {distance}}}");
    rules(id, &format!("rules: [{rule}]\n"))
}

/// A rule set that asks a question and has a rule about the answer.
fn asking(id: &str, question: &str) -> String {
    let question = format!("{{id: noted, ask: \"{question}\", answer: yes-no}}");
    let rule = "{id: noted, title: Noted, clause: s. 9, require: {fact: answers.noted, is: yes}}";
    rules(id, &format!("questions: [{question}]\nrules: [{rule}]\n"))
}

/// Calls `ask` with rule sets in the files `file-1`, `file-2` and so on, which may build on a file `base`.
fn of_files<T>(sets: &[&str], base: &str, ask: impl FnOnce(&[RulesText<'_>]) -> T) -> T {
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
    ask(&sets.collect::<Vec<_>>())
}

fn judged_with(plan: &str, sets: &[&str], base: &str) -> Result<Report, Refusal> {
    of_files(sets, base, |sets| judge_together_in(None, plan, sets))
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
