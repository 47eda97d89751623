//! Land on one side of a line, beside it, and at a corner: by hand, and against worlds drawn at random.

use crate::measure::area::clip::Keep;
use crate::measure::area::region::Fit;
use crate::measure::figure::random::Dice;
use crate::measure::*;
use crate::plan::{Figure, Form, Point};

const M: i64 = 1_000_000_000;

fn at(x: f64, y: f64) -> Point {
    let whole = |metres: f64| (metres * M as f64).round() as i64;
    Point {
        x: whole(x),
        y: whole(y),
    }
}

fn spot(p: Point) -> Figure {
    Figure::new(vec![Form::Point(p)], 0, Some(0))
}

fn ring(points: &[Point]) -> Figure {
    Figure::new(vec![Form::Ring(points.to_vec())], 0, Some(0))
}

fn patch(land: Land, by: i64) -> Region {
    let tolerance = (by as f64 * land.sway).ceil() as i64 + ROUNDED;
    Region::Patch(Patch {
        figure: ring(&land.ring),
        edge: Some(land.edge),
        wider: (0, 0),
        tolerance,
        sure: true,
    })
}

/// Whether a place is surely in or surely out of a region; `None` where neither is sure.
fn surely_in(region: &Region, p: Point) -> Option<bool> {
    let none = |fit| region.parts(&spot(p), Keep::Within, fit).is_empty();
    match (none(Fit::Outer), none(Fit::Inner)) {
        (true, true) => Some(false),
        (false, false) => Some(true),
        (true, false) => panic!("surely in, and surely not"),
        (false, true) => None,
    }
}

/// A rear wall of 10 m, a place 6 m behind it and 5 m past its end: in the rear yard, but not beside the wall.
#[test]
fn a_wall_is_extended_or_not() {
    let wall = [at(5.0, 20.0), at(15.0, 20.0)];
    let place = at(20.0, 26.0);
    let land = beyond(&wall, Hand::Left, &spot(place)).unwrap();
    assert!(
        (land.sway - 2.0).abs() < 1e-9,
        "5 m past 10 m: once and twice a half"
    );
    assert_eq!(surely_in(&patch(land, 0), place), Some(true));
    let land = beyond(&wall, Hand::Right, &spot(place)).unwrap();
    assert_eq!(surely_in(&patch(land, 0), place), Some(false));
    let strip = beside(&wall, Hand::Left, &spot(place)).unwrap();
    assert_eq!(surely_in(&patch(strip, 0), place), Some(false));
    let place = at(14.0, 26.0);
    let strip = beside(&wall, Hand::Left, &spot(place)).unwrap();
    assert_eq!(surely_in(&patch(strip, 0), place), Some(true));
    let house = [at(5.0, 10.0), at(15.0, 10.0), at(15.0, 20.0), at(5.0, 20.0)];
    assert_eq!(outward_of(&wall, &house), Some(Hand::Left));
    assert_eq!(hand_of(&wall, &spot(place)), Some(Hand::Left));
    let bent = [at(0.0, 0.0), at(5.0, 0.0), at(5.0, 5.0), at(0.0, 5.0)];
    assert_eq!(
        beyond(&bent, Hand::Left, &spot(place)),
        None,
        "its ends run against each other"
    );
}

fn triangle(one: &[Point], other: &[Point], by: i64, legs: i64, towards: Point) -> Triangle {
    let uncertain = |line| UncertainLine {
        line,
        tolerance: by,
    };
    match corner(uncertain(one), uncertain(other), legs, towards) {
        Corner::Triangle(triangle) => triangle,
        other => panic!("{other:?}"),
    }
}

/// Reading PA: 75 ft along the centrelines of crossing streets; the triangle lies in the lot's quarter.
/// Dubuque IA: 10 ft along the lot lines from their corner, half of 10 times 10 square feet.
#[test]
fn sight_triangles_as_ordinances_draw_them() {
    const FT: i64 = 304_800_000;
    let street = [at(-60.0, 0.0), at(60.0, 0.0)];
    let avenue = [at(0.0, -60.0), at(0.0, 60.0)];
    let made = triangle(&street, &avenue, 0, 75 * FT, at(30.0, 30.0));
    let leg = 75 * FT;
    assert_eq!(
        made.ring,
        [
            Point { x: 0, y: 0 },
            Point { x: leg, y: 0 },
            Point { x: 0, y: leg }
        ]
    );
    assert!(made.sure);
    let front = [at(8.0, 0.0), at(30.0, 0.0)];
    let flank = [at(0.0, 40.0), at(0.0, 8.0)];
    let made = triangle(&front, &flank, 0, 10 * M, at(15.0, 20.0));
    assert_eq!(
        made.ring[0],
        Point { x: 0, y: 0 },
        "a rounded corner is made square first"
    );
    let made = triangle(
        &[at(0.0, 0.0), at(30.0, 0.0)],
        &[at(0.0, 40.0), at(0.0, 0.0)],
        0,
        10 * FT,
        at(15.0, 20.0),
    );
    assert_eq!(area2(&made.ring), i128::from(10 * FT).pow(2));
    let far = UncertainLine {
        line: &[at(20.0, 0.0), at(30.0, 0.0)],
        tolerance: 0,
    };
    assert_eq!(
        corner(
            far,
            UncertainLine {
                line: &flank,
                tolerance: 0,
            },
            10 * M,
            at(15.0, 20.0)
        ),
        Corner::None
    );
}

