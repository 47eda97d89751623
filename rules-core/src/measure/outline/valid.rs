//! Whether a ring can be measured: its line neither crosses nor touches itself, so that it has an area.

use crate::measure::figure::chain::{Bounds, Edge};
use crate::measure::figure::exact::Vector;
use crate::plan::figure::Point;

/// The greatest distance of a coordinate from the origin, in nanometres: 10 km.
pub const EXTENT: i64 = 10_000_000_000_000;

/// What is wrong with a ring; numbers count its points from 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Flaw {
    /// This point and the next are the same.
    Same(usize),
    /// The side that begins at one point touches the side that begins at another.
    Crossing(usize, usize),
}

/// What is wrong with a ring of at least three points, if anything. One without an area goes back along itself somewhere.
pub fn flaw(ring: &[Point]) -> Option<Flaw> {
    let same = edges(ring).position(|side| side.a == side.b);
    let crossing = || crossing(ring).map(|(one, other)| Flaw::Crossing(one, other));
    same.map(Flaw::Same).or_else(crossing)
}

/// Whether a ring that was worked out can be measured.
pub(crate) fn is_sound(ring: &[Point]) -> bool {
    let near = |p: &Point| p.x.unsigned_abs().max(p.y.unsigned_abs()) <= EXTENT.unsigned_abs();
    ring.len() >= 3 && ring.iter().all(near) && flaw(ring).is_none()
}

/// The sides, each from a point to the next.
fn edges(ring: &[Point]) -> impl Iterator<Item = Edge> {
    let next = ring.iter().cycle().skip(1);
    ring.iter().zip(next).map(|(&a, &b)| Edge { a, b })
}

/// A side, and how many come before it.
struct Side {
    number: usize,
    edge: Edge,
    bounds: Bounds,
}

/// Two sides that cross or touch, other than neighbours in their common corner.
///
/// Sides are gone through from west to east, so that each is compared only with those that begin before it ends.
fn crossing(ring: &[Point]) -> Option<(usize, usize)> {
    let side = |(number, edge): (usize, Edge)| Side {
        number,
        edge,
        bounds: Bounds::of(edge.a, edge.b),
    };
    let mut sides: Vec<Side> = edges(ring).enumerate().map(side).collect();
    sides.sort_by_key(|side| (side.bounds.low.x, side.number));
    let mut rest = sides.as_slice();
    while let Some((one, later)) = rest.split_first() {
        let mut near = later
            .iter()
            .take_while(|other| other.bounds.low.x <= one.bounds.high.x);
        if let Some(other) = near.find(|other| one.meets(other, ring.len())) {
            let (one, other) = (one.number, other.number);
            return Some((one.min(other), one.max(other)));
        }
        rest = later;
    }
    None
}

impl Side {
    /// Whether two sides of a ring of so many meet where they should not.
    fn meets(&self, other: &Self, count: usize) -> bool {
        let (first, second) = match self.number < other.number {
            true => (self, other),
            false => (other, self),
        };
        if second.number == first.number + 1 {
            first.goes_back(second)
        } else if first.number == 0 && second.number + 1 == count {
            second.goes_back(first)
        } else {
            self.bounds.touches(&other.bounds) && self.edge.meets(&other.edge)
        }
    }

    /// Whether the side that follows this one goes back along it.
    fn goes_back(&self, next: &Self) -> bool {
        let along = |edge: Edge| Vector::between(edge.a, edge.b);
        let (before, after) = (along(self.edge), along(next.edge));
        before.cross(after) == 0 && before.dot(after) < 0
    }
}
