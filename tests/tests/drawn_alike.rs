//! The same pool drawn in several ways: no rule may say of one that it passes and of another that it fails, and what is
//! measured of one has a place in common with what is measured of the other.

use outside_checks::read;
use outside_checks::soundness::random::Random;
use rules_core::check::{Outcome, Reading, check};
use rules_core::quantity::{Dimension, Interval};
use rules_core::ruleset::RuleSet;

const HOME: &str = include_str!("../../rulesets/eldermere/home.yaml");
const DRAWN: &str = "water: {rectangle: {at: [2.2, 20.7], length: 4 m, width: 10 m}}";

/// What a pool's outline can be measured by, each against a limit that it is near.
const MEASURES: [&str; 15] = [
    "distance: {from: pool.water, to: lot-line.line}, at-least: 1.5 m",
    "distance: {from: pool.coping, to: building.wall}, at-least: 2 m",
    "distance: {from: pool.deck, to: septic-part.region}, at-least: 3 m",
    "distance: {from: pool.water, to: barrier-stretch.line, farthest: from}, at-most: 20 m",
    "distance: {from: pool.water, to: pool.water, farthest: yes}, at-most: 11 m",
    "distance: {from: pool.water, to: overhead-line.conductor, measured: in-space}, at-least: 7 m",
    "distance: {from: pool.water, to: building.wall, measured: walking}, at-least: 4 m",
    "distance: {from: pool.excavation, to: road.centreline}, at-least: 12 m",
    "distance: {from: pool.water, to: barrier-stretch.line}, at-most: 4 m",
    "area: {of: pool.water}, at-most: 35 m2",
    "area: {of: [{all: pool.deck}, building.roof], share-of: lot.boundary}, at-most: 30 %",
    "area: {of: pool.deck, in: {around: building.wall, by: 3 m}}, at-most: 5 m2",
    "length: {of: pool.water}, at-most: 26 m",
    "length: {of: pool.coping}, at-least: 20 m",
    "count: {kind: barrier-stretch, in: {around: pool.water, by: 3 m}}, at-most: 1",
];

fn measures() -> RuleSet {
    let rule = |(at, measure): (usize, &&str)| {
        format!("  - {{id: m{at}, title: M, clause: s. {at}, require: {{{measure}}}}}\n")
    };
    let rules: String = MEASURES.iter().enumerate().map(rule).collect();
    read::rules(&format!(
        "ruleset: measures\ntitle: Measures\nedition: \"1\"\nauthority: nobody\nrules:\n{rules}"
    ))
}

/// A place in metres, from millimetres.
fn at(x: i64, y: i64) -> String {
    format!(
        "[{}.{:03}, {}.{:03}]",
        x / 1000,
        x % 1000,
        y / 1000,
        y % 1000
    )
}

fn ring(corners: &[(i64, i64)]) -> String {
    let corners: Vec<String> = corners.iter().map(|(x, y)| at(*x, *y)).collect();
    format!("[{}]", corners.join(", "))
}

/// A rectangle of 4 × 10 m in six ways.
fn rectangles(x: i64, y: i64) -> Vec<String> {
    let (wide, long) = (4000, 10_000);
    let part = |low: i64, high: i64| {
        ring(&[
            (x, y + low),
            (x + wide, y + low),
            (x + wide, y + high),
            (x, y + high),
        ])
    };
    let whole = part(0, long);
    vec![
        format!(
            "{{rectangle: {{at: {}, length: 4 m, width: 10 m}}}}",
            at(x, y)
        ),
        format!(
            "{{rectangle: {{at: {}, length: 10 m, width: 4 m, turned: 90 deg}}}}",
            at(x + wide, y)
        ),
        whole.clone(),
        format!("{{curved: {whole}}}"),
        format!("{{parts: [{}, {}]}}", part(0, 5000), part(5000, long)),
        format!("{{parts: [{}, {}]}}", part(0, 6000), part(4000, long)),
    ]
}

/// A round pool of 2.5 m: as a circle, and as arcs, whose ends are whole nanometres.
fn circles(x: i64, y: i64) -> Vec<String> {
    let r = 2500;
    let arc = "{out: 732.233047 mm}";
    vec![
        format!("{{circle: {{at: {}, radius: 2.5 m}}}}", at(x, y)),
        format!(
            "{{oval: {{from: {}, to: {}, radius: 2.5 m}}}}",
            at(x, y),
            at(x, y)
        ),
        format!(
            "{{curved: [{}, {arc}, {}, {arc}, {}, {arc}, {}, {arc}]}}",
            at(x + r, y),
            at(x, y + r),
            at(x - r, y),
            at(x, y - r)
        ),
    ]
}

