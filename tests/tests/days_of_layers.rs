//! From which day on a file changes the rules of another: before, and elsewhere, those stay. What must come out was worked
//! out by hand: the State asks 3 m from every lot line, and the pool is 4 m from the east line unless a case says otherwise.

use outside_checks::read;
use rules_core::check::{Outcome, governed};
use rules_core::read_rules;

use crate::common::Plot;

const HEAD: &str =
    "title: A\nedition: \"1\"\nauthority: Hazelbrook building office\nnotice: Invented\n";

/// The State's act: 3 m, and no deeper than 1 m.
fn state(more: &str) -> String {
    format!(
        "ruleset: state\n{HEAD}{more}terms: {{dist: 3 m}}\nrules:\n\
         \x20 - {{id: line, title: Line, clause: s. 1, each: lot-line, require: {{distance: {{from: pool.water, to: lot-line}}, at-least: dist}}}}\n\
         \x20 - {{id: depth, title: Depth, clause: s. 2, require: {{fact: pool.depth, at-most: 1 m}}}}\n"
    )
}

fn town(more: &str) -> String {
    format!("ruleset: town\n{HEAD}builds-on: [state]\n{more}")
}

const FIVE: &str =
    "each: lot-line, require: {distance: {from: pool.water, to: lot-line}, at-least: 5 m}";

/// The outcome of each rule in the files, sorted by the rules' names.
fn found(state: &str, town: &str, applied: &str, metres: &str) -> Vec<(String, Outcome)> {
    let rules = read::layered(town, &|name| (name == "state").then_some(state));
    let plot = Plot::top(&format!("dates: {{applied: {applied}}}\n")).and_pool("depth", "1.5 m");
    let plan = read::plan(&plot.and_east(metres).text(), &rules);
    let all = governed(&plan, &rules).expect("not too much work");
    let outcomes = all.findings.rules.iter().filter_map(|it| {
        let rule = rules.rule(it.rule)?;
        (!rule.built_in).then(|| (rule.id.clone(), it.outcome))
    });
    let mut outcomes: Vec<_> = outcomes.collect();
    outcomes.sort();
    outcomes
}

fn outcome(all: &[(String, Outcome)], rule: &str) -> Outcome {
    let found = all.iter().find(|(id, _)| id == rule);
    found.unwrap_or_else(|| panic!("no rule {rule}: {all:?}")).1
}

const BEFORE: &str = "2026-03-02";
const AFTER: &str = "2026-07-01";

#[test]
fn before_its_day_a_rule_replaces_nothing() {
    let days = ", in-force: {from: 2026-06-01, by: applied}";
    let town = town(&format!(
        "rules: [{{id: line-here, title: Line, clause: b. 1, replaces: line{days}, {FIVE}}}]\n"
    ));
    let state = state("");
    let at = |applied, metres| {
        let all = found(&state, &town, applied, metres);
        [outcome(&all, "line"), outcome(&all, "line-here")]
    };
    assert_eq!(at(BEFORE, "2"), [Outcome::Fail, Outcome::NotApplicable]);
    assert_eq!(at(BEFORE, "4"), [Outcome::Pass, Outcome::NotApplicable]);
    assert_eq!(at(AFTER, "4"), [Outcome::NotApplicable, Outcome::Fail]);
    assert_eq!(at(AFTER, "5"), [Outcome::NotApplicable, Outcome::Pass]);
    assert_eq!(
        at("unknown", "4"),
        [Outcome::Pass, Outcome::Unknown],
        "4 m keeps the State's 3 m, which bind or do not"
    );
    // The same by the day of the whole file.
    let town = format!(
        "ruleset: town\n{HEAD}in-force: {{from: 2026-06-01, by: applied}}\nbuilds-on: [state]\nrules: [{{id: line-here, title: Line, clause: b. 1, replaces: line, {FIVE}}}]\n"
    );
    let all = found(&state, &town, BEFORE, "2");
    assert_eq!(outcome(&all, "line"), Outcome::Fail);
    let all = found(&state, &town, AFTER, "4");
    assert_eq!(outcome(&all, "line-here"), Outcome::Fail);
}

