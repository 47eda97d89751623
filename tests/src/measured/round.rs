//! What lies round something, and how wide a thing is.

use rules_core::plan::Point;

use super::property::Measure;
use super::scenes::{item, place, pool_at, rectangle};
use super::site::{M, MM, Shape, Site};
use super::truth::{P, all, apart, area, between, cross, p, part_way, pieces, to_segment, within};
use crate::soundness::random::Random;

const NEAR: f64 = 8.0;
/// What is joined is known to a few millimetres.
const JOINED: f64 = 3e6;

/// The measures of this file.
pub const MEASURES: &[Measure] = &[
    Measure {
        name: "margin of a deck round the water",
        rule: "    require: {margin: {of: pool.deck, round: pool.water}, at-least: LIMIT}",
        limits: ["300 mm", "1 m", "4 ft"],
        draw: a_deck,
        truth: |site| {
            let pool = site.pool();
            Some(margin(pool.shape("water"), pool.shape("deck")))
        },
        fine: NEAR,
        exact: NEAR,
        reach: 20.0,
    },
    Measure {
        name: "margin of several decks together",
        rule: "    require: {margin: {of: [pool.deck, deck.region], round: pool.water}, at-least: LIMIT}",
        limits: ["300 mm", "1 m", "4 ft"],
        draw: some_decks,
        truth: |site| Some(margin_of_all(site)),
        fine: 1e3,
        exact: JOINED,
        reach: 10.0,
    },
    Measure {
        name: "width over all",
        rule: "    require: {width: {of: pool.water}, at-most: LIMIT}",
        limits: ["8 ft", "4 m", "5 m"],
        draw: |random| pool_at(random, (6, 24), (10, 30)),
        truth: |site| Some(width(site.pool().shape("water"))),
        fine: NEAR,
        exact: NEAR,
        reach: 20.0,
    },
    Measure {
        name: "square root of an area",
        rule: "    require: {square-root: {area: {of: pool.water}}, at-most: LIMIT}",
        limits: ["4 m", "5 m", "20 ft"],
        draw: |random| pool_at(random, (6, 24), (10, 30)),
        truth: |site| Some(area(site.pool().shape("water")).sqrt()),
        fine: NEAR,
        exact: NEAR,
        reach: 10.0,
    },
];

fn middle(shape: &Shape) -> P {
    let corners = all(shape.corners());
    let sum = corners
        .iter()
        .fold((0.0, 0.0), |sum, at| (sum.0 + at.0, sum.1 + at.1));
    (sum.0 / corners.len() as f64, sum.1 / corners.len() as f64)
}

/// A deck of the same form as the water, larger, and sometimes not quite round it.
fn a_deck(random: &mut Random) -> Site {
    let mut site = pool_at(random, (10, 20), (14, 26));
    let water = site.pool().shape("water").clone();
    let aside = match random.below(4) {
        0 => (random.between(-M, M), random.between(-M, M)),
        _ => (0, 0),
    };
    let moved = |at: &Point, from: P, share: f64| Point {
        x: (from.0 + (at.x as f64 - from.0) * share) as i64 + aside.0,
        y: (from.1 + (at.y as f64 - from.1) * share) as i64 + aside.1,
    };
    let deck = match &water {
        Shape::Round(core, radius) if random.chance(50) => {
            let core = core.iter().map(|at| moved(at, (0.0, 0.0), 1.0));
            Shape::Round(core.collect(), radius + random.between(-300 * MM, 2 * M))
        }
        Shape::Round(core, _) => Shape::Area(rectangle(random, core[0], (7, 14), (6, 12), 45)),
        other => {
            let share = random.between(1_020, 1_900) as f64 / 1_000.0;
            let from = middle(other);
            let corners = other.corners().iter();
            Shape::Area(corners.map(|at| moved(at, from, share)).collect())
        }
    };
    site.items[0].outlines.push(("deck", deck));
    site
}

