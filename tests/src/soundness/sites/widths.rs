//! Widths: gaps that vary along a fence, gates and openings, the way in past a house and a shed, bands round a tree or
//! the pool.

use rules_core::plan::Point;
use rules_core::quantity::Dimension;

use super::asked::{Got, Measure};
use super::site::{Fact, Site, Thing, drawn, rectangle};
use super::{pool, shown};
use crate::measured::site::Shape;
use crate::measured::truth::{all, in_disc, p};
use crate::soundness::cover::FINE;
use crate::soundness::evaluate::Undecided;
use crate::soundness::geometry;
use crate::soundness::number::Real;
use crate::soundness::random::Random;
use crate::soundness::words::METRE;

type Found = Result<Got, Undecided>;

/// Combines two amounts; `None` if it cannot be told.
type Fold = fn(Real, Real) -> Option<Real>;

/// The measures on a fence.
pub const OF_THE_FENCE: &[Measure] = &[
    Measure {
        each: Some("barrier-stretch"),
        within: None,
        value: "fact: barrier-stretch.height-outside",
        dimension: Dimension::Length,
        of: |world, thing| Ok(pieces(&world.things[thing], "height-outside")),
        exact: true,
    },
    Measure {
        each: Some("gate"),
        within: None,
        value: "fact: gate.width",
        dimension: Dimension::Length,
        of: |world, thing| Ok(pieces(&world.things[thing], "width")),
        exact: true,
    },
    Measure {
        each: None,
        within: None,
        value: "largest-of: {kind: barrier-stretch, take: barrier-stretch.gap-below}",
        dimension: Dimension::Length,
        of: |world, _| over(world, &[("barrier-stretch", "gap-below")], Real::greater),
        exact: true,
    },
    Measure {
        each: None,
        within: None,
        value: "smallest-of: {kind: gate, take: gate.width}",
        dimension: Dimension::Length,
        of: |world, _| over(world, &[("gate", "width")], Real::lesser),
        exact: true,
    },
    Measure {
        each: None,
        within: None,
        value: "sum: {kind: gate, take: gate.width}",
        dimension: Dimension::Length,
        of: |world, _| {
            over(world, &[("gate", "width")], |one, other| {
                Some(one.plus(other))
            })
        },
        exact: true,
    },
    // The widest gap anywhere in the barrier.
    Measure {
        each: None,
        within: None,
        value: "largest-of: [{largest-of: {kind: barrier-stretch, take: barrier-stretch.gap-below}}, {largest-of: {kind: gate, take: gate.gap-below}}, {largest-of: {kind: barrier-opening, take: barrier-opening.width}}]",
        dimension: Dimension::Length,
        of: |world, _| {
            let all = [
                ("barrier-stretch", "gap-below"),
                ("gate", "gap-below"),
                ("barrier-opening", "width"),
            ];
            over(world, &all, Real::greater)
        },
        exact: true,
    },
];

/// The measures on the way in.
pub const OF_THE_WAY: &[Measure] = &[
    // The widest way in at its narrowest place.
    Measure {
        each: None,
        within: None,
        value: "enclosure: {of: pool.water, from: street, made-of: [barrier-stretch, building.wall]}",
        dimension: Dimension::Length,
        of: |world, _| way_in(world).map(Got::One),
        exact: true,
    },
    // The room beside a machine at the narrowest place.
    Measure {
        each: None,
        within: None,
        value: "difference: [{smallest-of: [{distance: {from: building.wall, to: pool.water}}, {distance: {from: barrier-stretch.line, to: pool.water}}]}, {largest-of: {kind: lifting-machine, take: lifting-machine.width}}]",
        dimension: Dimension::Length,
        of: |world, _| room_beside(world),
        exact: true,
    },
];

