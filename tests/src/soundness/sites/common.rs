//! Areas that overlap: easement strips across the lot, with the pool, its equipment and a fence in them or beside them.

use rules_core::plan::Point;
use rules_core::quantity::Dimension;

use super::asked::{Got, Measure};
use super::site::{Fact, Site, Thing, drawn, rectangle};
use super::{pool, shown};
use crate::measured::site::Shape;
use crate::measured::truth::{P, against_the_clock, all, between, cut_to, p, sides, twice_area};
use crate::soundness::cover::{self, FINE};
use crate::soundness::evaluate::Undecided;
use crate::soundness::number::Real;
use crate::soundness::random::Random;
use crate::soundness::words::METRE;
use crate::soundness::world::Drawn;

type Found = Result<Got, Undecided>;

/// The measures asked for.
pub const MEASURES: &[Measure] = &[
    Measure {
        each: None,
        within: None,
        value: "area: {of: {each: pool.water}, in: easement.region}",
        dimension: Dimension::Area,
        of: |world, _| shared(&[world.pool().shape("water")], &strips(world)).map(Got::One),
        exact: true,
    },
    Measure {
        each: None,
        within: None,
        value: "area: {of: {each: pool.water}, in: easement.region, share-of: {each: pool.water}}",
        dimension: Dimension::Number,
        of: |world, _| share_of_the_water(world),
        exact: true,
    },
    Measure {
        each: None,
        within: None,
        value: "area: {of: {each: pool.water}, in: {not: easement.region}}",
        dimension: Dimension::Area,
        of: |world, _| left_out(world.pool().shape("water"), &strips(world)).map(Got::One),
        exact: true,
    },
    Measure {
        each: None,
        within: None,
        value: "area: {of: equipment.region, in: easement.region}",
        dimension: Dimension::Area,
        of: |world, _| shared(&regions(world, "equipment"), &strips(world)).map(Got::One),
        exact: true,
    },
    Measure {
        each: Some("equipment"),
        within: None,
        value: "area: {of: equipment.region, in: easement.region}",
        dimension: Dimension::Area,
        of: |world, thing| shared(&[region(world, thing)], &strips(world)).map(Got::One),
        exact: true,
    },
    Measure {
        each: Some("equipment"),
        within: Some("easement.region"),
        value: "fact: equipment.height",
        dimension: Dimension::Length,
        of: |world, thing| match has_part_in(region(world, thing), &strips(world))? {
            true => Ok(height(world, thing)),
            false => Ok(Got::Not),
        },
        exact: true,
    },
    Measure {
        each: Some("equipment"),
        within: Some("{not: easement.region}"),
        value: "fact: equipment.height",
        dimension: Dimension::Length,
        of: |world, thing| match has_part_out(region(world, thing), &strips(world))? {
            true => Ok(height(world, thing)),
            false => Ok(Got::Not),
        },
        exact: true,
    },
    Measure {
        each: None,
        within: None,
        value: "count: {kind: equipment, in: easement.region}",
        dimension: Dimension::Number,
        of: |world, _| how_many_have_part(world),
        exact: true,
    },
    Measure {
        each: None,
        within: None,
        value: "length: {of: barrier-stretch.line, in: easement.region}",
        dimension: Dimension::Length,
        of: |world, _| length_in(world),
        exact: true,
    },
    Measure {
        each: None,
        within: None,
        value: "distance: {from: pool.water, to: {kind: equipment, outline: region, in: easement.region}}",
        dimension: Dimension::Length,
        of: |world, _| to_what_lies_in(world),
        exact: true,
    },
];

