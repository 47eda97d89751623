//! Distances, lengths and areas of drawn things.

use rules_core::plan::Point;

use super::property::Measure;
use super::scenes::{item, place, pool_at, rectangle, site};
use super::site::{Fact, M, MM, Shape, Site};
use super::truth::{self, P, all, apart, area, distance, p, pieces, to_segment};
use super::walks::*;
use super::wires::*;
use crate::soundness::random::Random;

/// Lengths are good to a few nanometres.
const NEAR: f64 = 8.0;

/// The measures of this file.
pub const MEASURES: &[Measure] = &[
    Measure {
        name: "distance, level",
        rule: "    require: {distance: {from: pool.water, to: building.wall}, at-least: LIMIT}",
        limits: ["1 m", "3 m", "10 ft"],
        draw: beside_a_house,
        truth: |site| {
            Some(distance(
                site.pool().shape("water"),
                site.first("building").shape("wall"),
            ))
        },
        fine: NEAR,
        exact: NEAR,
        reach: 20.0,
    },
    Measure {
        name: "distance, places farthest apart",
        rule: "    require: {distance: {from: pool.water, to: building.wall, farthest: yes}, at-most: LIMIT}",
        limits: ["14 m", "20 m", "60 ft"],
        draw: beside_a_house,
        truth: |site| {
            let (pool, wall) = (
                site.pool().shape("water"),
                site.first("building").shape("wall"),
            );
            let all = pool.corners().iter().flat_map(|one| {
                let others = wall.corners().iter();
                others.map(move |other| apart(p(*one), p(*other)))
            });
            let round = pool.radius() + wall.radius();
            Some(all.fold(0.0, f64::max) + round as f64)
        },
        fine: NEAR,
        exact: NEAR,
        reach: 20.0,
    },
    Measure {
        name: "distance, farthest of the first",
        rule: "    require: {distance: {from: pool.water, to: well.casing, farthest: from}, at-most: LIMIT}",
        limits: ["8 m", "12 m", "40 ft"],
        draw: beside_a_well,
        truth: |site| {
            let (pool, well) = (
                site.pool().shape("water"),
                p(site.first("well").shape("casing").corners()[0]),
            );
            let far = pool
                .corners()
                .iter()
                .map(|corner| apart(p(*corner), well))
                .fold(0.0, f64::max);
            Some(far + pool.radius() as f64)
        },
        fine: NEAR,
        exact: NEAR,
        reach: 20.0,
    },
    Measure {
        name: "distance to what lies beyond a lot line",
        rule: "    require: {distance: {from: pool.water, to: {kind: lot-line, where: {fact: lot-line.faces, is: rear}}}, at-least: LIMIT}",
        limits: ["1 m", "3 m", "10 ft"],
        draw: near_the_rear,
        truth: |site| {
            Some(short_of(
                site.pool().shape("water"),
                (p(site.lot[2]), p(site.lot[3])),
            ))
        },
        fine: NEAR,
        exact: NEAR,
        reach: 20.0,
    },
    Measure {
        name: "depth of the rear yard",
        rule: "    require: {distance: {from: building.wall, to: {kind: lot-line, where: {fact: lot-line.faces, is: rear}}}, at-least: LIMIT}",
        limits: ["6 m", "8 m", "25 ft"],
        draw: beside_a_house,
        truth: |site| {
            let rear = Shape::Line(vec![site.lot[2], site.lot[3]]);
            Some(distance(site.first("building").shape("wall"), &rear))
        },
        fine: NEAR,
        exact: NEAR,
        reach: 20.0,
    },
    Measure {
        name: "distance in space, a level wire",
        rule: "    require: {distance: {from: pool.water, to: overhead-line.conductor, measured: in-space}, at-least: LIMIT}",
        limits: ["6 m", "7 m", "22.5 ft"],
        draw: under_a_level_wire,
        truth: |site| {
            let wire = site.first("overhead-line");
            let along = distance(site.pool().shape("water"), wire.shape("conductor"));
            let high = wire.amount("height") - site.pool().amount("height-above-ground");
            Some((along * along + high * high).sqrt())
        },
        fine: NEAR,
        exact: 2e6,
        reach: 20.0,
    },
    Measure {
        name: "height between, plumb",
        rule: "    require: {distance: {from: pool.water, to: overhead-line.conductor, measured: plumb}, at-least: LIMIT}",
        limits: ["6 m", "7 m", "22.5 ft"],
        draw: under_a_level_wire,
        truth: |site| {
            Some(
                site.first("overhead-line").amount("height")
                    - site.pool().amount("height-above-ground"),
            )
        },
        fine: NEAR,
        exact: NEAR,
        reach: 40.0,
    },
    Measure {
        name: "distance to an arc",
        rule: "    require: {distance: {from: pool.water, to: well.casing}, at-least: LIMIT}",
        limits: ["1 m", "3 m", "10 ft"],
        draw: a_curved_pool,
        truth: |site| {
            let (pool, well) = (
                site.pool().shape("water"),
                p(site.first("well").shape("casing").corners()[0]),
            );
            Some(truth::to_curved(well, pool))
        },
        fine: NEAR,
        exact: NEAR,
        reach: 20.0,
    },
    Measure {
        name: "area",
        rule: "    require: {area: {of: pool.water}, at-most: LIMIT}",
        limits: ["20 m2", "32 m2", "400 sq ft"],
        draw: beside_a_house,
        truth: |site| Some(area(site.pool().shape("water"))),
        fine: 1e9,
        exact: 1e10,
        reach: 10.0,
    },
    Measure {
        name: "share of the lot",
        rule: "    require: {area: {of: [building.wall, {all: pool.water}], share-of: lot.boundary}, at-most: LIMIT}",
        limits: ["10 %", "12 %", "0.15"],
        draw: apart_from_a_house,
        truth: |site| {
            let lot = area(&Shape::Area(site.lot.to_vec()));
            let covered =
                area(site.pool().shape("water")) + area(site.first("building").shape("wall"));
            Some(1e9 * covered / lot)
        },
        fine: 1.0,
        exact: 5.0,
        reach: 5.0,
    },
    Measure {
        name: "length",
        rule: "    require: {length: {of: barrier-stretch.line}, at-most: LIMIT}",
        limits: ["10 m", "20 m", "50 ft"],
        draw: a_fence,
        truth: |site| {
            let long = pieces(site.first("barrier-stretch").shape("line"))
                .into_iter()
                .map(|(a, b)| apart(a, b));
            Some(long.sum())
        },
        fine: NEAR,
        exact: 2.0 * NEAR,
        reach: 10.0,
    },
    Measure {
        name: "the way round a pool",
        rule: "    require: {length: {of: pool.water}, at-most: LIMIT}",
        limits: ["20 m", "24 m", "80 ft"],
        draw: beside_a_well,
        truth: |site| Some(way_round(site.pool().shape("water"))),
        fine: NEAR,
        exact: 2.0 * NEAR,
        reach: 10.0,
    },
    Measure {
        name: "the way round a pool with an arc",
        rule: "    require: {length: {of: pool.water}, at-least: LIMIT}",
        limits: ["20 m", "24 m", "80 ft"],
        draw: a_curved_pool,
        truth: |site| Some(way_round(site.pool().shape("water"))),
        fine: NEAR,
        exact: 2.0 * NEAR,
        reach: 0.0,
    },
    Measure {
        name: "distance on foot, round a house",
        rule: "    require: {distance: {from: well.casing, to: tree.stem, measured: walking}, at-least: LIMIT}",
        limits: ["15 m", "20 m", "75 ft"],
        draw: on_both_sides_of_a_house,
        truth: |site| Some(round_the_house(site)),
        fine: ON_FOOT,
        exact: ON_FOOT,
        reach: 10.0,
    },
    Measure {
        name: "distance on foot, to a pool behind a house",
        rule: "    require: {distance: {from: well.casing, to: pool.water, measured: walking}, at-least: LIMIT}",
        limits: ["15 m", "20 m", "75 ft"],
        draw: behind_a_house,
        truth: |site| Some(to_the_pool(site, false)),
        fine: ON_FOOT,
        exact: ON_FOOT,
        reach: 10.0,
    },
];

