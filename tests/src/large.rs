//! Large plans and rule sets, made when they are wanted: for how work grows with what is written.

use std::f64::consts::TAU;
use std::fmt::Write as _;

use rules_core::plan::{Form, Plan};
use rules_core::ruleset::RuleSet;
use rules_core::vocabulary::Number;

const HEAD: &str = "\
plan: large
title: Large
unit: m
sources:
  - {id: s, by: survey, accuracy: 0 mm, shift: 0 mm}
";

const LOT: &str = "\
lot:
  source: s
  level-ground: yes
  corners: {a: [0, 0], b: [30, 0], c: [30, 40], d: [0, 40]}
  sides:
    - {id: street, from: a, to: b, faces: front, beyond: road}
    - {id: east, from: b, to: c, faces: side, beyond: neighbour-lot}
    - {id: rear, from: c, to: d, faces: rear, beyond: neighbour-lot}
    - {id: west, from: d, to: a, faces: side, beyond: neighbour-lot}
";

const POOL: &str = "\
pool:
  id: pool
  source: s
  depth: 1.4 m
  water: {rectangle: {at: [10, 20], length: 8 m, width: 4 m}}
";

const RULES: &str = "\
ruleset: large
title: Large
edition: \"1\"
authority: the office
notice: Invented for tests.
";

/// A plan with one pool on a lot with four corners.
pub fn small_plan() -> String {
    format!("{HEAD}{LOT}{POOL}")
}

/// A plan with so many small pools.
pub fn pools(count: usize) -> String {
    let mut plan = format!("{HEAD}{LOT}pool:\n");
    let across = (1..).find(|side| side * side >= count).unwrap_or(1);
    for at in 0..count {
        let (x, y) = (
            1.0 + 28.0 * (at % across) as f64 / across as f64,
            1.0 + 38.0 * (at / across) as f64 / across as f64,
        );
        let size = (14.0 / across as f64).min(0.5);
        let _ = writeln!(
            plan,
            "  - {{id: p{at}, source: s, water: [[{x:.4}, {y:.4}], [{:.4}, {y:.4}], [{x:.4}, {:.4}]]}}",
            x + size,
            y + size
        );
    }
    plan
}

/// A plan of a round lot with so many corners, of the sides of which nothing is said.
pub fn corners(count: usize) -> String {
    let corner = |at: usize| {
        let turn = TAU * at as f64 / count as f64;
        let (x, y) = (20.0 + 15.0 * libm::cos(turn), 20.0 + 15.0 * libm::sin(turn));
        format!("c{at}: [{x:.6}, {y:.6}]")
    };
    let corners: Vec<String> = (0..count).map(corner).collect();
    let lot = format!(
        "lot:\n  source: s\n  level-ground: yes\n  corners: {{{}}}\n",
        corners.join(", ")
    );
    format!("{HEAD}{lot}{POOL}")
}

/// A plan with a fence of so many points that hardly differ, in stretches of a thousand.
pub fn close_fence(points: usize) -> String {
    let mut plan = format!("{HEAD}{LOT}{POOL}things:\n");
    let all: Vec<usize> = (0..points).collect();
    for (stretch, part) in all.chunks(1000).enumerate() {
        let point = |at: &usize| {
            format!(
                "[{:.6}, {:.6}]",
                5.0 + *at as f64 * 1e-6,
                10.0 + (at % 2) as f64 * 1e-6
            )
        };
        let line: Vec<String> = part.iter().map(point).collect();
        let _ = writeln!(
            plan,
            "  - {{kind: barrier-stretch, id: f{stretch}, source: s, height-outside: 1.3 m, line: [{}]}}",
            line.join(", ")
        );
    }
    plan
}

/// A plan with so many trees, and so many wells.
pub fn trees_and_wells(trees: usize, wells: usize) -> String {
    let mut plan = format!("{HEAD}{LOT}{POOL}things:\n");
    let place = |at: usize| (1.0 + (at % 50) as f64 * 0.5, 1.0 + (at / 50) as f64 * 0.5);
    for at in 0..trees {
        let (x, y) = place(at);
        let _ = writeln!(
            plan,
            "  - {{kind: tree, id: t{at}, source: s, stem: {{circle: {{centre: [{x}, {y}], diameter: 200 mm}}}}}}"
        );
    }
    for at in 0..wells {
        let (x, y) = place(at);
        let _ = writeln!(
            plan,
            "  - {{kind: well, id: w{at}, source: s, casing: [{}, {}]}}",
            x + 0.2,
            y + 0.2
        );
    }
    plan += "inventory: {tree: all-shown, well: all-shown}\n";
    plan
}

