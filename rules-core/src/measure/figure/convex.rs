//! Convex rings: the hull of some places, and whether a ring is convex.

use std::cmp::Ordering;

use crate::measure::figure::exact::turn;
use crate::plan::figure::Point;

/// The convex hull of some places, anticlockwise; `None` if they are on one line.
pub(crate) fn hull(places: &[Point]) -> Option<Vec<Point>> {
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

/// Whether a ring that does not cross itself has no corner pointing in.
pub fn is_convex(ring: &[Point]) -> bool {
    let after = ring.iter().cycle().skip(1);
    let next = ring.iter().cycle().skip(2);
    let turns = ring
        .iter()
        .zip(after)
        .zip(next)
        .map(|((a, b), c)| turn(*a, *b, *c));
    let (mut left, mut right) = (false, false);
    for turned in turns {
        left |= turned.is_gt();
        right |= turned.is_lt();
    }
    !(left && right)
}