/// The measures on bands.
pub const OF_BANDS: &[Measure] = &[
    Measure {
        each: Some("tree"),
        within: None,
        value: "area: {of: {each: pool.water}, in: {around: tree.stem, by: {product: [12, tree.stem-diameter]}}}",
        dimension: Dimension::Area,
        of: over_roots,
        exact: false,
    },
    Measure {
        each: None,
        within: None,
        value: "count: {kind: well, in: {around: pool.water, by: {product: [4, pool.depth]}}}",
        dimension: Dimension::Number,
        of: |world, _| wells_near(world),
        exact: true,
    },
];

fn tenths(random: &mut Random, least: i64, most: i64) -> i64 {
    random.between(least, most) * METRE / 10
}

/// A length that may or may not vary along a thing.
fn changing(random: &mut Random, least: i64, most: i64) -> Fact {
    let (one, other) = (tenths(random, least, most), tenths(random, least, most));
    let (low, high) = (one.min(other), one.max(other));
    match random.chance(60) && low < high {
        true => Fact::Along((low, low), (high, high)),
        false => Fact::Length(low, low),
    }
}

/// A fence of several pieces with a gate or two and perhaps an opening.
pub fn draw_fence(random: &mut Random) -> Site {
    let pool = pool(random, (10 * METRE, 12 * METRE));
    let kinds = ["barrier-stretch", "gate", "barrier-opening"];
    let mut site = Site::new((28 * METRE, 32 * METRE), pool, &shown(&kinds));
    let pieces = [
        ("barrier-stretch", random.between(1, 3)),
        ("gate", random.between(1, 2)),
        ("barrier-opening", random.between(0, 2)),
    ];
    for (kind, count) in pieces {
        for number in 0..count {
            let mut thing = Thing::new(kind, format!("{kind}-{number}"), random.below(2));
            let (x, y) = (4 + 5 * number, 6 + 8 * random.between(0, 2));
            let place = |x: i64| Point {
                x: x * METRE,
                y: y * METRE,
            };
            thing = thing.drawn("line", Shape::Line(vec![place(x), place(x + 1)]));
            if kind != "barrier-opening" {
                thing = thing.said("gap-below", changing(random, 0, 4));
            }
            if kind == "barrier-stretch" {
                thing = thing.said("height-outside", changing(random, 9, 22));
            } else {
                let width = tenths(random, 1, 14);
                thing = thing.said("width", Fact::Length(width, width));
            }
            site.things.push(thing);
        }
    }
    site
}

/// A fence along three sides of the lot, open to the street, with a house in front of the pool and perhaps a shed
/// beside it.
pub fn draw_way(random: &mut Random) -> Site {
    let at = (tenths(random, 60, 100), tenths(random, 180, 220));
    let pool = pool(random, at);
    let kinds = [
        "barrier-stretch",
        "building",
        "lifting-machine",
        "barrier-opening",
    ];
    let mut site = Site::new((22 * METRE, 32 * METRE), pool, &shown(&kinds));
    let corner = |x: i64, y: i64| Point {
        x: x * METRE,
        y: y * METRE,
    };
    let source = random.below(2);
    let fence = Thing::new("barrier-stretch", "fence".to_owned(), source);
    let line = vec![corner(1, 1), corner(1, 31), corner(21, 31), corner(21, 1)];
    site.things.push(fence.drawn("line", Shape::Line(line)));
    let (from, wide) = (tenths(random, 15, 80), tenths(random, 60, 100));
    let house = rectangle(
        (from, tenths(random, 40, 60)),
        (wide, tenths(random, 50, 80)),
    );
    let dwelling = |id: &str, source| {
        let building = Thing::new("building", id.to_owned(), source);
        building.said("use", Fact::Word(vec!["dwelling"]))
    };
    site.things
        .push(dwelling("house", source).drawn("wall", house));
    if random.chance(70) {
        let size = (tenths(random, 5, 20), tenths(random, 5, 30));
        let at = (from + wide + tenths(random, 5, 20), tenths(random, 30, 110));
        let shed = dwelling("shed", random.below(2));
        site.things.push(shed.drawn("wall", rectangle(at, size)));
    }
    let width = tenths(random, 10, 30);
    let machine = Thing::new("lifting-machine", "crane".to_owned(), random.below(2));
    site.things
        .push(machine.said("width", Fact::Length(width, width)));
    site
}

