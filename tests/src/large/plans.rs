//! Large plans.

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

/// A plan with one pool on a lot with four corners.
pub fn small_plan() -> String {
    format!("{HEAD}{LOT}{POOL}")
}

/// A plan with `count` small pools.
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

/// A plan of a round lot with `count` corners and nothing stated about its sides.
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

/// A plan with a fence of many points that hardly differ, in stretches of a thousand.
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

/// A plan with many trees and wells.
pub fn trees_and_wells(trees: usize, wells: usize) -> String {
    let mut plan = format!("{HEAD}{LOT}{POOL}things:\n");
    let place = |at: usize| (1.0 + (at % 50) as f64 * 0.5, 1.0 + (at / 50) as f64 * 0.5);
    for at in 0..trees {
        let (x, y) = place(at);
        let _ = writeln!(
            plan,
            "  - {{kind: tree, id: t{at}, source: s, stem: {{circle: {{at: [{x}, {y}], radius: 100 mm}}}}}}"
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

/// The plan with every thing of a kind that allows many repeated `times` times, each a metre from the last.
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

/// A plan with `count` small buildings, in rows, between the pool and a well.
pub fn buildings(count: usize) -> String {
    let mut plan = format!(
        "{HEAD}{LOT}{POOL}things:\n  - {{kind: well, id: w, source: s, casing: [15, 2]}}\n"
    );
    let across = (1..).find(|side| side * side >= count).unwrap_or(1);
    let (wide, deep) = (28.0 / across as f64, 14.0 / across as f64);
    for at in 0..count {
        let (x, y) = (
            1.0 + wide * (at % across) as f64,
            4.0 + deep * (at / across) as f64,
        );
        let (right, top) = (x + wide * 0.6, y + deep * 0.6);
        let _ = writeln!(
            plan,
            "  - {{kind: building, id: b{at}, source: s, wall: [[{x:.4}, {y:.4}], [{right:.4}, {y:.4}], [{right:.4}, {top:.4}], [{x:.4}, {top:.4}]]}}"
        );
    }
    plan
}

/// A plan with `count` combs of a thousand corners, every other one crossing all those before it.
pub fn combs(count: usize) -> String {
    let mut plan = format!("{HEAD}{LOT}{POOL}things:\n");
    for comb in 0..count {
        let tooth = |at: usize| {
            let (along, up) = (1.0 + at as f64 * 0.05, if at % 4 < 2 { 28.0 } else { 1.0 });
            let along = along - (at % 2) as f64 * 0.02 + comb as f64 * 1e-4;
            if comb % 2 == 0 {
                format!("[{along:.4}, {up}]")
            } else {
                format!("[{up}, {along:.4}]")
            }
        };
        let mut ring: Vec<String> = (0..520).map(tooth).collect();
        ring.extend(if comb % 2 == 0 {
            ["[29, 29.5]".to_owned(), "[0.5, 29.5]".to_owned()]
        } else {
            ["[29.5, 29]".to_owned(), "[29.5, 0.5]".to_owned()]
        });
        let _ = writeln!(
            plan,
            "  - {{kind: building, id: b{comb}, source: s, wall: [{}]}}",
            ring.join(", ")
        );
    }
    plan
}

/// A plan with `count` spots of known level, and levels of the pool.
pub fn spots(count: usize) -> String {
    let mut plan = format!("{HEAD}{LOT}{POOL}things:\n");
    for at in 0..count {
        let turn = at as f64 * 2.399_963;
        let out = 0.4 * libm::sqrt(at as f64);
        let (x, y) = (14.0 + out * libm::cos(turn), 22.0 + out * libm::sin(turn));
        let level = 10.0 + 0.1 * libm::sin(x);
        let _ = writeln!(
            plan,
            "  - {{kind: ground-spot, id: g{at}, source: s, place: [{x:.4}, {y:.4}], level: {level:.3} m ± 10 mm}}"
        );
    }
    plan
}