/// How far a deck reaches beyond the water where it reaches least far; 0 where it does not lie all round it.
fn margin(water: &Shape, deck: &Shape) -> f64 {
    let left = match deck {
        Shape::Round(_, radius) => {
            let core = pieces(deck);
            let far = |at: &Point| {
                let each = core.iter().map(|piece| to_segment(p(*at), *piece));
                each.fold(f64::INFINITY, f64::min)
            };
            *radius as f64 - water.corners().iter().map(far).fold(0.0, f64::max)
        }
        _ => {
            let ring = all(deck.corners());
            match water.corners().iter().all(|at| within(&ring, p(*at))) {
                true => between(&pieces(water), &pieces(deck)),
                false => 0.0,
            }
        }
    };
    (left - water.radius() as f64).max(0.0)
}

/// Water with straight sides, a deck of the pool, and one or two more beside it.
fn some_decks(random: &mut Random) -> Site {
    let mut site = loop {
        let site = a_deck(random);
        let straight = |name| matches!(site.pool().shape(name), Shape::Area(_));
        if straight("water") && straight("deck") {
            break site;
        }
    };
    let from = middle(site.pool().shape("water"));
    for number in 0..random.between(1, 2) {
        let away = place(random, (-4, 4), (-4, 4));
        let at = Point {
            x: from.0 as i64 + away.x,
            y: from.1 as i64 + away.y,
        };
        let region = rectangle(random, at, (6, 14), (4, 10), 45);
        let deck = item(random, "deck").named(&format!("deck-{number}"));
        site.items.push(deck.drawn("region", Shape::Area(region)));
    }
    site
}

/// The distance from the water to the nearest piece of any edge that no deck, nor the water, covers.
fn margin_of_all(site: &Site) -> f64 {
    let water = site.pool().shape("water");
    let mut shapes = vec![water, site.pool().shape("deck")];
    shapes.extend(site.all("deck").map(|deck| deck.shape("region")));
    let rings: Vec<Vec<P>> = shapes.iter().map(|shape| all(shape.corners())).collect();
    let sides: Vec<(P, P)> = shapes.iter().flat_map(|shape| pieces(shape)).collect();
    let mut least = f64::INFINITY;
    for (own, shape) in shapes.iter().enumerate() {
        for side in pieces(shape) {
            for (a, b) in cut(side, &sides) {
                let at = part_way(a, b, 0.5);
                let others = rings.iter().enumerate().filter(|(other, _)| *other != own);
                if others.into_iter().any(|(_, ring)| within(ring, at)) {
                    continue;
                }
                least = match own {
                    0 => 0.0,
                    _ => least.min(between(&pieces(water), &[(a, b)])),
                };
            }
        }
    }
    least
}

/// A side cut wherever the line of another one crosses its own.
fn cut((a, b): (P, P), sides: &[(P, P)]) -> Vec<(P, P)> {
    let way = (b.0 - a.0, b.1 - a.1);
    let mut shares = vec![0.0, 1.0];
    for (c, d) in sides {
        let other = (d.0 - c.0, d.1 - c.1);
        let share = cross((c.0 - a.0, c.1 - a.1), other) / cross(way, other);
        if share > 0.0 && share < 1.0 {
            shares.push(share);
        }
    }
    shares.sort_by(f64::total_cmp);
    let ends = shares.iter().zip(&shares[1..]);
    ends.map(|(from, to)| (part_way(a, b, *from), part_way(a, b, *to)))
        .collect()
}

/// The least width across, in the direction of the line through any two corners.
fn width(shape: &Shape) -> f64 {
    let corners = all(shape.corners());
    let mut least = f64::INFINITY;
    for a in &corners {
        for b in corners.iter().filter(|b| *b != a) {
            let way = (b.0 - a.0, b.1 - a.1);
            let off = |at: &P| cross(way, (at.0 - a.0, at.1 - a.1)) / apart(*a, *b);
            let (low, high) = corners
                .iter()
                .map(off)
                .fold((0.0, 0.0), |(low, high), off| {
                    (f64::min(low, off), f64::max(high, off))
                });
            least = least.min(high - low);
        }
    }
    let across = if least.is_finite() { least } else { 0.0 };
    across + 2.0 * shape.radius() as f64
}
