//! Whether what is drawn can be judged at all: rings with an area, without crossings.

use super::Point;

/// What is wrong with a ring; numbers count its points from 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Flaw {
    /// This point and the next are the same.
    Same(usize),
    /// The side that begins at one point touches the side that begins at another.
    Crossing(usize, usize),
    /// It surrounds nothing.
    NoArea,
}

/// What is wrong with a ring of at least three points, if anything.
pub fn flaw(ring: &[Point]) -> Option<Flaw> {
    let same = edges(ring).position(|(a, b)| a == b).map(Flaw::Same);
    same.or_else(|| crossing(ring).map(|(a, b)| Flaw::Crossing(a, b)))
        .or_else(|| (area2(ring) == 0).then_some(Flaw::NoArea))
}

/// Two sides that cross or touch, other than neighbours in their common corner.
///
/// Sides are gone through from west to east, so that each is compared only with those that begin before it ends.
pub fn crossing(ring: &[Point]) -> Option<(usize, usize)> {
    let mut sides: Vec<_> = edges(ring).enumerate().collect();
    sides.sort_by_key(|(at, (a, b))| (a.x.min(b.x), *at));
    let mut rest = sides.as_slice();
    while let Some((one, later)) = rest.split_first() {
        let end = one.1.0.x.max(one.1.1.x);
        let mut near = later.iter().take_while(|(_, (a, b))| a.x.min(b.x) <= end);
        if let Some(other) = near.find(|other| meet(*one, **other, ring.len())) {
            return Some((one.0.min(other.0), one.0.max(other.0)));
        }
        rest = later;
    }
    None
}

/// A side and its place in the ring.
type Side = (usize, (Point, Point));

/// Whether two sides of a ring of so many meet where they should not.
fn meet(one: Side, other: Side, count: usize) -> bool {
    let ((i, one), (j, other)) = if one.0 < other.0 {
        (one, other)
    } else {
        (other, one)
    };
    if j == i + 1 {
        turns_back(one.0, one.1, other.1)
    } else if i == 0 && j + 1 == count {
        turns_back(other.0, other.1, one.1)
    } else {
        touch(one, other)
    }
}

/// The sides of a ring.
pub fn edges(ring: &[Point]) -> impl Iterator<Item = (Point, Point)> + Clone + '_ {
    let next = ring.iter().cycle().skip(1);
    ring.iter().copied().zip(next.copied())
}

/// Twice the area of a ring, positive if it runs anticlockwise.
pub fn area2(ring: &[Point]) -> i128 {
    let part = |(a, b): (Point, Point)| {
        i128::from(a.x) * i128::from(b.y) - i128::from(b.x) * i128::from(a.y)
    };
    edges(ring).map(part).sum()
}

/// Positive where the way from `a` over `b` to `c` turns left, negative right, 0 straight on or back.
pub fn turn(a: Point, b: Point, c: Point) -> i128 {
    let wide = |to: i64, from: i64| i128::from(to) - i128::from(from);
    wide(b.x, a.x) * wide(c.y, b.y) - wide(b.y, a.y) * wide(c.x, b.x)
}

/// Whether the way from `a` over `b` to `c` comes back on itself.
fn turns_back(a: Point, b: Point, c: Point) -> bool {
    let wide = |to: i64, from: i64| i128::from(to) - i128::from(from);
    let ahead = wide(b.x, a.x) * wide(c.x, b.x) + wide(b.y, a.y) * wide(c.y, b.y);
    turn(a, b, c) == 0 && ahead < 0
}

fn touch((a, b): (Point, Point), (c, d): (Point, Point)) -> bool {
    let apart = |a: i64, b: i64, c: i64, d: i64| a.max(b) < c.min(d) || c.max(d) < a.min(b);
    if apart(a.x, b.x, c.x, d.x) || apart(a.y, b.y, c.y, d.y) {
        return false;
    }
    let one_side = |a, b, c, d| turn(a, b, c).signum() * turn(a, b, d).signum() > 0;
    !one_side(a, b, c, d) && !one_side(c, d, a, b)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ring(points: &[(i64, i64)]) -> Vec<Point> {
        points.iter().map(|&(x, y)| Point { x, y }).collect()
    }

    #[test]
    fn good_rings_have_no_flaw() {
        assert_eq!(flaw(&ring(&[(0, 0), (4, 0), (0, 4)])), None);
        assert_eq!(flaw(&ring(&[(0, 0), (4, 0), (4, 4), (2, 1), (0, 4)])), None);
        assert_eq!(
            flaw(&ring(&[(0, 0), (2, 0), (4, 0), (4, 4), (0, 4)])),
            None,
            "a point on a side"
        );
    }

    #[test]
    fn crossings_are_found_by_their_sides() {
        let bow = ring(&[(0, 0), (4, 4), (4, 0), (0, 4)]);
        assert_eq!(flaw(&bow), Some(Flaw::Crossing(0, 2)));
        let touching = ring(&[(0, 0), (4, 0), (4, 4), (2, 0), (0, 4)]);
        assert!(matches!(flaw(&touching), Some(Flaw::Crossing(0, 2 | 3))));
        let spike = ring(&[(0, 0), (4, 0), (2, 0), (0, 4)]);
        assert!(matches!(flaw(&spike), Some(Flaw::Crossing(0, 1 | 2))));
        let first = ring(&[(2, 0), (0, 0), (0, 4), (4, 0)]);
        assert_eq!(
            flaw(&first),
            None,
            "the last side runs into the first, straight on"
        );
        let back = ring(&[(2, 0), (4, 0), (4, 4), (0, 0), (3, 0)]);
        assert!(matches!(flaw(&back), Some(Flaw::Crossing(..))));
    }

    #[test]
    fn twice_the_same_point_and_no_area() {
        assert_eq!(flaw(&ring(&[(0, 0), (0, 0), (4, 4)])), Some(Flaw::Same(0)));
        assert_eq!(
            flaw(&ring(&[(0, 0), (4, 0), (4, 4), (0, 0)])),
            Some(Flaw::Same(3))
        );
        assert!(flaw(&ring(&[(0, 0), (2, 2), (4, 4)])).is_some());
    }
}