/// A pool, one or two strips, one or two pieces of equipment and a fence, on a grid, so that they often just touch.
pub fn draw(random: &mut Random) -> Site {
    let at = (
        random.between(8, 14) * METRE,
        random.between(10, 16) * METRE,
    );
    let mut pool = pool(random, at);
    pool.outlines = vec![("water", placed(random, at, (4, 3)))];
    let kinds = ["easement", "equipment", "barrier-stretch"];
    let mut site = Site::new((28 * METRE, 32 * METRE), pool, &shown(&kinds));
    for (kind, count, most) in [("easement", 2, 9), ("equipment", 2, 2)] {
        for number in 0..random.between(1, count) {
            let size = (random.between(1, most), random.between(1, most));
            let at = (
                at.0 + random.between(-size.0 - 1, 5) * METRE,
                at.1 + random.between(-size.1 - 1, 4) * METRE,
            );
            let thing = Thing::new(kind, format!("{kind}-{number}"), random.below(2));
            let thing = thing.drawn("region", placed(random, at, size));
            site.things.push(match kind {
                "equipment" => {
                    let high = random.between(1, 30) * METRE / 10;
                    thing.said("height", Fact::Length(high, high))
                }
                _ => thing,
            });
        }
    }
    let mut place = || Point {
        x: random.between(4, 20) * METRE,
        y: random.between(6, 24) * METRE,
    };
    let line = Shape::Line(vec![place(), place()]);
    let fence = Thing::new("barrier-stretch", "fence".to_owned(), random.below(2));
    if line.corners()[0] != line.corners()[1] {
        site.things.push(fence.drawn("line", line));
    }
    site
}

/// A rectangle in whole metres, along the axes or turned by the angle of a 3-4-5 triangle.
fn placed(random: &mut Random, at: (i64, i64), size: (i64, i64)) -> Shape {
    let Shape::Area(mut ring) = rectangle((0, 0), (size.0 * METRE, size.1 * METRE)) else {
        return rectangle(at, size);
    };
    let (along, across) = *random.pick(&[(5, 0), (5, 0), (3, 4), (4, -3)]);
    for corner in &mut ring {
        let (x, y) = (corner.x / 5, corner.y / 5);
        corner.x = at.0 + along * x - across * y;
        corner.y = at.1 + across * x + along * y;
    }
    Shape::Area(ring)
}

fn regions<'s>(world: &'s Site, kind: &'s str) -> Vec<&'s Shape> {
    world.all(kind).map(|thing| thing.shape("region")).collect()
}

fn strips(world: &Site) -> Vec<&Shape> {
    regions(world, "easement")
}

fn region(world: &Site, thing: usize) -> &Shape {
    world.things[thing].shape("region")
}

fn height(world: &Site, thing: usize) -> Got {
    Got::One(Real::whole(world.things[thing].length("height").into()))
}

fn turn(a: Point, b: Point, c: Point) -> i128 {
    let way = |to: Point| (i128::from(to.x - a.x), i128::from(to.y - a.y));
    let ((x, y), (u, v)) = (way(b), way(c));
    x * v - y * u
}

/// The four corners of an area, anticlockwise; a concave one is not worked out here.
pub(super) fn convex(shape: &Shape) -> Result<Vec<Point>, Undecided> {
    let mut ring = shape.corners().to_vec();
    let turns = |ring: &[Point]| -> Vec<i128> {
        let corner = |at: usize| ring[at % ring.len()];
        let each = 0..ring.len();
        each.map(|at| turn(corner(at), corner(at + 1), corner(at + 2)))
            .collect()
    };
    if turns(&ring).iter().all(|turn| *turn < 0) {
        ring.reverse();
    }
    match ring.len() == 4 && turns(&ring).iter().all(|turn| *turn > 0) {
        true => Ok(ring),
        false => Err(Undecided::NotKnown),
    }
}

/// Whether two areas do more than touch: no side of either has all of the other beyond it.
fn overlap(one: &Shape, other: &Shape) -> Result<bool, Undecided> {
    let (one, other) = (convex(one)?, convex(other)?);
    let parts = |ring: &[Point], from: &[Point]| {
        let next = ring.iter().cycle().skip(1);
        let mut sides = ring.iter().zip(next);
        sides.any(|(a, b)| from.iter().all(|corner| turn(*a, *b, *corner) <= 0))
    };
    Ok(!parts(&one, &other) && !parts(&other, &one))
}

