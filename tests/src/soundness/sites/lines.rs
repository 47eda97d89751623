//! Things near the lot lines or beyond them, and lots whose sides come from different sources.

use rules_core::plan::Point;
use rules_core::quantity::Dimension;

use super::asked::{Got, Measure};
use super::site::{Fact, SIDES, SOURCES, Side, Site, Thing, drawn, rectangle};
use super::{pool, shown};
use crate::measured::site::Shape;
use crate::soundness::cover;
use crate::soundness::evaluate::Undecided;
use crate::soundness::geometry;
use crate::soundness::number::Real;
use crate::soundness::random::Random;
use crate::soundness::words::METRE;

const ANY: &str = "";

macro_rules! to_lines {
    ($kind:literal, $outline:literal) => {
        &[
            Measure {
                each: Some($kind),
                within: None,
                value: concat!("distance: {from: ", $kind, ".", $outline, ", to: lot-line}"),
                dimension: Dimension::Length,
                of: |world, thing| to_lines(world, thing, $outline, ANY),
                exact: true,
            },
            Measure {
                each: Some($kind),
                within: None,
                value: concat!(
                    "distance: {from: ",
                    $kind,
                    ".",
                    $outline,
                    ", to: {kind: lot-line, where: {fact: lot-line.faces, is: rear}}}"
                ),
                dimension: Dimension::Length,
                of: |world, thing| to_lines(world, thing, $outline, "rear"),
                exact: true,
            },
        ]
    };
}

/// A kind that may stand on either side of a line, its outline, and the measures on it.
pub struct Standing {
    kind: &'static str,
    outline: &'static str,
    /// The fact that says whose it is; `None` if its kind already says so.
    whose: Option<&'static str>,
    /// The measures asked for.
    pub measures: &'static [Measure],
}

/// All such kinds.
pub const STANDING: &[Standing] = &[
    Standing {
        kind: "building",
        outline: "wall",
        whose: Some("stands-on"),
        measures: to_lines!("building", "wall"),
    },
    Standing {
        kind: "barrier-stretch",
        outline: "line",
        whose: Some("on"),
        measures: to_lines!("barrier-stretch", "line"),
    },
    Standing {
        kind: "deck",
        outline: "region",
        whose: None,
        measures: to_lines!("deck", "region"),
    },
    Standing {
        kind: "well",
        outline: "casing",
        whose: None,
        measures: to_lines!("well", "casing"),
    },
];

/// The measures on a lot.
pub const OF_THE_LOT: &[Measure] = &[
    Measure {
        each: None,
        within: None,
        value: "area: {of: lot.boundary}",
        dimension: Dimension::Area,
        of: |world, _| Ok(Got::One(area(world))),
        exact: true,
    },
    Measure {
        each: None,
        within: None,
        value: "area: {of: {all: pool.water}, share-of: lot.boundary}",
        dimension: Dimension::Number,
        of: |world, _| {
            let water = geometry::area(&drawn(world.pool().shape("water")));
            water.over(area(world)).map(Got::One).ok_or(Undecided::Tie)
        },
        exact: true,
    },
    Measure {
        each: None,
        within: None,
        value: "count: {kind: well, in: {inside: lot.boundary}}",
        dimension: Dimension::Number,
        of: |world, _| wells_inside(world),
        exact: true,
    },
    Measure {
        each: None,
        within: None,
        value: "distance: {from: pool.water, to: {kind: lot-line, where: {fact: lot-line.faces, is: rear}}}",
        dimension: Dimension::Length,
        of: |world, _| to_lines(world, 0, "water", "rear"),
        exact: true,
    },
];