/// Crossing lines with ends good to 0.1 m are off by 0.42 m at 30 degrees (found from random worlds).
#[test]
fn a_sharp_crossing_is_worse_than_its_lines() {
    let one = [at(0.0, 0.0), at(40.0, 0.0)];
    let other = [at(0.0, 0.0), at(34.641, 20.0)];
    let made = triangle(&one, &other, M / 10, M, at(20.0, 5.0));
    assert!(
        (420_000_000..700_000_000).contains(&made.tolerance),
        "{}",
        made.tolerance
    );
}

/// A place moved by no more than `by` in any direction.
fn displaced(dice: &mut Dice, p: Point, by: i64) -> Point {
    loop {
        let (x, y) = (dice.from(-by, by), dice.from(-by, by));
        if x * x / 1_000_000 + y * y / 1_000_000 <= by * by / 1_000_000 {
            return Point {
                x: p.x + x,
                y: p.y + y,
            };
        }
    }
}

fn left_of(a: Point, b: Point, p: Point) -> f64 {
    let (x, y) = ((b.x - a.x) as f64, (b.y - a.y) as f64);
    x * (p.y - a.y) as f64 - y * (p.x - a.x) as f64
}

#[test]
fn land_beyond_extended_lines_is_right_in_every_world() {
    let mut dice = Dice::new(7);
    let mut told_of = [0, 0, 0];
    for _ in 0..2_000 {
        let (by, near) = (dice.from(1_000, 400_000_000), dice.point(30 * M));
        let (a, b) = (dice.point(20 * M), dice.point(20 * M));
        let length = left_of(a, b, a) + libm::hypot((b.x - a.x) as f64, (b.y - a.y) as f64);
        let Some(land) = beyond(&[a, b], Hand::Left, &spot(near)).filter(|_| length > 3e9) else {
            continue;
        };
        let region = patch(land, by);
        let (ta, tb) = (displaced(&mut dice, a, by), displaced(&mut dice, b, by));
        let truth = left_of(ta, tb, near) > 0.0;
        let found = surely_in(&region, near);
        assert!(
            found.is_none_or(|found| found == truth),
            "{a:?} {b:?} {near:?}"
        );
        let beyond_it = Region::Not(Box::new(region));
        assert_eq!(surely_in(&beyond_it, near), found.map(|found| !found));
        told_of[found.map_or(2, usize::from)] += 1;
    }
    assert!(told_of.iter().all(|n| *n > 20), "{told_of:?}");
}

#[test]
fn land_beside_a_wall_is_right_in_every_world() {
    let mut dice = Dice::new(8);
    let mut told_of = [0, 0, 0];
    for _ in 0..4_000 {
        let (by, near) = (dice.from(1_000, 300_000_000), dice.point(12 * M));
        let (a, b) = (dice.point(10 * M), dice.point(10 * M));
        if libm::hypot((b.x - a.x) as f64, (b.y - a.y) as f64) < 3e9 {
            continue;
        }
        let region = patch(beside(&[a, b], Hand::Left, &spot(near)).unwrap(), by);
        let (ta, tb) = (displaced(&mut dice, a, by), displaced(&mut dice, b, by));
        let along = |p: Point| {
            (tb.x - ta.x) as f64 * (p.x - ta.x) as f64 + (tb.y - ta.y) as f64 * (p.y - ta.y) as f64
        };
        let truth = left_of(ta, tb, near) > 0.0 && (0.0..=along(tb)).contains(&along(near));
        let found = surely_in(&region, near);
        assert!(
            found.is_none_or(|found| found == truth),
            "{a:?} {b:?} {near:?} {by}"
        );
        told_of[found.map_or(2, usize::from)] += 1;
    }
    assert!(told_of.iter().all(|n| *n > 100), "{told_of:?}");
}