fn has_part_in(of: &Shape, strips: &[&Shape]) -> Result<bool, Undecided> {
    let mut any = false;
    for strip in strips {
        any |= overlap(of, strip)?;
    }
    Ok(any)
}

fn has_part_out(of: &Shape, strips: &[&Shape]) -> Result<bool, Undecided> {
    if !has_part_in(of, strips)? {
        return Ok(true);
    }
    for strip in strips {
        let strip = convex(strip)?;
        let next = strip.iter().cycle().skip(1);
        let mut sides = strip.iter().zip(next);
        if sides.all(|(a, b)| of.corners().iter().all(|at| turn(*a, *b, *at) >= 0)) {
            return Ok(false);
        }
    }
    let left = left_out(of, strips)?;
    match left.approximately() > FINE && left.floor() > 0 {
        true => Ok(true),
        false => Err(Undecided::Tie),
    }
}

/// The total area of some shapes inside the strips.
fn shared(of: &[&Shape], strips: &[&Shape]) -> Result<Real, Undecided> {
    let mut any = false;
    for one in of {
        any |= has_part_in(one, strips)?;
    }
    match any {
        true => cut(of, strips, true),
        false => Ok(Real::whole(0)),
    }
}

/// The area of a shape outside all of them.
fn left_out(of: &Shape, strips: &[&Shape]) -> Result<Real, Undecided> {
    has_part_in(of, strips)?;
    cut(&[of], strips, false)
}

fn cut(of: &[&Shape], strips: &[&Shape], inside: bool) -> Result<Real, Undecided> {
    let all = |shapes: &[&Shape]| -> Vec<Drawn> { shapes.iter().map(|one| drawn(one)).collect() };
    let (of, strips) = (all(of), all(strips));
    let (of, strips): (Vec<_>, Vec<_>) = (of.iter().collect(), strips.iter().collect());
    cover::area(&of, Some((&strips, inside))).ok_or(Undecided::NotKnown)
}

fn share_of_the_water(world: &Site) -> Found {
    let water = world.pool().shape("water");
    let shared = shared(&[water], &strips(world))?;
    let whole = Real::half(twice(&convex(water)?));
    shared.over(whole).map(Got::One).ok_or(Undecided::Tie)
}

/// Twice the area of an anticlockwise ring.
fn twice(ring: &[Point]) -> i128 {
    let rest = ring.windows(2).skip(1);
    rest.map(|side| turn(ring[0], side[0], side[1])).sum()
}

fn how_many_have_part(world: &Site) -> Found {
    let mut count = 0;
    for one in regions(world, "equipment") {
        count += i128::from(has_part_in(one, &strips(world))?);
    }
    Ok(Got::One(Real::whole(count * 1_000_000_000)))
}

/// How much of the fence lies in the strips. A fence along an edge is neither in nor out, so the two ends are then far
/// apart.
fn length_in(world: &Site) -> Found {
    let mut rings = Vec::new();
    for strip in strips(world) {
        rings.push(all(&convex(strip)?));
    }
    let fences = world.all("barrier-stretch");
    let fences: Vec<(P, P)> = fences
        .map(|fence| fence.shape("line").corners())
        .map(|line| (p(line[0]), p(line[1])))
        .collect();
    let in_all = |wider: f64| -> f64 {
        fences
            .iter()
            .map(|line| covered(*line, &rings, wider))
            .sum()
    };
    let (least, most) = (in_all(-0.001), in_all(0.001));
    Ok(Got::One(Real::about(
        least.midpoint(most),
        (most - least) / 2.0 + 0.01,
    )))
}

