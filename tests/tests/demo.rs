//! The demo, against `docs/worked-findings.md`: every figure there was worked out by hand.

use std::collections::BTreeSet;

use outside_checks::read;
use rules_core::check::{Finding, Findings, Need, Outcome, Part, Subject, Verdict, check};
use rules_core::plan::Plan;
use rules_core::quantity::{Interval, NO_HIGH, parse};
use rules_core::ruleset::{RuleSet, Strength};

const RULES: &str = include_str!("../../rulesets/eldermere/rules.yaml");
const HOME: &str = include_str!("../../rulesets/eldermere/home.yaml");
const BY_HAND: &str = include_str!("../../docs/worked-findings.md");

/// The rule set and the plan; neither may have a fault, the rule set not even a warning.
fn demo() -> (RuleSet, Plan) {
    let rules = read::clean(RULES);
    let plan = read::plan(HOME, &rules);
    (rules, plan)
}

/// The rows of the table at the end of the page, cell by cell.
fn rows() -> Vec<Vec<&'static str>> {
    let (_, table) = BY_HAND
        .split_once("| rule | about |")
        .expect("the page ends with a table");
    let lines = table.lines().skip(2).filter(|line| line.starts_with('|'));
    lines
        .map(|line| line.trim_matches('|').split('|').map(str::trim).collect())
        .collect()
}

fn finding<'f, 'a>(rules: &RuleSet, found: &'f Findings<'a>, id: &str) -> &'f Finding {
    let mut of_id = found
        .rules
        .iter()
        .filter(|finding| rules.rule(finding.rule).unwrap().id == id);
    of_id.next().unwrap_or_else(|| panic!("no rule {id}"))
}

fn part<'f>(plan: &Plan, finding: &'f Finding, about: &str) -> &'f Part {
    let is_about = |part: &&Part| match part.subject {
        Subject::Thing { index, .. } => plan.things[index].id == about,
        Subject::Plan | Subject::Unseen(_) | Subject::NoneOf(_) => about == "—",
    };
    finding
        .parts
        .iter()
        .find(is_about)
        .unwrap_or_else(|| panic!("nothing about {about}"))
}

/// An amount of the table in its tiny unit: `1.26 m`, `no end`, `at most 2.4 m`.
fn amount(cell: &str) -> Interval {
    if cell == "no end" {
        return Interval::exact(NO_HIGH);
    }
    parse(cell, None, None)
        .unwrap_or_else(|fault| panic!("{cell}: {fault:?}"))
        .range
}

#[test]
fn every_figure_worked_by_hand_is_found() {
    let (rules, plan) = demo();
    let found = check(&plan, &rules).expect("not too much work");
    let rows = rows();
    assert!(rows.len() >= 20, "{} rows", rows.len());
    for row in &rows {
        let [id, about, low, high, limit, outcome] = row[..] else {
            panic!("{row:?}")
        };
        let finding = finding(&rules, &found, id);
        if finding.parts.is_empty() {
            assert_eq!(finding.outcome.word(), outcome, "{id}");
            continue;
        }
        let part = part(&plan, finding, about);
        assert_eq!(part.outcome.word(), outcome, "{id}: {about}");
        if low == "—" {
            continue;
        }
        let reading = part.readings.first().unwrap();
        let measured = Interval::new(amount(low).low, amount(high).high);
        let found = reading.along.or(reading.measured);
        assert_eq!(found, Some(measured), "{id}: {about}");
        assert_eq!(reading.limit, Some(amount(limit)), "{id}: {about}");
    }
}

#[test]
fn all_six_outcomes_are_shown() {
    let (rules, plan) = demo();
    let found = check(&plan, &rules).expect("not too much work");
    let binding = found
        .rules
        .iter()
        .filter(|finding| rules.rule(finding.rule).unwrap().strength == Strength::Must);
    let mut by_outcome: Vec<(Outcome, &str)> = binding
        .map(|finding| {
            (
                finding.outcome,
                rules.rule(finding.rule).unwrap().id.as_str(),
            )
        })
        .collect();
    by_outcome.retain(|(outcome, _)| *outcome != Outcome::Pass);
    by_outcome.sort();
    let expected = [
        (Outcome::Fail, "rear-line"),
        (Outcome::Unknown, "gate-latch"),
        (Outcome::Unknown, "well"),
        (Outcome::Marginal, "barrier-height"),
        (Outcome::Marginal, "septic-tank"),
        (Outcome::Refer, "foundation"),
        (Outcome::NotApplicable, "development-plan"),
        (Outcome::NotApplicable, "railway"),
    ];
    assert_eq!(by_outcome, expected);
    assert!(rules.rules.len() >= 25, "{} rules", rules.rules.len());
    assert_eq!(found.verdict, Verdict::DoesNotComply);
}

