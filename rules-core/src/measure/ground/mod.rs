//! The level of the ground between spot levels.

pub(super) mod delaunay;
pub(super) mod earth;

use std::collections::BTreeSet;

use super::distance::{between_lines, distance};
use crate::measure::figure::chain::{Bounds, Chain, points};
use crate::measure::figure::convex::hull;
use crate::measure::figure::exact::Vector;
use crate::measure::figure::inside::contains;
use crate::plan::figure::{Figure, Form, Point};

/// Ground between spots: every triangle of spots that may be a Delaunay triangle (no spot inside its circumcircle), wherever
/// within their tolerance the spots truly are.
#[derive(Debug, Clone, PartialEq)]
pub struct Ground {
    places: Vec<Point>,
    triangles: Vec<[usize; 3]>,
    hull: Vec<Point>,
    off: i64,
}

/// With more spots than this, none are joined, and the ground is unknown.
const MOST: usize = 2_000;

impl Ground {
    /// The ground between spots at these places, each off by no more than `off` nanometres. `None` for fewer than three spots,
    /// for spots on one line, for more than 2000 spots, and where the spots are so dense for their tolerance that there are too
    /// many possible triangles.
    pub fn between(places: Vec<Point>, off: i64) -> Option<Ground> {
        let hull = hull(&places)?;
        let triangles = match places.len() {
            ..=MOST => crate::measure::ground::delaunay::possible(&places, off)?,
            _ => return None,
        };
        Some(Ground {
            places,
            triangles,
            hull,
            off,
        })
    }

    /// The spots of all triangles that an outline, itself off by no more than `off`, may be on. `None` where any part of it may
    /// be outside all spots, since the ground is unknown there.
    pub fn under(&self, outline: &Figure, off: i64) -> Option<BTreeSet<usize>> {
        let reach = self.off.saturating_add(off).saturating_add(outline.spread);
        let holds = |form| surely_holds(&self.hull, form, reach);
        if !outline.forms.iter().all(holds) {
            return None;
        }
        let boxed = |form| Some((form, Bounds::around(points(form))?));
        let forms: Vec<(&Form, Bounds)> = outline.forms.iter().filter_map(boxed).collect();
        let near = (reach as f64 + 1.0) * (reach as f64 + 1.0);
        let mut under = BTreeSet::new();
        for triangle in &self.triangles {
            let around = self.corners(triangle).and_then(|all| Bounds::around(&all));
            let Some((form, around)) = self.form(triangle).zip(around) else {
                continue;
            };
            let beside = forms.iter().filter(|(_, own)| around.apart(own) <= near);
            let mut gaps = beside.map(|(own, _)| distance(&form, own).low);
            if gaps.any(|gap| gap <= reach) {
                under.extend(triangle);
            }
        }
        (!under.is_empty()).then_some(under)
    }

    fn form(&self, triangle: &[usize; 3]) -> Option<Form> {
        let [a, b, c] = self.corners(triangle)?;
        match Vector::between(a, b).cross(Vector::between(a, c)) {
            0 => Some(Form::Path(vec![a, b, c])),
            _ => Some(Form::Ring(vec![a, b, c])),
        }
    }

    fn corners(&self, triangle: &[usize; 3]) -> Option<[Point; 3]> {
        let at = |spot: usize| self.places.get(spot).copied();
        let [a, b, c] = *triangle;
        Some([at(a)?, at(b)?, at(c)?])
    }
}

/// Whether a place surely lies within an outline or on it, if the two may be off from each other by no more than `off`.
pub fn is_within(at: Point, outline: &Figure, off: i64) -> bool {
    let (place, reach) = (Form::Point(at), off.saturating_add(outline.spread));
    outline.forms.iter().any(|form| match form {
        Form::Ring(ring) => surely_holds(ring, &place, reach),
        Form::Path(_) | Form::Point(_) => reach == 0 && distance(form, &place).high == 0,
    })
}