/// How much of a line lies in any of some convex rings, each widened by `wider`.
fn covered((a, b): (P, P), rings: &[Vec<P>], wider: f64) -> f64 {
    let (x, y) = (b.0 - a.0, b.1 - a.1);
    let mut spans: Vec<(f64, f64)> = Vec::new();
    for ring in rings {
        let (mut from, mut to) = (0.0_f64, 1.0_f64);
        for (c, d) in sides(ring) {
            let (u, v) = (d.0 - c.0, d.1 - c.1);
            // How far inside the side it begins, and how much deeper it goes.
            let start = (u * (a.1 - c.1) - v * (a.0 - c.0)) / libm::hypot(u, v) + wider;
            let deeper = (u * y - v * x) / libm::hypot(u, v);
            match deeper {
                0.0 if start < 0.0 => to = -1.0,
                0.0 => {}
                in_ if in_ > 0.0 => from = from.max(-start / deeper),
                _ => to = to.min(-start / deeper),
            }
        }
        if from < to {
            spans.push((from, to));
        }
    }
    spans.sort_by(|one, other| one.0.total_cmp(&other.0));
    let (mut sum, mut reached) = (0.0, 0.0_f64);
    for (from, to) in spans {
        sum += (to - from.max(reached)).max(0.0);
        reached = reached.max(to);
    }
    sum * libm::hypot(x, y)
}

/// The distance from the water to the nearest part of equipment in a strip; not worked out here if there is none.
fn to_what_lies_in(world: &Site) -> Found {
    let water = world.pool().shape("water");
    let ring = all(&convex(water)?);
    let mut nearest = f64::INFINITY;
    for one in regions(world, "equipment") {
        for strip in strips(world) {
            if !overlap(one, strip)? {
                continue;
            }
            let part = cut_to(&all(&convex(one)?), &all(&convex(strip)?));
            let common = twice_area(&cut_to(&part, &ring)).abs();
            if twice_area(&part).abs() < 2.0 * FINE || (0.0 < common && common < 2.0 * FINE) {
                return Err(Undecided::Tie);
            }
            nearest = nearest.min(match common > 0.0 {
                true => 0.0,
                false => between(&sides(&part), &sides(&against_the_clock(ring.clone()))),
            });
        }
    }
    match nearest {
        0.0 => Ok(Got::One(Real::whole(0))),
        far if far.is_finite() => Ok(Got::One(Real::about(far, 1.0))),
        _ => Err(Undecided::NotKnown),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(x: i64, y: i64, size: (i64, i64)) -> Shape {
        rectangle((x * METRE, y * METRE), (size.0 * METRE, size.1 * METRE))
    }

    #[test]
    fn a_touch_is_not_shared() {
        let square = at(0, 0, (10, 10));
        for (other, shares) in [
            (at(10, 0, (2, 2)), false),
            (at(10, 10, (2, 2)), false),
            (at(9, 9, (2, 2)), true),
            (at(4, 4, (2, 2)), true),
        ] {
            assert_eq!(overlap(&square, &other), Ok(shares));
            assert_eq!(overlap(&other, &square), Ok(shares));
        }
        assert_eq!(has_part_out(&at(8, 0, (2, 2)), &[&square]), Ok(false));
        assert_eq!(has_part_out(&at(9, 0, (2, 2)), &[&square]), Ok(true));
    }

    /// Two overlapping squares cover all of a line of 6 m, and half of one of 12 m.
    #[test]
    fn what_two_strips_cover_of_a_line_counts_once() {
        let rings = [
            all(&[]),
            all(at(0, 0, (4, 4)).corners()),
            all(at(2, 0, (4, 4)).corners()),
        ];
        let line = |x: f64| ((0.0, 2e9), (x * 1e9, 2e9));
        assert!((covered(line(6.0), &rings[1..], 0.0) - 6e9).abs() < 1e-3);
        assert!((covered(line(12.0), &rings[1..], 0.0) - 6e9).abs() < 1e-3);
    }
}
