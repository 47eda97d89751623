//! The tolerance of an outline derived from another: how inaccuracy carries over.
//!
//! An outline widened with round corners is off by as much as its base. A square corner is where two sides meet, each moved
//! out in parallel. If the sides rotate, the corner moves farther than they do; and each corner of the base may be off
//! independently, so each side may rotate.

use crate::measure::distance::reach::farthest;
use crate::measure::figure::chain::{Chain, Edge};
use crate::measure::figure::exact::Vector;
use crate::measure::outline::offset::{Corners, inward};
use crate::plan::figure::{Accuracy, Figure, Form};

/// The rounding of derived places to the nanometre.
const ROUNDED: i64 = 2;

/// The tolerance of an outline `by` nanometres outside a figure; `None` where it is unknown.
pub fn outward_off(figure: &Figure, by: i64, corners: Corners) -> Accuracy {
    let off = figure.accuracy?;
    if off == 0 || corners == Corners::Round {
        return Some(off);
    }
    let rings = figure.forms.iter().map(|form| match form {
        Form::Ring(ring) => mitred_off(Chain::ring(ring), by, off),
        Form::Point(_) | Form::Path(_) => None,
    });
    rings.collect::<Option<Vec<_>>>()?.into_iter().max()
}

/// The tolerance of an outline `by` nanometres within a convex figure; `None` where it is unknown.
///
/// The true figure lies between this one narrowed and widened by its tolerance. So its inner outline lies between the inner
/// outlines of those two.
pub fn inward_off(figure: &Figure, by: i64) -> Accuracy {
    let off = figure.accuracy?;
    if off == 0 {
        return Some(0);
    }
    let less = inward(figure, by.saturating_add(off)).ok()?;
    let as_drawn = inward(figure, by).ok()?;
    let more = match by.saturating_sub(off) {
        left @ 0.. => inward(figure, left).ok()?,
        over => crate::measure::outline::offset::outward(figure, -over, Corners::Round).ok()?,
    };
    let within = farthest(&as_drawn, &less).high;
    let around = farthest(&more, &as_drawn).high;
    Some(within.max(around).saturating_add(ROUNDED))
}

/// The farthest that a square corner may move, where each corner of the ring may be off by `off`.
fn mitred_off(ring: Chain, by: i64, off: i64) -> Option<i64> {
    let edges: Vec<Edge> = ring.edges().collect();
    let next = edges.iter().cycle().skip(1);
    let corners = edges.iter().zip(next);
    let moves = corners.map(|(one, other)| corner_off(one, other, by as f64, off as f64));
    let most = moves
        .collect::<Option<Vec<_>>>()?
        .into_iter()
        .reduce(f64::max)?;
    Some((most * (1.0 + 1e-9)).ceil() as i64 + ROUNDED)
}

/// How far the corner between two sides, both moved out by `by`, may move when their three ends are each off by `off`.
fn corner_off(one: &Edge, other: &Edge, by: f64, off: f64) -> Option<f64> {
    let (one, other) = (Side::of(one, off)?, Side::of(other, off)?);
    let half = one.angle_to(&other) / 2.0;
    let turn = one.turn + other.turn;
    let turned = turned_about(half, turn, by, off);
    let met = [&one, &other].map(|side| side.strays(by, half, off));
    let met = where_lines_meet(met, 2.0 * half, turn);
    match (turned, met) {
        (Some(one), Some(two)) => Some(one.min(two)),
        (one, two) => one.or(two),
    }
}

/// A side of a ring: its direction, its length, and the angle by which it may rotate.
struct Side {
    way: (f64, f64),
    length: f64,
    turn: f64,
}

impl Side {
    /// `None` where its ends are so near each other that it may rotate by any angle.
    fn of(edge: &Edge, off: f64) -> Option<Side> {
        let (x, y) = Vector::between(edge.a, edge.b).floats();
        let length = (x * x + y * y).sqrt();
        (2.0 * off < length).then(|| Side {
            way: (x / length, y / length),
            length,
            turn: libm::asin(2.0 * off / length),
        })
    }

    /// The angle between this side and the next, whichever way it turns.
    fn angle_to(&self, next: &Side) -> f64 {
        let ((x, y), (u, v)) = (self.way, next.way);
        libm::atan2((x * v - y * u).abs(), x * u + y * v)
    }

    /// How far the moved side may be from where it was drawn, at the square corner. The corner is beyond the end of the side
    /// itself, where the side may be off by more.
    fn strays(&self, by: f64, half: f64, off: f64) -> f64 {
        let beyond = by * libm::tan(half);
        off * (1.0 + 2.0 * beyond / self.length) + by * (1.0 - libm::cos(self.turn))
    }
}

/// How far a corner may move that is at `by / cos(half)` from the base's corner, along the bisector: the bisector may get longer
/// and rotate.
fn turned_about(half: f64, turn: f64, by: f64, off: f64) -> Option<f64> {
    let widest = half + turn / 2.0;
    if widest >= std::f64::consts::FRAC_PI_2 {
        return None;
    }
    let (drawn, most) = (1.0 / libm::cos(half), 1.0 / libm::cos(widest));
    Some(off + by * (most * turn / 2.0 + most - drawn))
}

