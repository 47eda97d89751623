//! Walking round a house and a fence.

use rules_core::plan::Point;

use super::scenes::{item, place, pool_at, rectangle};
use super::site::{Fact, M, Shape, Site};
use super::truth::{self, *};
use crate::soundness::random::Random;

/// A pool and a well with a house between them, all well apart.
pub fn behind_a_house(random: &mut Random) -> Site {
    let mut site = pool_at(random, (8, 22), (30, 34));
    let middle = Point {
        x: 15 * M,
        y: 14 * M,
    };
    let wall = rectangle(random, middle, (6, 14), (4, 8), 30);
    site.items
        .push(item(random, "building").drawn("wall", Shape::Area(wall)));
    let at = place(random, (2, 28), (1, 4));
    site.items
        .push(item(random, "well").drawn("casing", Shape::Spot(at)));
    site
}

pub fn behind_a_house_and_a_fence(random: &mut Random) -> Site {
    let mut site = behind_a_house(random);
    let ends = [
        place(random, (2, 14), (22, 23)),
        place(random, (16, 28), (22, 23)),
    ];
    let stretch = |random: &mut Random, id: &str, line: Vec<Point>| {
        let item = item(random, "barrier-stretch").named(id);
        item.drawn("line", Shape::Line(line))
    };
    if random.chance(50) {
        site.items.push(stretch(random, "fence", ends.to_vec()));
        return site;
    }
    // With a closed gate in it, somewhere near its middle.
    let [left, right] = ends;
    let at = |share: i64| Point {
        x: left.x + (right.x - left.x) / 100 * share,
        y: left.y + (right.y - left.y) / 100 * share,
    };
    let start = random.between(30, 55);
    let (hinge, latch) = (at(start), at(start + 15));
    site.items.push(stretch(random, "left", vec![left, hinge]));
    site.items
        .push(stretch(random, "right", vec![latch, right]));
    let gate = item(random, "gate").drawn("line", Shape::Line(vec![hinge, latch]));
    site.items
        .push(gate.said("part-of", Fact::Word("left".to_owned())));
    site
}

/// The pieces of the fence and its gate, slightly lengthened where they meet so that nobody slips through.
pub fn closed_fence(site: &Site) -> Vec<(P, P)> {
    let runs = site.all("barrier-stretch").chain(site.all("gate"));
    let runs: Vec<(P, P)> = runs.flat_map(|run| pieces(run.shape("line"))).collect();
    let joined = |at: P, own: &(P, P)| {
        let others = runs.iter().filter(|other| *other != own);
        others.into_iter().any(|(a, b)| *a == at || *b == at)
    };
    let longer = |from: P, to: P, own: &(P, P)| match joined(to, own) {
        true => part_way(from, to, 1.0 + 3e-6),
        false => to,
    };
    let piece = |own: &(P, P)| (longer(own.1, own.0, own), longer(own.0, own.1, own));
    runs.iter().map(piece).collect()
}

/// The walking distance from the well to the pool, round the house, and round the fence if it is closed.
pub fn to_the_pool(site: &Site, fenced: bool) -> f64 {
    let house = all(site.first("building").shape("wall").corners());
    let fences = if fenced {
        closed_fence(site)
    } else {
        Vec::new()
    };
    let from = p(site.first("well").shape("casing").corners()[0]);
    on_foot(from, site.pool().shape("water"), &house, &fences)
}

/// The shorter of the two ways round the hull of the house and both ends, or straight if the house is not between them.
pub fn round_the_house(site: &Site) -> f64 {
    let house = all(site.first("building").shape("wall").corners());
    let spot = |kind: &str, outline: &str| p(site.first(kind).shape(outline).corners()[0]);
    let (from, to) = (spot("well", "casing"), spot("tree", "stem"));
    let straight = apart(from, to);
    // A nanometre, because in floats no place is exactly on a wall.
    if truth::near_along((from, to), 1.0, |at| {
        to_shape(at, site.first("building").shape("wall"))
    })
    .is_none()
    {
        return straight;
    }
    let mut round = truth::hull(house.into_iter().chain([from, to]).collect());
    let Some(first) = round.iter().position(|at| *at == from) else {
        return straight;
    };
    round.rotate_left(first);
    let Some(last) = round.iter().position(|at| *at == to) else {
        return straight;
    };
    let long = |way: &[P]| {
        way.iter()
            .zip(way.iter().skip(1))
            .map(|(a, b)| apart(*a, *b))
            .sum::<f64>()
    };
    let back: Vec<P> = round
        .iter()
        .skip(last)
        .chain(round.first())
        .copied()
        .collect();
    long(&round[..=last]).min(long(&back))
}
