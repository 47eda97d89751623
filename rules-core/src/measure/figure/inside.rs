//! Inside, on the line or outside: decided exactly.

use std::cmp::Ordering;

use crate::measure::figure::chain::{Bounds, Chain, Edge};
use crate::measure::figure::exact::{Vector, turn};
use crate::plan::figure::{Form, Point};
use crate::work;

/// The position of a point relative to a ring.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Side {
    /// Inside, and not on its line.
    Inside,
    /// Exactly on its line.
    On,
    /// Outside.
    Outside,
}

/// The position of a point relative to a ring, exactly.
pub fn side(ring: &[Point], point: Point) -> Side {
    work::corners(ring.len());
    let mut within = false;
    for edge in Chain::ring(ring).edges() {
        if edge.a.y.max(edge.b.y) < point.y || edge.a.y.min(edge.b.y) > point.y {
            continue;
        }
        if edge.holds(point) {
            return Side::On;
        }
        let upward = edge.a.y <= point.y && edge.b.y > point.y;
        let downward = edge.b.y <= point.y && edge.a.y > point.y;
        let left = turn(edge.a, edge.b, point);
        if upward && left.is_gt() || downward && left.is_lt() {
            within = !within;
        }
    }
    if within { Side::Inside } else { Side::Outside }
}

/// The position of a form relative to the area of a ring, exactly as drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Place {
    /// All of it inside, none of it on the line.
    Within,
    /// None of it outside, some of it on the line.
    WithinTouching,
    /// Some of it inside and some outside.
    Across,
    /// None of it inside, some of it on the line.
    OutsideTouching,
    /// All of it outside.
    Outside,
}

impl Place {
    /// Whether no part is outside; touching the line is allowed.
    pub fn is_within(self) -> bool {
        matches!(self, Place::Within | Place::WithinTouching)
    }

    /// Whether some part is inside, not just touching. A point or a line shares no area even then.
    pub fn shares(self) -> bool {
        !matches!(self, Place::OutsideTouching | Place::Outside)
    }
}

/// The position of `form` relative to the area of `ring`, exactly as drawn. A form without points is `Outside`.
pub fn contains(ring: &[Point], form: &Form) -> Place {
    let mut seen = walk(Chain::of(form), ring);
    if let Form::Ring(points) = form
        && !seen.across()
    {
        // The lines do not cross, but one area may contain the other, or both may be the same.
        let back = walk(Chain::ring(ring), points);
        let same = !seen.inside && !seen.outside && seen.on && !back.outside;
        seen.inside |= back.inside || same;
        seen.outside |= back.inside;
        seen.on |= back.on;
    }
    match seen {
        Seen {
            inside: true,
            outside: true,
            ..
        } => Place::Across,
        Seen {
            inside: true,
            on: true,
            ..
        } => Place::WithinTouching,
        Seen { inside: true, .. } => Place::Within,
        Seen {
            outside: true,
            on: true,
            ..
        } => Place::OutsideTouching,
        Seen { outside: true, .. } => Place::Outside,
        // A line that only runs along the ring's line.
        Seen { on: true, .. } => Place::WithinTouching,
        Seen { .. } => Place::Outside,
    }
}

/// The positions in which parts of a line were found.
#[derive(Debug, Clone, Copy, Default)]
struct Seen {
    inside: bool,
    on: bool,
    outside: bool,
}

impl Seen {
    fn note(&mut self, side: Side) {
        match side {
            Side::Inside => self.inside = true,
            Side::On => self.on = true,
            Side::Outside => self.outside = true,
        }
    }

    fn across(self) -> bool {
        self.inside && self.outside
    }
}

/// Follows a line until parts of it have been found both inside and outside a ring.
fn walk(line: Chain, ring: &[Point]) -> Seen {
    let around = Bounds::around(ring);
    let mut seen = Seen::default();
    // The position of the last place, as long as the line has not met the ring since.
    let mut known: Option<Side> = None;
    for edge in line.edges() {
        let bounds = edge.bounds();
        if around.is_none_or(|around| !bounds.touches(&around)) {
            seen.outside = true;
            known = Some(Side::Outside);
        } else {
            known = pass(edge, &bounds, ring, known, &mut seen);
        }
        if seen.across() {
            return seen;
        }
    }
    seen
}

/// Tests one edge of the line: it crosses the ring, is cut where it meets the ring, or does not meet it.
fn pass(
    edge: Edge,
    bounds: &Bounds,
    ring: &[Point],
    known: Option<Side>,
    seen: &mut Seen,
) -> Option<Side> {
    work::corners(2 * ring.len());
    let mut cuts = Vec::new();
    for against in Chain::ring(ring).edges() {
        if !bounds.touches(&against.bounds()) || !edge.meets(&against) {
            continue;
        }
        if edge.crosses(&against) {
            *seen = Seen {
                inside: true,
                on: true,
                outside: true,
            };
            return None;
        }
        // They meet without crossing, so a corner of one is on the other. Only the ring's corners cut the edge.
        seen.on = true;
        cuts.extend(
            [against.a, against.b]
                .into_iter()
                .filter(|corner| edge.holds(*corner)),
        );
    }
    let free = cuts.is_empty() && !seen.on;
    if free && let Some(side) = known {
        return Some(side);
    }
    pieces(edge, cuts, ring, seen);
    free.then(|| side(ring, edge.b))
}

