//! The level of the ground between spots where it was measured.

pub(super) mod delaunay;
pub(super) mod earth;

use std::cmp::Ordering;
use std::collections::BTreeSet;

use super::distance::{between_lines, distance};
use crate::measure::figure::chain::{Bounds, Chain, points};
use crate::measure::figure::exact::{Vector, turn};
use crate::measure::figure::inside::contains;
use crate::plan::figure::{Figure, Form, Point};
use crate::quantity::Interval;

/// A place where the level is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Spot {
    /// Where.
    pub at: Point,
    /// The level there, in nanometres.
    pub level: Interval,
}

/// The level of the ground at one place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Level {
    /// On the plane through the three spots around it, as drawn, to the nearest nanometre.
    pub drawn: i128,
    /// All that it may be: between the lowest and the highest of the spots around it.
    pub range: Interval,
}

/// Ground between spots: every triangle of spots that may be one of Delaunay's (no spot lies in its circle), wherever the
/// spots truly are.
#[derive(Debug, Clone, PartialEq)]
pub struct Ground {
    places: Vec<Point>,
    triangles: Vec<[usize; 3]>,
    hull: Vec<Point>,
    off: i64,
}

/// More spots than this are not joined: the ground is then not known.
const MOST: usize = 2_000;

impl Ground {
    /// The ground between spots at these places, each off by no more than `off` nanometres. `None` for fewer than three
    /// spots, for spots on one line, for more than 2000, and for so many that lie so near each other for how far they may be
    /// off that nobody can tell their triangles.
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