/// Advice is reported apart: that the pump fails it changes nothing once the pool is moved.
#[test]
fn advice_does_not_bind() {
    let (rules, plan) = demo();
    let found = check(&plan, &rules).expect("not too much work");
    let pump = finding(&rules, &found, "pump-place");
    assert_eq!(pump.outcome, Outcome::Fail);
    assert_eq!(rules.rule(pump.rule).unwrap().strength, Strength::Should);
    // Its edge ends at 30.2 m north, the rear line is at 32 m: 1.8 m, each known to 20 mm.
    let part = part(&plan, pump, "pump");
    assert_eq!(
        part.readings[0].measured,
        Some(Interval::new(1_760_000_000, 1_840_000_000))
    );
}

#[test]
fn the_side_line_passes_by_consent() {
    let (rules, plan) = demo();
    let found = check(&plan, &rules).expect("not too much work");
    let side = finding(&rules, &found, "side-line");
    let west = part(&plan, side, "west");
    let relief = west.relief.unwrap();
    assert_eq!(rules.rule(side.rule).unwrap().reliefs[relief].id, "consent");
    // What is to spare against the 1.5 m that consent makes enough, not what is short of 3 m.
    let to_spare = west.margin.map(|margin| margin.range);
    assert_eq!(to_spare, Some(Interval::new(660_000_000, 740_000_000)));
    let house = part(&plan, finding(&rules, &found, "foundation"), "house");
    assert!(house.relief.is_some());
}

#[test]
fn the_papers_to_gather() {
    let (rules, plan) = demo();
    let found = check(&plan, &rules).expect("not too much work");
    let needed = found
        .documents
        .iter()
        .filter(|document| document.need != Need::NotNeeded)
        .map(|document| rules.documents[document.document].id.as_str());
    let expected = [
        "site-plan",
        "description",
        "flood-map",
        "neighbour-notice",
        "boundary-certificate",
        "side-consent",
        // Not the consent at the rear: the pool is too near even with it.
        "engineer-letter",
        "utility-locate",
    ];
    assert_eq!(needed.collect::<Vec<_>>(), expected);
    let [route] = &found.decisions[..] else {
        panic!("one decision for the one pool")
    };
    assert_eq!(route.classes, ["application"]);
}

/// The same pool, less deep or standing less long: 600 mm and two months to the day need no permit.
#[test]
fn who_needs_no_permit() {
    let (rules, _) = demo();
    for (from, to, class) in [
        ("depth: 1.5 m", "depth: 600 mm", "no-application"),
        ("depth: 1.5 m", "depth: 601 mm", "application"),
        ("30 years", "2 months", "no-application"),
        ("30 years", "3 months", "application"),
    ] {
        let text = HOME.replace(from, to);
        assert_ne!(text, HOME);
        let plan = read::plan(&text, &rules);
        let found = check(&plan, &rules).expect("not too much work");
        assert_eq!(found.decisions[0].classes, [class], "{to}");
        let first = finding(&rules, &found, "permit-first").outcome;
        let expected = match class {
            "application" => Outcome::Pass,
            _ => Outcome::NotApplicable,
        };
        assert_eq!(first, expected, "{to}");
    }
}

#[test]
fn every_rule_says_what_to_do_about_a_failure() {
    let (rules, _) = demo();
    let mut ids = BTreeSet::new();
    for rule in &rules.rules {
        let remedy = rule.remedy.as_deref().unwrap_or_default();
        assert!(remedy.ends_with('.'), "{}: {remedy}", rule.id);
        assert!(
            ids.insert(rule.clause.as_str()) || rule.clause.contains("schedule"),
            "{} has a clause that another has",
            rule.id
        );
    }
}