/// Between two neighbouring cuts an edge is all inside, all on the line or all outside, so its middle decides.
fn pieces(edge: Edge, mut cuts: Vec<Point>, ring: &[Point], seen: &mut Seen) {
    cuts.extend([edge.a, edge.b]);
    cuts.sort_unstable_by(|p, q| along(edge, *p, *q));
    cuts.dedup();
    if let [only] = cuts.as_slice() {
        return seen.note(side(ring, *only));
    }
    // Doubled, so that the middle of two whole numbers is a whole number.
    let doubled: Vec<Point> = ring.iter().map(|p| sum(*p, *p)).collect();
    for (p, q) in cuts.iter().zip(cuts.iter().skip(1)) {
        seen.note(side(&doubled, sum(*p, *q)));
    }
}

fn along(edge: Edge, p: Point, q: Point) -> Ordering {
    let far = |point| Vector::between(edge.a, point).squared();
    far(p).cmp(&far(q)).then(p.cmp(&q))
}

fn sum(p: Point, q: Point) -> Point {
    Point {
        x: p.x.saturating_add(q.x),
        y: p.y.saturating_add(q.y),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::figure::random::Dice;
    use crate::measure::{area2, distance};

    fn ring(points: &[(i64, i64)]) -> Vec<Point> {
        points.iter().map(|&(x, y)| Point { x, y }).collect()
    }

    #[test]
    fn each_position_is_told_from_the_others() {
        // An L: the notch takes the upper right quarter.
        let yard = ring(&[(0, 0), (10, 0), (10, 5), (5, 5), (5, 10), (0, 10)]);
        let of = |points: &[(i64, i64)]| contains(&yard, &Form::Ring(ring(points)));
        assert_eq!(of(&[(1, 1), (4, 1), (4, 4)]), Place::Within);
        assert_eq!(of(&[(0, 0), (5, 0), (5, 5), (0, 5)]), Place::WithinTouching);
        assert_eq!(
            contains(&yard, &Form::Ring(yard.clone())),
            Place::WithinTouching
        );
        assert_eq!(
            of(&[(1, 1), (9, 4), (1, 9)]),
            Place::Across,
            "its long side cuts the notch's corner"
        );
        assert_eq!(
            of(&[(5, 5), (10, 5), (10, 10), (5, 10)]),
            Place::OutsideTouching
        );
        assert_eq!(of(&[(6, 6), (9, 6), (9, 9)]), Place::Outside);
        assert_eq!(
            of(&[(-1, -1), (20, -1), (20, 20), (-1, 20)]),
            Place::Across,
            "it holds the yard"
        );
        let line = |points: &[(i64, i64)]| contains(&yard, &Form::Path(ring(points)));
        assert_eq!(
            line(&[(2, 10), (10, 2)]),
            Place::Across,
            "out through the notch and in again"
        );
        assert_eq!(
            line(&[(0, 10), (5, 5), (10, 0)]),
            Place::WithinTouching,
            "through the notch's corner"
        );
        assert_eq!(
            line(&[(5, 10), (5, 5), (10, 5)]),
            Place::WithinTouching,
            "along the line"
        );
        assert_eq!(
            contains(&yard, &Form::Point(Point { x: 5, y: 7 })),
            Place::WithinTouching
        );
    }

    #[test]
    fn positions_agree_with_distances_and_with_each_point() {
        let mut dice = Dice::new(11);
        let mut seen = std::collections::BTreeMap::new();
        for round in 0..20_000 {
            let reach = [6, 12, 1000][round % 3];
            let (yard, form) = (dice.ring(reach), dice.form(reach));
            let place = contains(&yard, &form);
            *seen.entry(place).or_insert(0) += 1;
            let gap = distance(&Form::Ring(yard.clone()), &form);
            assert_eq!(gap.high == 0, place != Place::Outside, "{yard:?} {form:?}");
            for corner in Chain::of(&form).points {
                let allowed = match side(&yard, *corner) {
                    Side::Inside => place.shares(),
                    Side::On => !matches!(place, Place::Within | Place::Outside),
                    Side::Outside => !place.is_within(),
                };
                assert!(allowed, "{yard:?} {form:?} {place:?} {corner:?}");
            }
            if let (true, Form::Ring(points)) = (place.is_within(), &form) {
                assert!(area2(points) <= area2(&yard));
            }
        }
        assert!(
            seen.len() == 5 && seen.values().all(|count| *count > 50),
            "{seen:?}"
        );
    }
}