/// Rules with these in the place of terms, and of rules.
pub fn rules(terms: &str, rules: &str) -> String {
    let terms = if terms.is_empty() {
        String::new()
    } else {
        format!("terms:\n{terms}")
    };
    format!("{RULES}{terms}rules:\n{rules}")
}

/// Terms that each add up the one before fifty times over, so deep; and a rule by the last.
pub fn laughs(deep: usize) -> String {
    rules(
        &laughing("t", deep),
        &by_sum("a", &format!("t{}", deep - 1)),
    )
}

/// So many towers of terms as in [`laughs`], five deep, each with a rule.
pub fn many_laughs(towers: usize) -> String {
    let names: Vec<String> = (0..towers).map(|at| format!("t{at}-")).collect();
    let terms: String = names.iter().map(|name| laughing(name, 5)).collect();
    let by: String = names
        .iter()
        .enumerate()
        .map(|(at, name)| by_sum(&format!("r{at}"), &format!("{name}4")))
        .collect();
    rules(&terms, &by)
}

fn laughing(name: &str, deep: usize) -> String {
    let sum = |of: &str| format!("{{sum: [{}]}}", vec![of; 50].join(", "));
    let mut terms = format!("  {name}0: {}\n", sum("pool.depth"));
    for at in 1..deep {
        let _ = writeln!(terms, "  {name}{at}: {}", sum(&format!("{name}{}", at - 1)));
    }
    terms
}

fn by_sum(id: &str, term: &str) -> String {
    format!("  - {{id: {id}, title: {id}, clause: C, require: {{value: {term}, at-least: 1 m}}}}\n")
}

/// Terms that each name the one before twice, so many.
pub fn doubling(terms: usize) -> String {
    let mut all = "  t0: {fact: pool.depth, at-least: 1 m}\n".to_owned();
    for at in 1..terms {
        let before = at - 1;
        let _ = writeln!(
            all,
            "  t{at}: {{all-of: [{{meets: t{before}}}, {{meets: t{before}}}]}}"
        );
    }
    let last = terms - 1;
    rules(
        &all,
        &format!("  - {{id: a, title: A, clause: C, require: {{meets: t{last}}}}}\n"),
    )
}

/// A rule with so many `each` inside each other.
pub fn nested_each(deep: usize, kind: &str) -> String {
    let mut require = "{fact: pool.depth, at-least: 1 m}".to_owned();
    for _ in 0..deep {
        require = format!("{{each: {kind}, require: {require}}}");
    }
    rules(
        "",
        &format!("  - {{id: a, title: A, clause: C, require: {require}}}\n"),
    )
}

/// A rule that speaks of the nearest well to each tree.
pub fn nearest() -> String {
    rules(
        "",
        "  - {id: a, title: A, clause: C, each: tree, require: {distance: {from: tree.stem, to: well.casing}, at-least: 100 mm}}\n",
    )
}

/// A rule that speaks of each tree and each well.
pub fn each_pair() -> String {
    rules(
        "",
        "  - {id: a, title: A, clause: C, each: tree, require: {each: well, require: {distance: {from: tree.stem, to: well.casing}, at-least: 100 mm}}}\n",
    )
}

/// The plan with every thing of which there may be many so many times, each a metre from the last.
pub fn more_things(home: &Plan, rules: &RuleSet, times: usize) -> Plan {
    let mut plan = home.clone();
    let many = |kind| rules.vocabulary.kind(kind).number == Number::Many;
    let own = |name: &str| rules.vocabulary.kind_named(name);
    let copied: Vec<_> = home
        .things
        .iter()
        .filter(|thing| {
            many(thing.kind) && ![own("pool"), own("lot-line")].contains(&Some(thing.kind))
        })
        .collect();
    for copy in 1..times {
        let by = i64::try_from(copy).unwrap_or(0) * 1_000_000_000;
        for thing in &copied {
            let mut thing = (*thing).clone();
            thing.id = format!("{}-{copy}", thing.id);
            for figure in thing.outlines.values_mut() {
                figure.forms.iter_mut().for_each(|form| shift(form, by));
            }
            plan.things.push(thing);
        }
    }
    plan
}

fn shift(form: &mut Form, by: i64) {
    match form {
        Form::Point(point) => point.x += by,
        Form::Path(points) | Form::Ring(points) => {
            points.iter_mut().for_each(|point| point.x += by)
        }
    }
}