/// How far the meeting point of two lines may move, where each line passes within a distance of the old point, and their angle
/// may change by `turn`.
fn where_lines_meet([one, other]: [f64; 2], angle: f64, turn: f64) -> Option<f64> {
    let (least, most) = (angle - turn, angle + turn);
    if least <= 0.0 || most >= std::f64::consts::PI {
        return None;
    }
    let sine = libm::sin(least).min(libm::sin(most));
    let cosine = libm::cos(least).abs().max(libm::cos(most).abs());
    let across = one * one + other * other + 2.0 * one * other * cosine;
    Some(across.sqrt() / sine)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::figure::random::Dice;
    use crate::measure::outline::offset::outward;
    use crate::plan::figure::Point;

    const M: i64 = 1_000_000_000;

    fn ring(corners: &[(i64, i64)]) -> Figure {
        let points = corners.iter().map(|&(x, y)| Point { x, y }).collect();
        Figure::new(vec![Form::Ring(points)], 0, Some(M / 10))
    }

    /// 4 by 2 m, good to 0.1 m, widened by 2 m. The corner is 2 m past the end of the long side, whose line is off there by
    /// 0.1 · (1 + 2 · 2 / 4) = 0.2 m, and that of the short side by 0.3 m. At right angles they would meet 0.36 m off, and a
    /// little more because they may rotate by 2.9 and 5.7 degrees.
    #[test]
    fn a_square_corner_moves_farther_than_its_base() {
        let water = ring(&[(0, 0), (4 * M, 0), (4 * M, 2 * M), (0, 2 * M)]);
        let off = outward_off(&water, 2 * M, Corners::Square).unwrap();
        assert!((360_000_000..410_000_000).contains(&off), "{off}");
        assert_eq!(outward_off(&water, 2 * M, Corners::Round), Some(M / 10));
        // The side of 0.2 m may rotate by any angle.
        let sliver = ring(&[(0, 0), (4 * M, 0), (4 * M, M / 5), (0, M / 5)]);
        assert_eq!(outward_off(&sliver, M, Corners::Square), None);
    }

    /// A corner of 60 degrees moved in by 1 m: sides that are off by 0.1 m move it by 0.1 / sin 30 = 0.2 m.
    #[test]
    fn an_acute_corner_within_moves_by_more() {
        let high = (10.0 * 3.0_f64.sqrt() / 2.0 * M as f64) as i64;
        let triangle = ring(&[(0, 0), (10 * M, 0), (5 * M, high)]);
        let off = inward_off(&triangle, M).unwrap();
        assert!((off - M / 5).abs() < 100, "{off}");
        // This far in, nothing may be left.
        assert_eq!(inward_off(&triangle, 2_850_000_000), None);
    }

    fn places(figure: &Figure) -> &[Point] {
        match &figure.forms[0] {
            Form::Ring(ring) => ring,
            _ => &[],
        }
    }

    fn apart(one: Point, other: Point) -> f64 {
        let (x, y) = Vector::between(one, other).floats();
        (x * x + y * y).sqrt()
    }

    /// Shapes of 3 to 7 corners, each corner displaced by its accuracy in any direction: no corner of the wider outline moves
    /// farther than the tolerance, and some move half as far.
    #[test]
    fn two_thousand_pushed_shapes_stay_within() {
        let mut dice = Dice::new(19);
        let (mut tried, mut far) = (0, 0);
        while tried < 2_000 {
            let count = dice.from(3, 7);
            let radius = |dice: &mut Dice| dice.from(2 * M, 9 * M) as f64;
            let corners: Vec<(i64, i64)> = (0..count)
                .map(|at| {
                    let angle = std::f64::consts::TAU * at as f64 / count as f64;
                    let r = radius(&mut dice);
                    ((r * libm::cos(angle)) as i64, (r * libm::sin(angle)) as i64)
                })
                .collect();
            let off = dice.from(M / 1000, M / 5);
            let drawn = Figure {
                accuracy: Some(off),
                ..ring(&corners)
            };
            let by = dice.from(M / 10, 3 * M);
            let Ok(wide) = outward(&drawn, by, Corners::Square) else {
                continue;
            };
            let Some(tolerance) = outward_off(&drawn, by, Corners::Square) else {
                continue;
            };
            tried += 1;
            let mut most = 0.0_f64;
            for _ in 0..40 {
                let push = |(x, y): &(i64, i64), dice: &mut Dice| {
                    let angle = std::f64::consts::TAU * dice.from(0, 1_000) as f64 / 1_000.0;
                    let long = (off - 2) as f64;
                    (
                        x + (long * libm::cos(angle)) as i64,
                        y + (long * libm::sin(angle)) as i64,
                    )
                };
                let world: Vec<_> = corners.iter().map(|at| push(at, &mut dice)).collect();
                let Ok(world) = outward(&ring(&world), by, Corners::Square) else {
                    continue;
                };
                let pairs = places(&wide).iter().zip(places(&world));
                most = pairs.map(|(a, b)| apart(*a, *b)).fold(most, f64::max);
            }
            assert!(
                most <= tolerance as f64,
                "{corners:?} {off} {by}: {most} {tolerance}"
            );
            far += i32::from(most * 2.0 > tolerance as f64);
        }
        assert!(far > 1_000, "{far}");
    }
}
