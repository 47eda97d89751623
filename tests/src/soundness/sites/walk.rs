//! Houses, and outlets round the corner from them.

use std::collections::BTreeSet;

use rules_core::plan::{Form, Point};
use rules_core::quantity::Dimension;

use super::asked::{Got, Measure};
use super::site::{Site, Thing, drawn, rectangle};
use super::{pool, shown};
use crate::measured::site::Shape;
use crate::soundness::evaluate::Undecided;
use crate::soundness::geometry::{self, Edge};
use crate::soundness::number::Real;
use crate::soundness::random::Random;
use crate::soundness::words::METRE;

/// The measures asked for.
pub const MEASURES: &[Measure] = &[Measure {
    each: Some("building"),
    within: None,
    value: "distance: {from: building.front-wall, to: receptacle.place, measured: walking}",
    dimension: Dimension::Length,
    of: |world, house| on_foot(world, house).map(Got::One),
    exact: true,
}];

/// Everything that can stand in the way.
const IN_THE_WAY: [&str; 9] = [
    "building",
    "barrier-stretch",
    "gate",
    "mesh-fence",
    "screen-enclosure",
    "pool-enclosure",
    "retaining-wall",
    "cliff",
    "open-water",
];

/// One or two houses in a row, an outlet or two before, behind or beside them, and the pool far behind.
pub fn draw(random: &mut Random) -> Site {
    let at = (random.between(4, 20) * METRE, 32 * METRE);
    let pool = pool(random, at);
    let mut kinds = IN_THE_WAY.to_vec();
    kinds.push("receptacle");
    let mut site = Site::new((40 * METRE, 40 * METRE), pool, &shown(&kinds));
    let source = random.below(2);
    let houses = random.between(1, 2);
    for number in 0..houses {
        let at = (
            (6 + number * 15 + random.between(0, 3)) * METRE,
            random.between(4, 9) * METRE,
        );
        let size = (random.between(5, 10) * METRE, random.between(4, 9) * METRE);
        let wall = rectangle(at, size);
        let corners = wall.corners();
        let front = random.below(4);
        let front = Shape::Line(vec![corners[front], corners[(front + 1) % 4]]);
        let house = Thing::new("building", format!("house-{number}"), source);
        site.things
            .push(house.drawn("wall", wall).drawn("front-wall", front));
    }
    for number in 0..random.between(1, 2) {
        let place = free_place(random, &site);
        let of = if random.chance(80) {
            source
        } else {
            random.below(2)
        };
        let outlet = Thing::new("receptacle", format!("outlet-{number}"), of);
        site.things.push(outlet.drawn("place", Shape::Spot(place)));
    }
    site
}

/// A place a little off every house.
fn free_place(random: &mut Random, site: &Site) -> Point {
    loop {
        let place = Point {
            x: random.between(10, 380) * METRE / 10,
            y: random.between(10, 240) * METRE / 10,
        };
        let spot = drawn(&Shape::Spot(place));
        let mut houses = site.all("building");
        if houses.all(|house| {
            geometry::nearest(&spot, &drawn(house.shape("wall")))
                .0
                .floor()
                > (METRE / 5).into()
        }) {
            return place;
        }
    }
}

/// The shortest way from a house's front wall to the nearest outlet, round all houses. An outlet inside a house cannot
/// be reached.
fn on_foot(world: &Site, house: usize) -> Result<Real, Undecided> {
    let walls: Vec<&[Point]> = world
        .all("building")
        .map(|house| house.shape("wall").corners())
        .collect();
    let front = world.things[house].shape("front-wall").corners();
    if front[0].x != front[1].x && front[0].y != front[1].y {
        return Err(Undecided::NotKnown);
    }
    let outlets = world
        .all("receptacle")
        .map(|outlet| outlet.shape("place").corners()[0]);
    let ways = outlets.map(|outlet| shortest(&walls, (front[0], front[1]), outlet));
    let way = ways.fold(f64::INFINITY, f64::min);
    // It is a sum of a few square roots, each accurate to far less than a nanometre.
    match way.is_finite() {
        true => Ok(Real::about(way, 0.01)),
        false => Err(Undecided::NotKnown),
    }
}

/// The shortest way from a line to a place round some rings: straight to the place, or to a corner and from corner to
/// corner.
fn shortest(walls: &[&[Point]], from: Edge, to: Point) -> f64 {
    let mut places: Vec<Point> = walls.concat();
    places.push(to);
    let mut far: Vec<f64> = places
        .iter()
        .map(|place| {
            let foot = foot_of(from, *place);
            match is_free(walls, (foot, *place)) {
                true => apart(foot, *place),
                false => f64::INFINITY,
            }
        })
        .collect();
    let mut left: BTreeSet<usize> = (0..places.len()).collect();
    while let Some(&nearest) = left.iter().min_by(|a, b| far[**a].total_cmp(&far[**b])) {
        left.remove(&nearest);
        for &other in &left {
            let edge = (places[nearest], places[other]);
            if is_free(walls, edge) {
                far[other] = far[other].min(far[nearest] + apart(edge.0, edge.1));
            }
        }
    }
    far[places.len() - 1]
}

fn apart(a: Point, b: Point) -> f64 {
    libm::hypot((b.x - a.x) as f64, (b.y - a.y) as f64)
}

/// The place on an axis-parallel line nearest to another place.
fn foot_of((a, b): Edge, place: Point) -> Point {
    Point {
        x: place.x.clamp(a.x.min(b.x), a.x.max(b.x)),
        y: place.y.clamp(a.y.min(b.y), a.y.max(b.y)),
    }
}

/// Whether a person can walk straight along a line: no part of it lies inside a house. Walking along a wall is allowed.
fn is_free(walls: &[&[Point]], (a, b): Edge) -> bool {
    walls.iter().all(|wall| {
        let mut sides = geometry::edges(&Form::Ring(wall.to_vec())).into_iter();
        let touched = wall.iter().filter(|corner| lies_on((a, b), **corner));
        let mut stops: Vec<Point> = touched.chain([&a, &b]).copied().collect();
        stops.sort_unstable();
        let mut middles = stops.windows(2).map(|pair| Point {
            x: pair[0].x.midpoint(pair[1].x),
            y: pair[0].y.midpoint(pair[1].y),
        });
        !sides.any(|side| geometry::cross(side, (a, b)))
            && !middles.any(|middle| geometry::deep_in_ring(wall, middle))
    })
}

fn lies_on((a, b): Edge, p: Point) -> bool {
    let turn = i128::from(b.x - a.x) * i128::from(p.y - a.y)
        - i128::from(b.y - a.y) * i128::from(p.x - a.x);
    turn == 0
        && p.x >= a.x.min(b.x)
        && p.x <= a.x.max(b.x)
        && p.y >= a.y.min(b.y)
        && p.y <= a.y.max(b.y)
}
