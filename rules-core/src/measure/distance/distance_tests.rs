//! Distances against a plain search of all pairs in fractions, which shares nothing with the code under test.

use crate::measure::distance::nearest::Nearest;
use crate::measure::distance::search::{Strategy, by};
use crate::measure::distance::{from_point, in_common};
use crate::measure::figure::chain::Chain;
use crate::measure::figure::random::{Dice, moved};
use crate::measure::*;
use crate::plan::figure::{Figure, Form, Point};

/// A squared distance as a fraction.
type Fraction = (i128, i128);

fn less(a: Fraction, b: Fraction) -> bool {
    a.0 * b.1 < b.0 * a.1
}

fn pairs(form: &Form) -> Vec<(Point, Point)> {
    match form {
        Form::Point(p) => vec![(*p, *p)],
        Form::Path(points) => points.windows(2).map(|w| (w[0], w[1])).collect(),
        Form::Ring(points) => (0..points.len())
            .map(|i| (points[i], points[(i + 1) % points.len()]))
            .collect(),
    }
}

fn to_segment(p: Point, (a, b): (Point, Point)) -> Fraction {
    let (dx, dy) = (i128::from(b.x - a.x), i128::from(b.y - a.y));
    let (px, py) = (i128::from(p.x - a.x), i128::from(p.y - a.y));
    let (along, squared) = (px * dx + py * dy, dx * dx + dy * dy);
    if squared == 0 || along <= 0 {
        return (px * px + py * py, 1);
    }
    if along >= squared {
        return ((px - dx) * (px - dx) + (py - dy) * (py - dy), 1);
    }
    // |p|² − along²/squared, over one denominator.
    ((px * px + py * py) * squared - along * along, squared)
}

/// Proper crossing by solving for both parameters as fractions; touching shows as a zero distance of an end.
fn cross((a, b): (Point, Point), (c, d): (Point, Point)) -> bool {
    let (ux, uy) = (i128::from(b.x - a.x), i128::from(b.y - a.y));
    let (vx, vy) = (i128::from(d.x - c.x), i128::from(d.y - c.y));
    let (wx, wy) = (i128::from(c.x - a.x), i128::from(c.y - a.y));
    let (mut det, mut s, mut t) = (ux * vy - uy * vx, wx * vy - wy * vx, wx * uy - wy * ux);
    if det < 0 {
        (det, s, t) = (-det, -s, -t);
    }
    det != 0 && (0..=det).contains(&s) && (0..=det).contains(&t)
}

/// By winding number, the other way to tell inside from outside.
fn wound(ring: &Form, p: Point) -> bool {
    let Form::Ring(_) = ring else { return false };
    let mut turns = 0;
    for (a, b) in pairs(ring) {
        let left = i128::from(b.x - a.x) * i128::from(p.y - a.y)
            - i128::from(p.x - a.x) * i128::from(b.y - a.y);
        turns += i32::from(a.y <= p.y && b.y > p.y && left > 0)
            - i32::from(a.y > p.y && b.y <= p.y && left < 0);
    }
    turns != 0
}

fn plainly(a: &Form, b: &Form) -> Fraction {
    let mut best: Fraction = (i128::from(i64::MAX), 1);
    for e in pairs(a) {
        for f in pairs(b) {
            let found = [
                to_segment(e.0, f),
                to_segment(e.1, f),
                to_segment(f.0, e),
                to_segment(f.1, e),
            ];
            for fraction in found {
                best = if less(fraction, best) { fraction } else { best };
            }
            if cross(e, f) {
                return (0, 1);
            }
        }
    }
    if wound(a, pairs(b)[0].0) || wound(b, pairs(a)[0].0) {
        (0, 1)
    } else {
        best
    }
}

fn check(a: &Form, b: &Form) -> i64 {
    let (p, q) = plainly(a, b);
    let gap = distance(a, b);
    let low = (p / q).isqrt();
    let high = low + i128::from(low * low * q != p);
    assert_eq!(
        (i128::from(gap.low), i128::from(gap.high)),
        (low, high),
        "{a:?}\n{b:?}"
    );
    // The places are on the forms, to a nanometre each, and as far apart as stated.
    for (form, place) in [(a, gap.from), (b, gap.to)] {
        assert!(
            distance(form, &Form::Point(place)).low <= 1,
            "{form:?} {place:?}"
        );
    }
    let apart = distance(&Form::Point(gap.from), &Form::Point(gap.to));
    assert!(apart.low <= gap.high + 2 && apart.high + 2 >= gap.low);
    gap.low
}

