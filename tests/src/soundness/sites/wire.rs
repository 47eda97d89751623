//! A wire over the lot and the pool below: heights, and distances in space.

use rules_core::plan::Point;
use rules_core::quantity::Dimension;

use super::asked::{Got, Measure};
use super::site::{Fact, Site, Thing, drawn};
use super::{pool, shown};
use crate::measured::site::Shape;
use crate::soundness::geometry;
use crate::soundness::number::Real;
use crate::soundness::random::Random;
use crate::soundness::words::METRE;

/// What is asked.
pub const MEASURES: &[Measure] = &[
    Measure {
        each: None,
        value: "distance: {from: pool.water, to: overhead-line.conductor, measured: in-space}",
        dimension: Dimension::Length,
        of: |world, _| Ok(Got::One(nearest_wire(world, true))),
        exact: false,
    },
    Measure {
        each: None,
        value: "distance: {from: pool.water, to: overhead-line.conductor, measured: plumb}",
        dimension: Dimension::Length,
        of: |world, _| Ok(Got::One(nearest_wire(world, false))),
        exact: true,
    },
];

/// One or two level wires.
pub fn draw(random: &mut Random) -> Site {
    let at = (random.between(4, 16) * METRE, random.between(4, 16) * METRE);
    let mut pool = pool(random, at);
    let rim = random.between(0, 12) * METRE / 10;
    pool.facts
        .push(("height-above-ground", Fact::Length(rim, rim)));
    let mut site = Site::new((24 * METRE, 24 * METRE), pool, &shown(&["overhead-line"]));
    for number in 0..random.between(1, 2) {
        let mut place = |x| Point {
            x,
            y: random.between(-20, 260) * METRE / 10,
        };
        let path = vec![place(-2 * METRE), place(26 * METRE)];
        let height = random.between(40, 90) * METRE / 10;
        let wire = Thing::new("overhead-line", format!("wire-{number}"), random.below(2));
        let wire = wire.drawn("conductor", Shape::Line(path));
        site.things
            .push(wire.said("height", Fact::Length(height, height)));
    }
    site
}

/// The nearest wire to the water, in space or plumb.
fn nearest_wire(world: &Site, in_space: bool) -> Real {
    let pool = world.pool();
    let rim = pool.length("height-above-ground");
    let far = world.all("overhead-line").map(|wire| {
        let over = (wire.length("height") - rim).max(0) as f64;
        let beside = drawn(wire.shape("conductor"));
        let beside = geometry::nearest(&drawn(pool.shape("water")), &beside).0;
        match in_space {
            true => libm::hypot(beside.approximately(), over),
            false => over,
        }
    });
    let nearest = far.fold(f64::INFINITY, f64::min);
    match in_space {
        true => Real::about(nearest, 0.01),
        false => Real::whole(nearest as i128),
    }
}