#[test]
fn the_days_of_a_file_are_those_of_its_own_rules() {
    let own = "in-force: {from: 2026-06-01, by: applied}\nrules: [{id: gate, title: Gate, clause: b. 1, require: {fact: pool.depth, at-most: 1 m}}]\n";
    let town = town(own);
    let all = found(&state(""), &town, BEFORE, "2");
    assert_eq!(
        outcome(&all, "line"),
        Outcome::Fail,
        "the State's act binds every pool"
    );
    assert_eq!(outcome(&all, "gate"), Outcome::NotApplicable);
    assert_eq!(
        outcome(&found(&state(""), &town, AFTER, "2"), "gate"),
        Outcome::Fail
    );
    // And those of a base are those of the base's rules.
    let state = state("in-force: {from: 2026-06-01, by: applied}\n");
    let town = town_without_days();
    assert_eq!(
        outcome(&found(&state, &town, BEFORE, "2"), "line"),
        Outcome::NotApplicable
    );
    assert_eq!(
        outcome(&found(&state, &town, AFTER, "2"), "line"),
        Outcome::Fail
    );
    assert_eq!(
        outcome(&found(&state, &town, BEFORE, "2"), "gate"),
        Outcome::Fail
    );
}

fn town_without_days() -> String {
    town(
        "rules: [{id: gate, title: Gate, clause: b. 1, require: {fact: pool.depth, at-most: 1 m}}]\n",
    )
}

#[test]
fn before_its_day_a_file_withdraws_and_adds_nothing() {
    let days = "in-force: {from: 2026-06-01, by: applied}\n";
    let edits = [
        (
            "rules: [{withdraws: line, clause: b. 1}]\n",
            "line",
            Outcome::NotApplicable,
        ),
        (
            "rules: [{adds-to: depth, clause: b. 1, relief: {id: lot, require: {fact: pool.depth, at-most: 2 m}}}]\n",
            "depth",
            Outcome::Pass,
        ),
        (
            "terms: {dist: {replaces: dist, with: 1 m}}\n",
            "line",
            Outcome::Pass,
        ),
    ];
    for (edit, rule, after) in edits {
        let town = town(&format!("{days}{edit}"));
        let state = state("");
        assert_eq!(
            outcome(&found(&state, &town, BEFORE, "2"), rule),
            Outcome::Fail,
            "{edit}"
        );
        assert_eq!(
            outcome(&found(&state, &town, AFTER, "2"), rule),
            after,
            "{edit}"
        );
    }
}

#[test]
fn where_its_exemption_holds_a_rule_replaces_nothing() {
    let unless = ", unless: {fact: pool.depth, at-most: 1.2 m}";
    let town = town(&format!(
        "rules: [{{id: line-here, title: Line, clause: b. 1, replaces: line{unless}, {FIVE}}}]\n"
    ));
    let all = found(&state(""), &town, AFTER, "4");
    assert_eq!(
        outcome(&all, "line-here"),
        Outcome::Fail,
        "1.5 m deep: 5 m are asked"
    );
    let town = town.replace("1.2 m", "1.6 m");
    let all = found(&state(""), &town, AFTER, "2");
    assert_eq!(outcome(&all, "line-here"), Outcome::NotApplicable);
    assert_eq!(outcome(&all, "line"), Outcome::Fail, "the State's 3 m stay");
}

/// The sentences of a file that is refused, or of which something is asked.
fn told(state: &str, town: &str) -> String {
    let base = |name: &str| name.starts_with("state").then_some(state);
    match read_rules(town, &base) {
        Err(faults) => faults.show("", "town"),
        Ok(read) => read::warnings(&read),
    }
}

#[test]
fn what_would_lose_a_day_or_a_minimum_is_refused() {
    let later = state("earlier: state-old\nin-force: {from: 2026-06-01, by: applied}\n");
    let said = told(&later, &town_without_days());
    assert!(
        said.contains("`state` has an earlier edition, `state-old`"),
        "{said}"
    );
    let said = told(
        &state("").replace("title: Line", "title: Line, changes: minimum"),
        &town("terms: {dist: {replaces: dist, with: 1 m}}\n"),
    );
    assert!(
        said.contains("`dist` is in a rule that the base says is a minimum"),
        "{said}"
    );
    let fewer = format!(
        "rules: [{{id: line-here, title: Line, clause: b. 1, replaces: line, where: {{fact: lot-line.faces, is: side}}, {FIVE}}}]\n"
    );
    let said = told(&state(""), &town(&fewer));
    assert!(said.contains("(`where` differs)"), "{said}");
}
