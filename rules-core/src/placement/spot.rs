//! Ways in which a pool is moved, and squares of them.

use serde::Serialize;

/// A millimetre, in nanometres.
pub(super) const MILLIMETRE: i64 = 1_000_000;
/// Half the diagonal of a square of 1 mm, in nanometres, rounded up.
const HALF_DIAGONAL: i64 = 707_107;

/// How far a pool is moved from where it is drawn, in millimetres.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default, Serialize)]
pub struct Way {
    /// To the east.
    pub x: i64,
    /// To the north.
    pub y: i64,
}

impl Way {
    /// How long the way is, squared, in square millimetres.
    pub(super) fn squared(self) -> i64 {
        self.x
            .saturating_mul(self.x)
            .saturating_add(self.y.saturating_mul(self.y))
    }

    /// How far it is from the end of one way to that of another, squared.
    pub(super) fn squared_to(self, other: Way) -> i64 {
        Way {
            x: self.x.saturating_sub(other.x),
            y: self.y.saturating_sub(other.y),
        }
        .squared()
    }
}

/// A square of ways.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Spot {
    /// Its corner in the south-west.
    pub low: Way,
    /// How long its sides are, in millimetres; nothing for a single way.
    pub size: i64,
}

impl Spot {
    /// A single way.
    pub(super) fn only(low: Way) -> Spot {
        Spot { low, size: 0 }
    }

    /// The way to its middle.
    pub fn middle(self) -> Way {
        self.at(1, 1)
    }

    /// The way to its corner, its middle or the middle of a side, by halves of its size.
    fn at(self, x: i64, y: i64) -> Way {
        Way {
            x: self.low.x + self.size * x / 2,
            y: self.low.y + self.size * y / 2,
        }
    }

    /// Its middle and its corners.
    pub(super) fn five(self) -> [Way; 5] {
        [(1, 1), (0, 0), (2, 0), (0, 2), (2, 2)].map(|(x, y)| self.at(x, y))
    }

    /// Its four quarters. Its size must be even.
    pub(super) fn quarters(self) -> [Spot; 4] {
        [(0, 0), (1, 0), (0, 1), (1, 1)].map(|(x, y)| Spot {
            low: self.at(x, y),
            size: self.size / 2,
        })
    }

    /// How far its corners lie from its middle, in nanometres.
    pub(super) fn reach(self) -> i64 {
        self.size.saturating_mul(HALF_DIAGONAL)
    }

    /// The way in it that ends nearest to the end of this one.
    pub(super) fn nearest_to(self, way: Way) -> Way {
        let within = |at: i64, low: i64| at.clamp(low, low.saturating_add(self.size));
        Way {
            x: within(way.x, self.low.x),
            y: within(way.y, self.low.y),
        }
    }

    /// Its area, in square millimetres.
    pub(super) fn area(self) -> i64 {
        self.size.saturating_mul(self.size)
    }
}