/// Whether a form lies within a ring, however they may be off from each other by up to `reach`.
fn surely_holds(ring: &[Point], form: &Form, reach: i64) -> bool {
    let edge = || between_lines(Chain::of(form), Chain::ring(ring));
    contains(ring, form).is_within() && (reach == 0 || edge().low >= reach)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::figure::random::Dice;
    use crate::quantity::Interval;

    const M: i64 = 1_000_000_000;

    /// A place where the level is known.
    struct Spot {
        at: Point,
        level: Interval,
    }

    /// All that the level at a place may be, spots and place each off by no more than `off`.
    fn range(spots: &[Spot], at: Point, off: i64) -> Option<Interval> {
        let ground = Ground::between(spots.iter().map(|spot| spot.at).collect(), off)?;
        let place = Figure::new(vec![Form::Point(at)], 0, Some(off));
        let under = ground.under(&place, off)?.into_iter();
        under.map(|spot| spots[spot].level).reduce(Interval::hull)
    }

    fn spot(x: i64, y: i64, centimetres: i128) -> Spot {
        Spot {
            at: Point { x: x * M, y: y * M },
            level: Interval::exact(centimetres * 10_000_000),
        }
    }

    /// A slope to the east over 20 m: the level is between its foot and its top; outside the spots it is unknown.
    #[test]
    fn a_slope_by_hand() {
        let spots = [
            spot(0, 0, 0),
            spot(20, 0, 100),
            spot(20, 20, 100),
            spot(0, 20, 0),
        ];
        let place = Point { x: 7 * M, y: 4 * M };
        let found = range(&spots, place, 0);
        assert_eq!(found, Some(Interval::new(0, 1_000_000_000)));
        let outside = Point { x: -M, y: 0 };
        assert_eq!(range(&spots, outside, 0), None);
        let at_the_edge = Point {
            x: M / 20,
            y: 4 * M,
        };
        assert_eq!(range(&spots, at_the_edge, M / 10), None, "perhaps outside");
    }

    /// Delaunay by its definition: the level on the plane of a triangle around the place with no other spot in its circumcircle.
    fn by_circles(spots: &[(f64, f64, f64)], x: f64, y: f64) -> Option<f64> {
        let n = spots.len();
        for (i, j, k) in
            (0..n).flat_map(|i| (i + 1..n).flat_map(move |j| (j + 1..n).map(move |k| (i, j, k))))
        {
            let (a, b, c) = (spots[i], spots[j], spots[k]);
            let whole = (b.0 - a.0) * (c.1 - a.1) - (b.1 - a.1) * (c.0 - a.0);
            let share = |p: (f64, f64, f64), q: (f64, f64, f64)| {
                ((p.0 - x) * (q.1 - y) - (p.1 - y) * (q.0 - x)) / whole
            };
            let shares = [share(b, c), share(c, a), share(a, b)];
            if shares.iter().any(|share| *share < 0.0) {
                continue;
            }
            let in_circle = |d: (f64, f64, f64)| {
                let row = |p: (f64, f64, f64)| {
                    (
                        p.0 - d.0,
                        p.1 - d.1,
                        (p.0 - d.0) * (p.0 - d.0) + (p.1 - d.1) * (p.1 - d.1),
                    )
                };
                let (p, q, r) = (row(a), row(b), row(c));
                let det = p.0 * (q.1 * r.2 - r.1 * q.2) - q.0 * (p.1 * r.2 - r.1 * p.2)
                    + r.0 * (p.1 * q.2 - q.1 * p.2);
                det * whole.signum() > 0.0
            };
            let others = (0..n).filter(|d| ![i, j, k].contains(d));
            if !others.into_iter().any(|d| in_circle(spots[d])) {
                return Some(shares[0] * a.2 + shares[1] * b.2 + shares[2] * c.2);
            }
        }
        None
    }

    /// A thousand spots on a plane: the plane is found everywhere, and no place takes its level from far away.
    #[test]
    fn a_thousand_spots_are_joined() {
        let mut dice = Dice::new(22);
        let plane = |p: Point| i128::from(p.x / 20 + p.y / 50);
        let spots: Vec<Spot> = (0..1_000)
            .map(|_| dice.point(100 * M))
            .map(|at| Spot {
                at,
                level: Interval::exact(plane(at)),
            })
            .collect();
        for off in [0, M / 100] {
            let ground = Ground::between(spots.iter().map(|spot| spot.at).collect(), off).unwrap();
            for _ in 0..50 {
                let at = dice.point(80 * M);
                let place = Figure::new(vec![Form::Point(at)], 0, Some(off));
                let under = ground.under(&place, off).unwrap();
                let levels = under.iter().map(|spot| spots[*spot].level);
                let range = levels.reduce(Interval::hull).unwrap();
                assert!(range.contains(plane(at)), "{at:?} {range:?}");
                let far =
                    |spot: &usize| distance(&Form::Point(spots[*spot].at), &Form::Point(at)).high;
                assert!(under.iter().all(|spot| far(spot) < 60 * M), "{at:?}");
                assert!(
                    range.high - range.low < 4 * i128::from(M),
                    "{at:?} {range:?}"
                );
            }
        }
    }

    #[test]
    fn the_range_contains_the_level_in_every_world() {
        let mut dice = Dice::new(21);
        let mut known = 0;
        for _ in 0..2_000 {
            let off = dice.from(0, 1) * dice.from(0, 300_000_000);
            let count = dice.from(5, 9);
            let spots: Vec<Spot> = (0..count)
                .map(|_| {
                    let low = i128::from(dice.from(-M, M));
                    let level = Interval {
                        low,
                        high: low + i128::from(dice.from(0, 100_000_000)),
                    };
                    Spot {
                        at: dice.point(20 * M),
                        level,
                    }
                })
                .collect();
            let at = dice.point(8 * M);
            let Some(found) = range(&spots, at, off) else {
                continue;
            };
            let half = off / 3;
            let mut jog = |p: Point| {
                let step = Point {
                    x: p.x + dice.from(-half, half),
                    y: p.y + dice.from(-half, half),
                };
                (step.x as f64 / 1e9, step.y as f64 / 1e9)
            };
            let place = jog(at);
            let truth: Vec<(f64, f64, f64)> = spots
                .iter()
                .map(|spot| {
                    let (x, y) = jog(spot.at);
                    (x, y, spot.level.high as f64 / 1e9)
                })
                .collect();
            let level = by_circles(&truth, place.0, place.1).unwrap_or(f64::NAN);
            let (low, high) = (found.low as f64 / 1e9, found.high as f64 / 1e9);
            assert!(
                level >= low - 1e-9 && level <= high + 1e-9,
                "{level} {found:?} {off}"
            );
            known += 1;
        }
        assert!(known > 500, "{known}");
    }
}