#[test]
fn distances_agree_with_a_plain_search() {
    let mut dice = Dice::new(1);
    let (mut apart, mut touching) = (0, 0);
    for round in 0..30_000 {
        let reach = [6, 30, 1000, 200_000][round % 4];
        let a = dice.form(reach);
        let shift = dice.point(reach);
        let b = moved(&dice.form(reach), |p| Point {
            x: p.x + shift.x,
            y: p.y + shift.y,
        });
        if check(&a, &b) == 0 {
            touching += 1
        } else {
            apart += 1
        }
    }
    assert!(
        apart > 3_000 && touching > 3_000,
        "{apart} apart, {touching} touching"
    );
}

/// Plain loops, runs and trees find the same distance, and the first two the same places: near the origin and 10 km away, with
/// and without grids so coarse that many places are equally near.
#[test]
fn loops_runs_and_trees_find_the_same() {
    let mut dice = Dice::new(12);
    let (mut apart, mut touching) = (0, 0);
    for round in 0..3_000 {
        let step = [1, 3, 1_000, 100_000_000][round % 4];
        let far = [0, 9_900_000_000_000][round / 4 % 2];
        let mut wander = |from: Point| {
            let mut at = from;
            let next = |_| {
                at.x += dice.from(-step, step + step / 2 + 1);
                at.y += dice.from(-step, step);
                at
            };
            (0..dice_count(round)).map(next).collect::<Vec<_>>()
        };
        let corner = |y| Point { x: far, y: far + y };
        let above = [0, 8, 60][round % 3] * step;
        let (a, b) = (wander(corner(0)), wander(corner(above)));
        let closed = round % 5 == 0;
        let [a, b] = [&a, &b].map(|points| Chain { points, closed });
        let [plain, runs, trees] = each_way(a, b);
        assert_eq!(runs, plain, "{a:?} {b:?}");
        assert_eq!(trees.span(), plain.span(), "{a:?} {b:?}");
        touching += i32::from(plain.high == 0);
        apart += i32::from(plain.high > 0);
    }
    assert!(
        apart > 800 && touching > 800,
        "{apart} apart, {touching} touching"
    );
}

fn each_way(a: Chain, b: Chain) -> [Gap; 3] {
    [Strategy::Whole, Strategy::Runs, Strategy::Trees].map(|way| {
        let mut nearest = Nearest::new(a, b);
        by(way, &mut nearest);
        nearest.gap()
    })
}

/// Every pair of edges in order, each decided in whole numbers: the first that meet, otherwise the first of the nearest.
fn all_pairs(a: Chain, b: Chain) -> Gap {
    let pairs = || {
        a.edges()
            .flat_map(|one| b.edges().map(move |other| (one, other)))
    };
    if let Some((one, other)) = pairs().find(|(one, other)| one.meets(other)) {
        return Gap::touching(in_common(&one, &other));
    }
    let ends = pairs().flat_map(|(one, other)| {
        [
            from_point(one.b, &other),
            from_point(other.b, &one).swapped(),
        ]
    });
    ends.reduce(|best, gap| if gap.span() < best.span() { gap } else { best })
        .expect("no line is without a corner")
}

/// Lines and rings on grids of all sizes, near the origin and 10 km away: crossing, touching, running along each other, folded
/// back on themselves, with repeated corners, and apart.
#[test]
fn pairs_left_out_by_floats_are_never_the_nearest() {
    let mut dice = Dice::new(13);
    let mut seen = [0; 4];
    for round in 0..40_000 {
        // Up to 30 steps either way, at up to 80 steps from the origin; with the coarsest grid some 10 km.
        let step = [1, 2, 1_000, 1_234_567_891, 80_000_000_000][round % 5];
        let far = [0, 9_000_000_000_000 / step * step][round / 5 % 2].min(7_000_000_000_000);
        let flat = round % 7 == 0;
        let off = dice.from(0, [4, 12, 80][round % 3]);
        let mut line = |off: i64| {
            let corners = dice.from(1, [5, 20, 40][round / 3 % 3]);
            let mut at = Point {
                x: far,
                y: far - off * step,
            };
            let mut next = || {
                at.x = (at.x + dice.from(-2, 2) * step).clamp(far - 30 * step, far + 30 * step);
                let up = if flat { 0 } else { dice.from(-2, 2) };
                at.y = (at.y + up * step).clamp(far - 110 * step, far + 30 * step);
                at
            };
            (0..corners).map(|_| next()).collect::<Vec<_>>()
        };
        let (a, b) = (line(0), line(off));
        let [a, b] = [(&a, round % 2 == 0), (&b, round % 11 == 0)]
            .map(|(points, closed)| Chain { points, closed });
        let plain = all_pairs(a, b);
        let [whole, runs, trees] = each_way(a, b);
        assert_eq!(whole, plain, "{a:?} {b:?}");
        assert_eq!(runs, plain, "{a:?} {b:?}");
        assert_eq!(trees.span(), plain.span(), "{a:?} {b:?}");
        let exact = plain.low == plain.high;
        seen[usize::from(plain.high > 0) * 2 + usize::from(exact)] += 1;
    }
    let [_, touching, between, apart] = seen;
    assert!(
        touching > 5_000 && between > 5_000 && apart > 5_000,
        "{seen:?}"
    );
}

