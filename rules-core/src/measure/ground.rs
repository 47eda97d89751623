//! The level of the ground between spots where it was measured.

use super::distance::distance;
use super::exact::Vector;
use super::sides::moved;
use crate::plan::figure::{Form, Point};
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

/// A triangle of spots, and how well it fits a place: the less, the nearer its spots.
struct Triple {
    corners: [Spot; 3],
    shares: [f64; 3],
    score: f64,
    widest: f64,
}

/// The level of the ground at a place, from the spots around it (the triangle of Delaunay); spots and place together are
/// off by no more than `off` nanometres against each other. `None` where the place may lie outside all spots: nobody knows
/// how the ground goes on there.
///
/// Ground between spots may bulge: the range holds it only where it was measured wherever its slope changes.
pub fn ground_level(spots: &[Spot], at: Point, off: i64) -> Option<Level> {
    let best = best(spots, at)?;
    if off > 0 && !around(at, off).all(|p| self::best(spots, p).is_some()) {
        return None;
    }
    let mut range: Option<Interval> = None;
    for triple in triples(spots) {
        let Some(near) = near(&triple, at, off) else {
            continue;
        };
        let widest = near.widest.max(best.widest) + off as f64;
        let slack =
            8.0 * widest * off as f64 + 4.0 * (off as f64) * (off as f64) + best.score * 1e-9;
        if near.score <= best.score + slack {
            let own = triple.iter().map(|spot| spot.level).reduce(Interval::hull);
            range = range.into_iter().chain(own).reduce(Interval::hull);
        }
    }
    let middle = |spot: &Spot| spot.level.low.midpoint(spot.level.high) as f64;
    let drawn: f64 = best
        .corners
        .iter()
        .zip(best.shares)
        .map(|(spot, share)| middle(spot) * share)
        .sum();
    Some(Level {
        drawn: drawn.round() as i128,
        range: range?,
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
    let cut = super::earth::flood_storage_taken(area, level, ground, ground);
    let fill = super::earth::flood_storage_taken(area, ground, level, level);
    (cut, fill)
}

/// Eight places round a place whose octagon holds all within `off` of it.
fn around(at: Point, off: i64) -> impl Iterator<Item = Point> {
    let far = off as f64 * 1.083 + 2.0;
    let half = std::f64::consts::FRAC_1_SQRT_2;
    let ways = [
        (1.0, 0.0),
        (half, half),
        (0.0, 1.0),
        (-half, half),
        (-1.0, 0.0),
        (-half, -half),
        (0.0, -1.0),
        (half, -half),
    ];
    ways.into_iter().map(move |way| moved(at, way, far))
}

fn triples(spots: &[Spot]) -> impl Iterator<Item = [Spot; 3]> {
    spots.iter().enumerate().flat_map(move |(i, a)| {
        let later = spots.iter().enumerate().skip(i + 1);
        later.flat_map(move |(j, b)| spots.iter().skip(j + 1).map(move |c| [*a, *b, *c]))
    })
}

/// Of all triangles around a place, the one whose spots lie nearest, by the squares of their distances: that is the
/// triangle of Delaunay (the lower hull of the spots lifted onto a paraboloid). The first of several.
fn best(spots: &[Spot], at: Point) -> Option<Triple> {
    let all = triples(spots).filter_map(|triple| scored(&triple, at));
    all.reduce(|best, next| if next.score < best.score { next } else { best })
}

/// A triangle that may hold a place once both were moved a little.
fn near(triple: &[Spot; 3], at: Point, off: i64) -> Option<Triple> {
    if off == 0 {
        return scored(triple, at);
    }
    let ring = Form::Ring(triple.iter().map(|spot| spot.at).collect());
    let gap = distance(&ring, &Form::Point(at));
    if gap.low > off {
        return None;
    }
    scored(triple, at).or_else(|| {
        let squares = triple.iter().map(|spot| squared(spot.at, at));
        let nearest = squares.clone().fold(f64::INFINITY, f64::min);
        let widest = squares.fold(0.0, f64::max).sqrt();
        Some(Triple {
            corners: *triple,
            shares: [0.0; 3],
            score: nearest,
            widest,
        })
    })
}

fn squared(a: Point, b: Point) -> f64 {
    let (x, y) = Vector::between(a, b).floats();
    x * x + y * y
}

/// How a place is shared out among three spots around it; `None` where it does not lie between them.
fn scored(triple: &[Spot; 3], at: Point) -> Option<Triple> {
    let [a, b, c] = triple.map(|spot| spot.at);
    let whole = Vector::between(a, b).cross(Vector::between(a, c));
    let parts =
        [(b, c), (c, a), (a, b)].map(|(p, q)| Vector::between(at, p).cross(Vector::between(at, q)));
    let sign = whole.signum();
    if sign == 0 || parts.iter().any(|part| part.signum() == -sign) {
        return None;
    }
    let shares = parts.map(|part| part as f64 / whole as f64);
    let squares = [a, b, c].map(|p| squared(p, at));
    Some(Triple {
        corners: *triple,
        shares,
        score: shares
            .iter()
            .zip(squares)
            .map(|(share, square)| share * square)
            .sum(),
        widest: squares.into_iter().fold(0.0, f64::max).sqrt(),
    })
}

#[cfg(test)]
mod tests {
    use super::super::random::Dice;
    use super::*;

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
