//! What another program does with the library: reads a bundled rule set and one of its own, makes a plan, judges it in two
//! threads, and says what came of it. Each step that goes wrong ends it with an error.

use std::collections::BTreeMap;
use std::error::Error;
use std::thread;

use rules_core::{
    NoOthers, Outcome, Report, Rules, Verdict, judge, judge_by_all, to_json, to_yaml,
};
use serde_json::json;

/// Rules of an invented town, on top of the town's own base.
const BASE: &str = "
ruleset: hazelbrook
title: Hazelbrook, private pools
edition: '2026'
authority: Hazelbrook building office
rules:
  - id: line
    title: Pool to lot line
    clause: Bylaw 12, s. 4
    each: lot-line
    require: {distance: {from: pool.water, to: lot-line}, at-least: 3 m}
";
const OWN: &str = "
ruleset: mill-lane
title: Mill Lane
edition: '2026'
authority: Hazelbrook building office
builds-on: [hazelbrook]
rules:
  - {id: depth, title: Depth, clause: Plan 3, require: {fact: pool.depth, at-most: 2 m}}
";

fn plan(depth: &str) -> Result<String, Box<dyn Error>> {
    let plan = json!({
        "plan": "mill-lane-4",
        "title": "Mill Lane 4",
        "unit": "m",
        "sources": [{"id": "survey", "by": "survey", "accuracy": "20 mm", "shift": "0 mm"}],
        "lot": {
            "source": "survey",
            "corners": {"a": [0, 0], "b": [30, 0], "c": [30, 40], "d": [0, 40]},
            "sides": [
                {"id": "street", "from": "a", "to": "b", "faces": "front", "beyond": "road"},
                {"id": "east", "from": "b", "to": "c", "faces": "side", "beyond": "neighbour-lot"},
                {"id": "rear", "from": "c", "to": "d", "faces": "rear", "beyond": "neighbour-lot"},
                {"id": "west", "from": "d", "to": "a", "faces": "side", "beyond": "neighbour-lot"},
            ],
        },
        "pool": {
            "id": "pool",
            "source": "survey",
            "depth": depth,
            "water": {"rectangle": {"at": [10, 30], "length": "8 m", "width": "4 m"}},
        },
    });
    Ok(to_yaml(&plan)?)
}

fn outcomes(report: &Report) -> BTreeMap<&str, Outcome> {
    let rules = report.rules.iter();
    rules.map(|rule| (rule.id.as_str(), rule.outcome)).collect()
}

fn wanted(what: &str, holds: bool) -> Result<(), Box<dyn Error>> {
    match holds {
        true => Ok(()),
        false => Err(what.into()),
    }
}

fn main() -> Result<(), Box<dyn Error>> {
    let bases = BTreeMap::from([("hazelbrook".to_owned(), BASE.to_owned())]);
    let rules = Rules::read(OWN, &bases)?;
    let other = rules.clone();
    let deep = thread::spawn(move || other.judge(&plan("3 m").unwrap_or_default()));
    let good = rules.judge(&plan("1.5 m")?)?;
    let deep = deep.join().map_err(|_| "the other thread fell over")??;
    wanted(
        "a good pool passes",
        outcomes(&good)["depth"] == Outcome::Pass,
    )?;
    wanted(
        "one too deep fails",
        outcomes(&deep)["depth"] == Outcome::Fail,
    )?;
    wanted(
        "the base counts too",
        outcomes(&deep)["line"] == Outcome::Pass,
    )?;
    wanted(
        "the verdict says so",
        deep.verdict.word == Verdict::DoesNotComply,
    )?;

    let refused = judge("plan: [", OWN, &NoOthers).err();
    let refused = refused.ok_or("two bad texts are refused")?;
    let rows = refused.rules.iter().flat_map(|file| file.rows());
    wanted(
        "each fault has its place",
        rows.count() > 0 && refused.plan.is_some(),
    )?;

    let bundled = siting_rulesets::rules("barrier-model").ok_or("a bundled rule set")?;
    let barrier = Rules::read(bundled, &siting_rulesets::rules)?;
    let both = judge_by_all(&plan("1.5 m")?, &[rules, barrier])?;
    wanted(
        "both rule sets are in one report",
        both.rule_sets.len() == 2,
    )?;
    let json: serde_json::Value = serde_json::from_str(&to_json(&Ok(both.clone())))?;
    wanted("JSON for programs", json["report"]["rules"].is_array())?;

    println!("{}", both.verdict.sentence);
    Ok(())
}