/// A pool, a tree or two beside it and a well or two.
pub fn draw_bands(random: &mut Random) -> Site {
    let pool = pool(random, (10 * METRE, 12 * METRE));
    let mut site = Site::new((28 * METRE, 32 * METRE), pool, &shown(&["tree", "well"]));
    for (kind, outline) in [("tree", "stem"), ("well", "casing")] {
        for number in 0..random.between(1, 2) {
            let place = Point {
                x: random.between(6, 18) * METRE,
                y: random.between(8, 19) * METRE,
            };
            let thing = Thing::new(kind, format!("{kind}-{number}"), random.below(2));
            let thing = thing.drawn(outline, Shape::Spot(place));
            let thick = random.between(2, 8) * METRE / 20;
            site.things.push(match kind {
                "tree" => thing.said("stem-diameter", Fact::Length(thick, thick)),
                _ => thing,
            });
        }
    }
    site
}

fn ends(thing: &Thing, fact: &str) -> (Real, Real) {
    let (least, most) = thing.along(fact);
    (Real::whole(least.into()), Real::whole(most.into()))
}

fn pieces(thing: &Thing, fact: &str) -> Got {
    let (least, most) = ends(thing, fact);
    Got::Pieces(least, most)
}

/// Combines some facts of all things of some kinds, once with the least of each and once with the greatest.
fn over(world: &Site, facts: &[(&str, &str)], fold: Fold) -> Found {
    let all = facts.iter().flat_map(|(kind, fact)| {
        let things = world.all(kind);
        things.map(|thing| ends(thing, fact)).collect::<Vec<_>>()
    });
    let both = all.map(Some).reduce(|one, other| {
        let ((least, most), (low, high)) = (one?, other?);
        Some((fold(least, low)?, fold(most, high)?))
    });
    match both {
        Some(Some((least, most))) => Ok(Got::Pieces(least, most)),
        Some(None) => Err(Undecided::Tie),
        None => Err(Undecided::NotKnown),
    }
}

fn apart(one: &Shape, other: &Shape) -> Real {
    geometry::nearest(&drawn(one), &drawn(other)).0
}

/// The way in has to pass every row of houses from the left fence to the right fence, so the row whose widest gap is
/// narrowest decides. Not worked out here if a row that ends at the rear might matter.
fn way_in(world: &Site) -> Result<Real, Undecided> {
    let fences: Vec<&Thing> = world.all("barrier-stretch").collect();
    let [fence] = fences[..] else {
        return Err(Undecided::NotKnown);
    };
    let line = fence.shape("line").corners();
    let [left, rear, right] = [0, 1, 2].map(|side| Shape::Line(line[side..side + 2].to_vec()));
    let houses: Vec<&Shape> = world.all("building").map(|one| one.shape("wall")).collect();
    let mut rows = vec![vec![]];
    for (at, house) in houses.iter().enumerate() {
        rows.push(vec![*house]);
        let others = houses.iter().enumerate().filter(|(other, _)| *other != at);
        rows.extend(others.map(|(_, other)| vec![*house, *other]));
    }
    let mut narrowest: Option<Real> = None;
    for row in rows {
        let stops: Vec<&Shape> = [&left].into_iter().chain(row).chain([&right]).collect();
        let mut widest = Real::whole(0);
        for pair in stops.windows(2) {
            widest = widest
                .greater(apart(pair[0], pair[1]))
                .ok_or(Undecided::Tie)?;
        }
        narrowest = Some(match narrowest {
            Some(so_far) => so_far.lesser(widest).ok_or(Undecided::Tie)?,
            None => widest,
        });
    }
    let narrowest = narrowest.ok_or(Undecided::NotKnown)?;
    let water = world.pool().shape("water");
    let behind = |house: &&Shape| {
        let far = |shape: &Shape| apart(house, shape).floor() > narrowest.floor() + 2;
        let front = house.corners().iter().map(|at| at.y).max();
        let pool = water.corners().iter().map(|at| at.y).min();
        far(&rear) && front < pool
    };
    match houses.iter().all(behind) && apart(water, &rear).floor() > 0 {
        true => Ok(narrowest),
        false => Err(Undecided::NotKnown),
    }
}