fn lot(random: &mut Random, kinds: &[&'static str]) -> Site {
    let (width, depth) = (
        random.between(20, 26) * METRE,
        random.between(24, 30) * METRE,
    );
    let near = |random: &mut Random| match random.chance(25) {
        true => random.between(-20, 20) * METRE / 10,
        false => random.between(3, 14) * METRE,
    };
    let at = (near(random), near(random));
    let pool = pool(random, at);
    let mut site = Site::new((width, depth), pool, &shown(kinds));
    for side in &mut site.sides {
        *side = Side {
            source: random.below(SOURCES),
            ..*side
        };
    }
    if random.chance(40) {
        let one = site.sides[0];
        site.sides = [one; 4];
    }
    site
}

/// Things of one kind near the lines.
pub fn draw(random: &mut Random, of: &Standing) -> Site {
    let mut site = lot(random, &[of.kind]);
    for number in 0..random.between(1, 2) {
        let shape = beside_a_line(random, &site, of);
        let id = format!("{}-{number}", of.kind);
        let thing = Thing::new(of.kind, id, random.below(SOURCES)).drawn(of.outline, shape);
        site.things.push(match of.whose {
            Some(fact) => {
                let word = super::blur::words_of(fact)[random.weighted(&[7, 3])];
                thing.said(fact, Fact::Word(vec![word]))
            }
            None => thing,
        });
    }
    site
}

/// A lot with a well or two near its lines.
pub fn draw_lot(random: &mut Random) -> Site {
    let wells = &STANDING[3];
    draw(random, wells)
}

/// A shape inside the lot, across its line or beyond it, mostly near the middle of a side.
fn beside_a_line(random: &mut Random, site: &Site, of: &Standing) -> Shape {
    let far = site.corners[2];
    let (width, depth) = (random.between(2, 4) * METRE, random.between(2, 4) * METRE);
    let most = *random.pick(&[40, 400]);
    let off = random.between(0, most) * METRE / 100;
    // How far inside the lot its near edge is, how far it reaches across the line, or how far beyond the line it
    // stands.
    let sort = random.weighted(&[2, 2, 3]);
    let inwards = |deep: i64| [off, -off, -off - deep][sort];
    let along = |random: &mut Random, long: i64| match random.chance(85) {
        true => random.between(40, 55) * (long / 100),
        false => random.between(-10, 95) * (long / 100),
    };
    let at = match random.below(4) {
        0 => (along(random, far.x), inwards(depth)),
        1 => (far.x - width - inwards(width), along(random, far.y)),
        2 => (along(random, far.x), far.y - depth - inwards(depth)),
        _ => (inwards(width), along(random, far.y)),
    };
    let place = Point { x: at.0, y: at.1 };
    match of.outline {
        "casing" => Shape::Spot(place),
        "line" => Shape::Line(vec![
            place,
            Point {
                x: at.0 + width,
                y: at.1 + depth,
            },
        ]),
        _ => rectangle(at, (width, depth)),
    }
}

fn ring(world: &Site) -> Shape {
    Shape::Area(world.corners.to_vec())
}

fn area(world: &Site) -> Real {
    geometry::area(&drawn(&ring(world)))
}

/// Whether a thing is the owner's.
fn is_own(thing: &Thing) -> bool {
    match thing.kind {
        "pool" | "deck" => true,
        "building" => thing.is("stands-on", "lot"),
        "barrier-stretch" => thing.is("on", "own"),
        _ => false,
    }
}

/// The distance from a thing to the ground beyond the lines on one side; zero if it is the owner's and part of it is
/// beyond one of them.
fn to_lines(world: &Site, thing: usize, outline: &str, faces: &str) -> Result<Got, Undecided> {
    let thing = &world.things[thing];
    let shape = thing.shape(outline);
    let meant = |side: usize| faces == ANY || SIDES[side].0 == faces;
    if is_own(thing) {
        for corner in shape.corners() {
            if !geometry::in_ring(&world.corners, *corner) && meant(past(world, *corner)?) {
                return Ok(Got::One(Real::whole(0)));
            }
        }
    }
    let lines = world.lines();
    let mut nearest: Option<Real> = None;
    for (_, line) in lines.iter().enumerate().filter(|(side, _)| meant(*side)) {
        let far = geometry::nearest(&drawn(shape), &drawn(line)).0;
        nearest = Some(match nearest {
            None => far,
            Some(nearest) => nearest.lesser(far).ok_or(Undecided::Tie)?,
        });
    }
    nearest.map(Got::One).ok_or(Undecided::NotKnown)
}

/// The side of the lot nearest to a place outside; not worked out here if two sides are about as near.
fn past(world: &Site, place: Point) -> Result<usize, Undecided> {
    let spot = drawn(&Shape::Spot(place));
    let mut far: Vec<(i128, usize)> = world
        .lines()
        .iter()
        .enumerate()
        .map(|(side, line)| (geometry::nearest(&spot, &drawn(line)).0.floor(), side))
        .collect();
    far.sort_unstable();
    match far[1].0 - far[0].0 > 1000 {
        true => Ok(far[0].1),
        false => Err(Undecided::NotKnown),
    }
}

/// Whether the pool lies on the lot; `None` if it touches the line.
pub fn pool_inside(world: &Site) -> Option<bool> {
    cover::inside(&drawn(world.pool().shape("water")), &world.corners)
}

fn wells_inside(world: &Site) -> Result<Got, Undecided> {
    let mut count = 0;
    for well in world.all("well") {
        let at = well.shape("casing").corners()[0];
        let inside = geometry::in_ring(&world.corners, at);
        if inside && !geometry::deep_in_ring(&world.corners, at) {
            return Err(Undecided::Tie);
        }
        count += i128::from(inside);
    }
    Ok(Got::One(Real::whole(count * 1_000_000_000)))
}