    /// The spots of all triangles that an outline may lie on, itself off by no more than `off`; `None` where any part of
    /// it may lie outside all spots: nobody knows how the ground goes on there.
    pub fn under(&self, outline: &Figure, off: i64) -> Option<BTreeSet<usize>> {
        let reach = self.off.saturating_add(off).saturating_add(outline.spread);
        let edge = Chain::ring(&self.hull);
        for form in &outline.forms {
            let inside = contains(&self.hull, form).is_within();
            if !inside || (reach > 0 && between_lines(Chain::of(form), edge).low < reach) {
                return None;
            }
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

    /// The three spots round a place, and how the place is shared out among them; the least circle of several.
    fn around(&self, at: Point) -> Option<([usize; 3], [f64; 3])> {
        let all = self.triangles.iter().filter_map(|triangle| {
            let (shares, score) = shared(self.corners(triangle)?, at)?;
            Some((*triangle, shares, score))
        });
        let best = all.reduce(|best, next| if next.2 < best.2 { next } else { best });
        best.map(|(triangle, shares, _)| (triangle, shares))
    }
}

/// The level of the ground at a place, from the spots around it; spots and place are each off by no more than `off`
/// nanometres. `None` where the place may lie outside all spots.
///
/// Ground between spots may bulge: the range holds it only where it was measured wherever its slope changes.
pub fn ground_level(spots: &[Spot], at: Point, off: i64) -> Option<Level> {
    let ground = Ground::between(spots.iter().map(|spot| spot.at).collect(), off)?;
    let place = Figure::new(vec![Form::Point(at)], 0, Some(off));
    let level = |spot: usize| spots.get(spot).map(|spot| spot.level);
    let under = ground.under(&place, off)?;
    let range = under.into_iter().filter_map(level).reduce(Interval::hull)?;
    let (triangle, shares) = ground.around(at)?;
    let parts = triangle.into_iter().zip(shares).map(|(spot, share)| {
        let middle = level(spot).map_or(0, |level| level.low.midpoint(level.high));
        middle as f64 * share
    });
    Some(Level {
        drawn: parts.sum::<f64>().round() as i128,
        range,
    })
}

/// How high a rim stands over the ground at each of some places; `None` where the ground is not known.
pub fn rim_over_ground(
    rim: Interval,
    places: &[Point],
    spots: &[Spot],
    off: i64,
) -> Vec<Option<Interval>> {
    let over = |at: &Point| Some(rim.sub(ground_level(spots, *at, off)?.range));
    places.iter().map(over).collect()
}

/// What must be dug away and what filled, in cubic nanometres, to bring ground between two levels to one level.
pub fn cut_and_fill(area: Interval, ground: Interval, level: Interval) -> (Interval, Interval) {
    let cut = crate::measure::ground::earth::flood_storage_taken(area, level, ground, ground);
    let fill = crate::measure::ground::earth::flood_storage_taken(area, ground, level, level);
    (cut, fill)
}

/// How a place is shared out among three spots around it, and the power of their circle there (the higher the nearer);
/// `None` where it does not lie between them.
fn shared([a, b, c]: [Point; 3], at: Point) -> Option<([f64; 3], f64)> {
    let whole = Vector::between(a, b).cross(Vector::between(a, c));
    let parts =
        [(b, c), (c, a), (a, b)].map(|(p, q)| Vector::between(at, p).cross(Vector::between(at, q)));
    let sign = whole.signum();
    if sign == 0 || parts.iter().any(|part| part.signum() == -sign) {
        return None;
    }
    let shares = parts.map(|part| part as f64 / whole as f64);
    let squares = [a, b, c].map(|p| {
        let (x, y) = Vector::between(p, at).floats();
        x * x + y * y
    });
    let score = shares
        .iter()
        .zip(squares)
        .map(|(share, square)| share * square);
    Some((shares, score.sum()))
}

/// The corners of the least convex area that holds all places, anticlockwise; `None` where they lie on one line.
pub(super) fn hull(places: &[Point]) -> Option<Vec<Point>> {
    let mut sorted = places.to_vec();
    sorted.sort_unstable();
    sorted.dedup();
    let mut lower = half_hull(sorted.iter());
    let mut upper = half_hull(sorted.iter().rev());
    lower.pop();
    upper.pop();
    lower.append(&mut upper);
    (lower.len() > 2).then_some(lower)
}

fn half_hull<'p>(sorted: impl Iterator<Item = &'p Point>) -> Vec<Point> {
    let mut half: Vec<Point> = Vec::new();
    for next in sorted {
        while let [.., before, last] = half[..]
            && turn(before, last, *next) != Ordering::Greater
        {
            half.pop();
        }
        half.push(*next);
    }
    half
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::figure::random::Dice;

    const M: i64 = 1_000_000_000;

    fn spot(x: i64, y: i64, centimetres: i128) -> Spot {
        Spot {
            at: Point { x: x * M, y: y * M },
            level: Interval::exact(centimetres * 10_000_000),
        }
    }

    /// A slope of 1 in 20 to the east over 20 m: 0.35 m up at 7 m; the rim at 0.5 m stands 0.15 m over it.
    #[test]
    fn a_plane_by_hand() {
        let spots = [
            spot(0, 0, 0),
            spot(20, 0, 100),
            spot(20, 20, 100),
            spot(0, 20, 0),
        ];
        let place = Point { x: 7 * M, y: 4 * M };
        let level = ground_level(&spots, place, 0).unwrap();
        assert!((level.drawn - 350_000_000).abs() <= 1, "{level:?}");
        assert_eq!(level.range, Interval::new(0, 1_000_000_000));
        assert_eq!(
            ground_level(&spots, Point { x: -M, y: 0 }, 0),
            None,
            "outside all spots"
        );
        assert_eq!(
            ground_level(
                &spots,
                Point {
                    x: M / 20,
                    y: 4 * M
                },
                M / 10
            ),
            None,
            "perhaps outside"
        );
        let rim = rim_over_ground(Interval::exact(1_500_000_000), &[place], &spots, 0);
        assert_eq!(rim, [Some(Interval::new(500_000_000, 1_500_000_000))]);
        let square = Interval::exact(10 * i128::from(M) * i128::from(M));
        let (cut, fill) = cut_and_fill(
            square,
            Interval::exact(i128::from(M)),
            Interval::exact(i128::from(M) / 2),
        );
        assert_eq!(
            (cut, fill),
            (
                Interval::exact(5 * i128::from(M).pow(3)),
                Interval::exact(0)
            )
        );
    }

    /// Delaunay by its definition: a triangle round the place with no other spot in its circle; on its plane.
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

    /// A thousand spots on a plane: it is found everywhere, and no place takes its level from far away.
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
                let (triangle, shares) = ground.around(at).unwrap();
                let own = triangle.into_iter().zip(shares);
                let level: f64 = own
                    .map(|(spot, share)| plane(spots[spot].at) as f64 * share)
                    .sum();
                assert!((level - plane(at) as f64).abs() < 1_000.0, "{at:?} {level}");
            }
        }
    }

    #[test]
    fn the_range_holds_every_world() {
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
            let Some(found) = ground_level(&spots, at, off) else {
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
            let (low, high) = (found.range.low as f64 / 1e9, found.range.high as f64 / 1e9);
            assert!(
                level >= low - 1e-9 && level <= high + 1e-9,
                "{level} {found:?} {off}"
            );
            known += 1;
        }
        assert!(known > 500, "{known}");
    }
}