/// From 1 to 200 corners.
fn dice_count(round: usize) -> usize {
    1 + round * 7 % 200
}

#[test]
fn long_lines_against_a_plain_search() {
    let mut dice = Dice::new(2);
    for round in 0..60 {
        let mut wander = |from: Point, count| {
            let mut at = from;
            (0..count)
                .map(|_| {
                    at = Point {
                        x: at.x + dice.from(-900, 1000),
                        y: at.y + dice.from(-1000, 1000),
                    };
                    at
                })
                .collect::<Vec<_>>()
        };
        let a = Form::Path(wander(Point { x: 0, y: 0 }, 60 + round * 9));
        let b = Form::Path(wander(Point { x: 0, y: 20_000 }, 700));
        check(&a, &b);
        check(&b, &a);
    }
}

#[test]
fn whole_distances_stay_whole_at_ten_kilometres() {
    // A 3-4-5 direction: 5 units along it, then exactly 7 km at a right angle.
    let point = |x, y| Point { x, y };
    let unit = 400_000_000_000;
    let line = Form::Path(vec![point(-3 * unit, -4 * unit), point(3 * unit, 4 * unit)]);
    let off = 1_400_000_000_000;
    let there = Form::Point(point(-4 * off, 3 * off));
    let gap = distance(&line, &there);
    assert_eq!((gap.low, gap.high), (7_000_000_000_000, 7_000_000_000_000));
    assert_eq!((gap.from, gap.to), (point(0, 0), point(-4 * off, 3 * off)));
    let nearer = distance(&line, &Form::Point(point(-4 * off + 1, 3 * off)));
    assert_eq!(
        (nearer.low, nearer.high),
        (6_999_999_999_999, 7_000_000_000_000)
    );
}

#[test]
fn spreads_shorten_the_distance_but_never_below_zero() {
    let disc = |x, spread| Figure::new(vec![Form::Point(Point { x, y: 0 })], spread, None);
    let gap = figure_gap(&disc(0, 10), &disc(100, 20));
    assert_eq!((gap.low, gap.high, gap.from.x, gap.to.x), (70, 70, 10, 80));
    let gap = figure_gap(&disc(0, 90), &disc(100, 30));
    assert_eq!(
        (gap.low, gap.high, gap.from, gap.to),
        (0, 0, Point { x: 75, y: 0 }, Point { x: 75, y: 0 })
    );
}

#[test]
fn displacing_forms_changes_a_distance_by_no_more_than_that() {
    // Distance is 1-Lipschitz, which is the reason for [d − E, d + E].
    let mut dice = Dice::new(3);
    for _ in 0..5_000 {
        let (a, b) = (dice.form(1000), dice.form(3000));
        let (e1, e2) = (dice.from(0, 60), dice.from(0, 60));
        let before = distance(&a, &b);
        // At most e in x and y together: a diamond within the disc of radius e.
        let mut shaken = |form: &Form, e: i64| {
            let mut rolls: Vec<i64> = (0..64).map(|_| dice.from(-e, e)).collect();
            let mut count = 0;
            let places = std::mem::take(&mut rolls);
            let mut next = || {
                count += 1;
                places[count % places.len()]
            };
            let mut all = Vec::new();
            for p in crate::measure::figure::chain::points(form) {
                let x = next();
                let y = next().clamp(-(e - x.abs()), e - x.abs());
                all.push(Point {
                    x: p.x + x,
                    y: p.y + y,
                });
            }
            match form {
                Form::Point(_) => Form::Point(all[0]),
                Form::Path(_) => Form::Path(all),
                Form::Ring(_) => Form::Ring(all),
            }
        };
        let after = distance(&shaken(&a, e1), &shaken(&b, e2));
        assert!(after.low <= before.high + e1 + e2 && after.high + e1 + e2 >= before.low);
    }
}