/// A walking route turns a few micrometres from a corner; this allows a tenth of a millimetre for all its turns.
const ON_FOOT: f64 = 1e5;

/// Measures whose plans cannot be measured exactly, because one of their facts varies or can be read in two ways.
pub const LOOSE: &[Measure] = &[
    Measure {
        name: "distance in space, a sloping wire",
        rule: "    require: {distance: {from: pool.water, to: overhead-line.conductor, measured: in-space}, at-least: LIMIT}",
        limits: ["6 m", "7 m", "22.5 ft"],
        draw: under_a_sloping_wire,
        truth: |site| Some(to_a_sloping_wire(site)),
        // The wire is sampled about every centimetre.
        fine: 1e5,
        exact: f64::INFINITY,
        reach: 5.0,
    },
    Measure {
        name: "distance on foot, where a fence stops who walks",
        rule: "    require: {distance: {from: well.casing, to: pool.water, measured: walking}, at-least: LIMIT}",
        limits: ["15 m", "20 m", "75 ft"],
        draw: behind_a_house_and_a_fence,
        truth: |site| Some(to_the_pool(site, true)),
        fine: ON_FOOT,
        exact: f64::INFINITY,
        reach: 5.0,
    },
    Measure {
        name: "distance on foot, where a fence stops nobody",
        rule: "    require: {distance: {from: well.casing, to: pool.water, measured: walking}, at-least: LIMIT}",
        limits: ["15 m", "20 m", "75 ft"],
        draw: behind_a_house_and_a_fence,
        truth: |site| Some(to_the_pool(site, false)),
        fine: ON_FOOT,
        exact: f64::INFINITY,
        reach: 5.0,
    },
];

