//! Moves of a pool, and squares of them.

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
    /// The square of its length, in square millimetres.
    pub(super) fn squared(self) -> i64 {
        self.x
            .saturating_mul(self.x)
            .saturating_add(self.y.saturating_mul(self.y))
    }

    /// The square of the distance between the ends of two moves.
    pub(super) fn squared_to(self, other: Way) -> i64 {
        Way {
            x: self.x.saturating_sub(other.x),
            y: self.y.saturating_sub(other.y),
        }
        .squared()
    }
}

/// A square of moves.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Spot {
    /// Its south-west corner.
    pub low: Way,
    /// The length of its sides, in millimetres; 0 for a single move.
    pub size: i64,
}

impl Spot {
    /// A single move.
    pub(super) fn only(low: Way) -> Spot {
        Spot { low, size: 0 }
    }

    /// The move to its middle.
    pub fn middle(self) -> Way {
        self.at(1, 1)
    }

    /// The move to a point in it, counted in halves of its size from the south-west corner.
    fn at(self, x: i64, y: i64) -> Way {
        Way {
            x: self.low.x + self.size * x / 2,
            y: self.low.y + self.size * y / 2,
        }
    }

    /// Its middle and its corners.
    pub(super) fn five_points(self) -> [Way; 5] {
        [(1, 1), (0, 0), (2, 0), (0, 2), (2, 2)].map(|(x, y)| self.at(x, y))
    }

    /// Its four quarters. Its size must be even.
    pub(super) fn quarters(self) -> [Spot; 4] {
        [(0, 0), (1, 0), (0, 1), (1, 1)].map(|(x, y)| Spot {
            low: self.at(x, y),
            size: self.size / 2,
        })
    }

    /// The distance from its middle to its corners, in nanometres.
    pub(super) fn reach(self) -> i64 {
        self.size.saturating_mul(HALF_DIAGONAL)
    }

    /// The move in it that ends nearest to the end of another.
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