/// The corner of two lines through pairs of points, by Cramer's rule, and the ends of the legs.
fn true_triangle(one: [Point; 2], other: [Point; 2], legs: f64) -> [(f64, f64); 3] {
    let line = |[p, q]: [Point; 2]| {
        let (x, y) = ((q.x - p.x) as f64, (q.y - p.y) as f64);
        let length = libm::hypot(x, y);
        (p.x as f64, p.y as f64, x / length, y / length)
    };
    let ((px, py, ux, uy), (qx, qy, vx, vy)) = (line(one), line(other));
    let t = ((qx - px) * vy - (qy - py) * vx) / (ux * vy - uy * vx);
    let apex = (px + t * ux, py + t * uy);
    let end = |x: f64, y: f64| (apex.0 + legs * x, apex.1 + legs * y);
    [apex, end(ux, uy), end(vx, vy)]
}

fn holds(corners: [(f64, f64); 3], p: Point) -> bool {
    let (x, y) = (p.x as f64, p.y as f64);
    let turn = |a: (f64, f64), b: (f64, f64)| (b.0 - a.0) * (y - a.1) - (b.1 - a.1) * (x - a.0);
    let [a, b, c] = corners;
    let turns = [turn(a, b), turn(b, c), turn(c, a)];
    turns.iter().all(|t| *t > 0.0) || turns.iter().all(|t| *t < 0.0)
}

#[test]
fn the_triangle_at_a_corner_is_right_in_every_world() {
    let mut dice = Dice::new(9);
    let mut told_of = [0, 0, 0];
    for _ in 0..6_000 {
        let (by, legs) = (dice.from(1_000, 200_000_000), dice.from(4 * M, 20 * M));
        let apex = dice.point(5 * M);
        let way = |dice: &mut Dice| {
            let end = dice.point(40 * M);
            let part = |share: f64| Point {
                x: apex.x + (end.x as f64 * share) as i64,
                y: apex.y + (end.y as f64 * share) as i64,
            };
            // It begins up to 2 m beyond the corner, as at a rounded one.
            let length = libm::hypot(end.x as f64, end.y as f64);
            [part(dice.from(0, 2 * M) as f64 / length), part(1.0)]
        };
        let (one, other) = (way(&mut dice), way(&mut dice));
        let uncertain = |line| UncertainLine {
            line,
            tolerance: by,
        };
        let Corner::Triangle(triangle) = corner(uncertain(&one), uncertain(&other), legs, apex)
        else {
            continue;
        };
        if !triangle.sure {
            continue;
        }
        let region = Region::of(ring(&triangle.ring), triangle.tolerance);
        let near = dice.point(12 * M);
        let moved = |dice: &mut Dice, line: [Point; 2]| line.map(|p| displaced(dice, p, by));
        let truth = true_triangle(moved(&mut dice, one), moved(&mut dice, other), legs as f64);
        let found = surely_in(&region, near);
        let truth = holds(truth, near);
        assert!(
            found.is_none_or(|found| found == truth),
            "{one:?} {other:?} {legs} {by} {near:?}"
        );
        told_of[found.map_or(2, usize::from)] += 1;
    }
    assert!(told_of.iter().all(|n| *n > 100), "{told_of:?}");
}

/// Combined zones: the answer at a place agrees with the answers of the parts, and the cut parts add up to the whole.
#[test]
fn combined_zones_agree_with_their_parts() {
    let mut dice = Dice::new(10);
    for _ in 0..2_000 {
        let (a, b) = (dice.ring(1_000_000), dice.ring(1_000_000));
        let tolerance = dice.from(0, 200_000);
        let shift = displaced(&mut dice, Point { x: 0, y: 0 }, tolerance);
        let truly = |outline: &[Point], p: Point| {
            let moved = Point {
                x: p.x - shift.x,
                y: p.y - shift.y,
            };
            side(outline, moved) == Side::Inside
        };
        let (one, other) = (
            Region::of(ring(&a), tolerance),
            Region::of(ring(&b), tolerance),
        );
        let p = dice.point(1_000_000);
        let (in_a, in_b) = (truly(&a, p), truly(&b, p));
        let both = Region::All(vec![one.clone(), other.clone()]);
        let either = Region::Any(vec![one.clone(), other]);
        for (region, truth) in [
            (both, in_a && in_b),
            (either, in_a || in_b),
            (Region::Not(Box::new(one)), !in_a),
        ] {
            let found = surely_in(&region, p);
            assert!(found.is_none_or(|found| found == truth), "{region:?} {p:?}");
            let turned = Region::Not(Box::new(region));
            assert_eq!(surely_in(&turned, p), found.map(|found| !found));
        }
    }
}