fn beside_a_house(random: &mut Random) -> Site {
    let mut site = pool_at(random, (6, 24), (16, 30));
    let at = place(random, (8, 22), (8, 24));
    let wall = rectangle(random, at, (8, 12), (6, 10), 20);
    site.items
        .push(item(random, "building").drawn("wall", Shape::Area(wall)));
    site
}

/// A pool and a house far enough apart never to overlap.
fn apart_from_a_house(random: &mut Random) -> Site {
    let mut site = pool_at(random, (8, 22), (29, 33));
    let at = place(random, (10, 20), (9, 13));
    let wall = rectangle(random, at, (8, 12), (6, 10), 10);
    site.items
        .push(item(random, "building").drawn("wall", Shape::Area(wall)));
    site
}

/// A rectangle whose first side bulges out or in.
fn a_curved_pool(random: &mut Random) -> Site {
    let at = place(random, (10, 20), (12, 26));
    let ring = rectangle(random, at, (4, 8), (4, 5), 45);
    let rise = *random.pick(&[-1, 1]) * random.between(100 * MM, 1900 * MM);
    let mut site = site(random, Shape::Curved(ring, rise));
    let at = place(random, (4, 26), (6, 32));
    site.items
        .push(item(random, "well").drawn("casing", Shape::Spot(at)));
    site
}

fn beside_a_well(random: &mut Random) -> Site {
    let mut site = pool_at(random, (6, 24), (10, 30));
    let at = place(random, (2, 28), (2, 38));
    site.items
        .push(item(random, "well").drawn("casing", Shape::Spot(at)));
    site
}

/// The perimeter: the sum of the sides; for a widened shape both its sides and a circle; for an arc its angle times its
/// radius.
fn way_round(pool: &Shape) -> f64 {
    let along = |pieces: Vec<(P, P)>| pieces.into_iter().map(|(a, b)| apart(a, b)).sum::<f64>();
    match pool {
        Shape::Round(_, radius) => {
            2.0 * along(pieces(pool)) + 2.0 * std::f64::consts::PI * *radius as f64
        }
        Shape::Curved(corners, rise) => {
            let sides = truth::sides(&all(corners));
            let arc = truth::along_arc(sides[0], *rise as f64);
            arc + along(sides[1..].to_vec())
        }
        _ => along(pieces(pool)),
    }
}

fn near_the_rear(random: &mut Random) -> Site {
    pool_at(random, (12, 18), (31, 40))
}

/// The distance from a pool near the middle of a line to the ground beyond the line, which runs with the lot on its
/// left.
fn short_of(pool: &Shape, (a, b): (P, P)) -> f64 {
    let past =
        |at: &Point| truth::cross((b.0 - a.0, b.1 - a.1), (p(*at).0 - a.0, p(*at).1 - a.1)) <= 0.0;
    if pool.corners().iter().any(past) {
        return 0.0;
    }
    let least = match pool {
        Shape::Area(_) => truth::between(&pieces(pool), &[(a, b)]),
        _ => pool
            .corners()
            .iter()
            .map(|at| to_segment(p(*at), (a, b)))
            .fold(f64::INFINITY, f64::min),
    };
    (least - pool.radius() as f64).max(0.0)
}

/// A pool whose rim stands a little above the ground.
pub(super) fn raised_pool(random: &mut Random) -> Site {
    let mut site = pool_at(random, (6, 24), (10, 30));
    let rim = Fact::Length(
        random.between(100 * MM, 600 * MM),
        *random.pick(&[0, 20 * MM, 100 * MM]),
    );
    site.items[0].facts.push(("height-above-ground", rim));
    site
}

fn a_fence(random: &mut Random) -> Site {
    let mut site = pool_at(random, (6, 24), (10, 30));
    let corners = (0..random.between(2, 4))
        .map(|_| place(random, (0, 30), (0, 40)))
        .collect();
    site.items
        .push(item(random, "barrier-stretch").drawn("line", Shape::Line(corners)));
    site
}

fn on_both_sides_of_a_house(random: &mut Random) -> Site {
    let mut site = pool_at(random, (12, 18), (32, 34));
    let wall = rectangle(
        random,
        Point {
            x: 15 * M,
            y: 15 * M,
        },
        (6, 12),
        (4, 8),
        45,
    );
    site.items
        .push(item(random, "building").drawn("wall", Shape::Area(wall)));
    let (from, to) = (
        place(random, (2, 28), (1, 5)),
        place(random, (2, 28), (25, 28)),
    );
    site.items
        .push(item(random, "well").drawn("casing", Shape::Spot(from)));
    site.items
        .push(item(random, "tree").drawn("stem", Shape::Spot(to)));
    site
}