fn room_beside(world: &Site) -> Found {
    let water = world.pool().shape("water");
    let walls = world.all("building").map(|one| one.shape("wall"));
    let lines = world.all("barrier-stretch").map(|one| one.shape("line"));
    let mut least: Option<Real> = None;
    for shape in walls.chain(lines) {
        let far = apart(water, shape);
        least = Some(match least {
            Some(so_far) => so_far.lesser(far).ok_or(Undecided::Tie)?,
            None => far,
        });
    }
    let mut machines = world.all("lifting-machine");
    let width = machines.next().ok_or(Undecided::NotKnown)?.length("width");
    let least = least.ok_or(Undecided::NotKnown)?;
    Ok(Got::One(least.less(Real::whole(width.into()))))
}

/// How much of the water lies within twelve times the stem's diameter of a tree.
fn over_roots(world: &Site, tree: usize) -> Found {
    let tree = &world.things[tree];
    let reach = 12 * tree.length("stem-diameter");
    let stem = tree.shape("stem");
    let water = world.pool().shape("water");
    if apart(stem, water).floor() > reach.into() {
        return Ok(Got::One(Real::whole(0)));
    }
    let within = in_disc(&all(water.corners()), p(stem.corners()[0]), reach as f64);
    Ok(Got::One(Real::about(within, FINE)))
}

fn wells_near(world: &Site) -> Found {
    let water = world.pool().shape("water");
    let reach = Real::whole((4 * world.pool().length("depth")).into());
    let mut count = 0;
    for well in world.all("well") {
        let order = apart(well.shape("casing"), water).compared(reach);
        count += i128::from(order.ok_or(Undecided::Tie)?.is_le());
    }
    Ok(Got::One(Real::whole(count * 1_000_000_000)))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The worked example of `docs/measures/heights.md`: 1.5 m on the left of a house, and 5 m on its right, which a
    /// shed of 1.2 m divides into 2 m and 1.8 m.
    #[test]
    fn the_way_in_is_the_widest_at_its_narrowest() {
        let mut site = Site::new(
            (22 * METRE, 32 * METRE),
            Thing::new("pool", "pool".to_owned(), 0).drawn(
                "water",
                rectangle((8 * METRE, 20 * METRE), (4 * METRE, 3 * METRE)),
            ),
            &[],
        );
        let corner = |x: i64, y: i64| Point {
            x: x * METRE,
            y: y * METRE,
        };
        let line = vec![corner(1, 1), corner(1, 31), corner(21, 31), corner(21, 1)];
        let wall = |id: &str, from: i64, wide: i64| {
            let tenth = METRE / 10;
            let shape = rectangle((from * tenth, 5 * METRE), (wide * tenth, 4 * METRE));
            Thing::new("building", id.to_owned(), 0).drawn("wall", shape)
        };
        site.things.push(
            Thing::new("barrier-stretch", "fence".to_owned(), 0).drawn("line", Shape::Line(line)),
        );
        site.things.push(wall("house", 25, 135));
        assert_eq!(way_in(&site), Ok(Real::whole((5 * METRE).into())));
        site.things.push(wall("shed", 180, 12));
        assert_eq!(way_in(&site), Ok(Real::whole((2 * METRE).into())));
    }
}
