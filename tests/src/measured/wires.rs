//! Wires over a pool.

use rules_core::plan::Point;

use super::scenes::{item, place};
use super::shapes::raised_pool;
use super::site::{Fact, M, MM, Shape, Site};
use super::truth::*;
use crate::soundness::random::Random;

pub fn wire(random: &mut Random) -> Vec<Point> {
    vec![
        place(random, (-8, 6), (0, 40)),
        place(random, (24, 38), (0, 40)),
    ]
}

pub fn under_a_level_wire(random: &mut Random) -> Site {
    let mut site = raised_pool(random);
    let height = Fact::Length(
        random.between(4 * M, 9 * M),
        *random.pick(&[0, 50 * MM, 500 * MM]),
    );
    let path = wire(random);
    site.items.push(
        item(random, "overhead-line")
            .drawn("conductor", Shape::Line(path))
            .said("height", height),
    );
    site
}

pub fn under_a_sloping_wire(random: &mut Random) -> Site {
    let mut site = raised_pool(random);
    let height = Fact::Varying(random.between(4 * M, 9 * M), random.between(4 * M, 9 * M));
    let path = wire(random);
    site.items.push(
        item(random, "overhead-line")
            .drawn("conductor", Shape::Line(path))
            .said("height", height),
    );
    site
}

/// The distance from the water to a wire that climbs evenly from end to end, found by ternary search in pieces of the
/// wire.
pub fn to_a_sloping_wire(site: &Site) -> f64 {
    let (pool, item) = (site.pool().shape("water"), site.first("overhead-line"));
    let ends = all(item.shape("conductor").corners());
    let Some((_, Fact::Varying(from, to))) = item.facts.first() else {
        return f64::NAN;
    };
    let rim = site.pool().amount("height-above-ground");
    let at = |share: f64| {
        let along = to_shape(part_way(ends[0], ends[1], share), pool);
        let high = *from as f64 + share * (to - from) as f64 - rim;
        (along * along + high * high).sqrt()
    };
    (0..=4000)
        .map(|step| at(f64::from(step) / 4000.0))
        .fold(f64::INFINITY, f64::min)
}