/// A pool of 5 m between round ends of 2 m.
fn ovals(x: i64, y: i64) -> Vec<String> {
    let (far, r) = (x + 5000, 2000);
    vec![
        format!(
            "{{oval: {{from: {}, to: {}, radius: 2 m}}}}",
            at(x, y),
            at(far, y)
        ),
        format!(
            "{{rounded-rectangle: {{at: {}, length: 9 m, width: 4 m, corner-radius: 2 m}}}}",
            at(x - r, y - r)
        ),
        format!(
            "{{curved: [{}, {}, {{out: 2 m}}, {}, {}, {{out: 2 m}}]}}",
            at(x, y - r),
            at(far, y - r),
            at(far, y + r),
            at(x, y + r)
        ),
        format!(
            "{{band: {{along: [{}, {}], width: 4 m}}}}",
            at(x, y),
            at(far, y)
        ),
    ]
}

/// By how much two ways of drawing may differ: rounding, and 0.1 mm where arcs stand as corners.
fn slack(reading: &Reading) -> i128 {
    let largest = reading.drawn.map_or(0, |drawn| drawn.high.abs());
    match reading.dimension {
        Dimension::Length => 210_000,
        _ => largest / 5_000,
    }
}

fn apart(one: Interval, other: Interval, slack: i128) -> bool {
    one.low.saturating_sub(slack) > other.high || other.low.saturating_sub(slack) > one.high
}

#[derive(Default)]
struct Seen {
    compared: usize,
    decided: usize,
    wrong: Vec<String>,
}

fn compare(home: &str, drawn: &[String], rules: &RuleSet, seen: &mut Seen) {
    let plans = drawn.iter().map(|water| {
        let text = home.replacen(DRAWN, &format!("water: {water}"), 1);
        read::plan(&text, rules)
    });
    let plans: Vec<_> = plans.collect();
    let found: Vec<_> = plans
        .iter()
        .map(|plan| check(plan, rules).expect("not too much work"))
        .collect();
    let Some((first, others)) = found.split_first() else {
        return;
    };
    for (other, water) in others.iter().zip(&drawn[1..]) {
        for (one, another) in first.rules.iter().zip(&other.rules) {
            let id = &rules.rule(one.rule).unwrap().id;
            let outcomes = [one.outcome, another.outcome];
            seen.compared += 1;
            seen.decided += usize::from(matches!(one.outcome, Outcome::Pass | Outcome::Fail));
            if outcomes.contains(&Outcome::Pass) && outcomes.contains(&Outcome::Fail) {
                seen.wrong.push(format!("{id}: {outcomes:?}: {water}"));
            }
            for (part, same) in one.parts.iter().zip(&another.parts) {
                for (a, b) in part.readings.iter().zip(&same.readings) {
                    let pairs = [(a.measured, b.measured), (a.drawn, b.drawn)];
                    for (a_range, b_range) in pairs.into_iter().filter_map(|(a, b)| a.zip(b)) {
                        if apart(a_range, b_range, slack(a)) {
                            seen.wrong
                                .push(format!("{id}: {a_range:?} {b_range:?}: {water}"));
                        }
                    }
                }
            }
        }
    }
}

#[test]
fn a_pool_is_judged_alike_however_it_is_drawn() {
    const ANSWERS: &str = "answers:\n  plan-sets-distance: no\n  rain-from-deck: own-ground\n";
    assert!(HOME.contains(DRAWN) && HOME.contains(ANSWERS));
    let eldermere = read::rules(include_str!("../../rulesets/eldermere/rules.yaml"));
    let without = HOME.replace(ANSWERS, "");
    let mut random = Random::new(20_261_128);
    let mut seen = Seen::default();
    for (home, rules) in [(HOME, &eldermere), (without.as_str(), &measures())] {
        let round = home.replace(
            "from: water, corners: square",
            "from: water, corners: round",
        );
        for _ in 0..40 {
            let (x, y) = (random.between(0, 18_000), random.between(4000, 28_000));
            compare(home, &rectangles(x, y), rules, &mut seen);
            compare(&round, &circles(x + 2500, y), rules, &mut seen);
            compare(&round, &ovals(x + 2000, y), rules, &mut seen);
        }
    }
    let Seen {
        compared,
        decided,
        wrong,
    } = seen;
    assert!(
        wrong.is_empty(),
        "{} of {compared}:\n{}",
        wrong.len(),
        wrong
            .iter()
            .take(20)
            .cloned()
            .collect::<Vec<_>>()
            .join("\n")
    );
    assert!(
        compared > 10_000 && decided * 2 > compared,
        "{compared} {decided}"
    );
}
