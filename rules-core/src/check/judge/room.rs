//! How much room a requirement leaves: good is positive.

use crate::check::{Margin, Truth};
use crate::quantity::{Dimension, Interval, NO_HIGH, NO_LOW};

/// The room that a requirement leaves.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Room {
    /// An amount, good being positive.
    Amount(Interval, Dimension),
    /// It holds, and no amount could change that (a word).
    Endless,
    /// It does not hold, and no amount could change that.
    None,
    /// A word that is still open.
    Open,
    /// Amounts of unlike dimensions: no single figure says it.
    Unlike,
}

impl Room {
    /// The room of a requirement that has no amounts.
    pub(crate) fn of_truth(truth: Truth) -> Room {
        match truth {
            Truth::HOLDS => Room::Endless,
            Truth::FAILS => Room::None,
            _ => Room::Open,
        }
    }

    fn range(self) -> Option<(Interval, Option<Dimension>)> {
        match self {
            Room::Amount(range, dimension) => Some((range, Some(dimension))),
            Room::Endless => Some((Interval::exact(NO_HIGH), None)),
            Room::None => Some((Interval::exact(NO_LOW), None)),
            Room::Open => Some((Interval::any(), None)),
            Room::Unlike => None,
        }
    }

    fn together(self, other: Room, join: fn(Interval, Interval) -> Interval) -> Room {
        let (Some((one, own)), Some((two, others))) = (self.range(), other.range()) else {
            return Room::Unlike;
        };
        match (own, others) {
            (Some(own), Some(others)) if own != others => Room::Unlike,
            (Some(dimension), _) | (_, Some(dimension)) => Room::Amount(join(one, two), dimension),
            (None, None) => match join(one, two) {
                range if range == Interval::exact(NO_HIGH) => Room::Endless,
                range if range == Interval::exact(NO_LOW) => Room::None,
                _ => Room::Open,
            },
        }
    }

    /// Of two that must both hold: the lesser.
    pub(crate) fn least(self, other: Room) -> Room {
        self.together(other, Interval::min)
    }

    /// Of two of which one must hold: the greater.
    pub(crate) fn greatest(self, other: Room) -> Room {
        self.together(other, Interval::max)
    }

    /// Of two of which either may be the case.
    pub(crate) fn either(self, other: Room) -> Room {
        self.together(other, Interval::hull)
    }

    pub(crate) fn negated(self) -> Room {
        match self {
            Room::Amount(range, dimension) => Room::Amount(range.neg(), dimension),
            Room::Endless => Room::None,
            Room::None => Room::Endless,
            other => other,
        }
    }

    /// The least that is left, as an amount; where there is none, more than any.
    pub(crate) fn least_amount(self) -> i128 {
        match self {
            Room::Amount(range, _) => range.low,
            _ => NO_HIGH,
        }
    }

    /// As a figure, where it is one.
    pub(crate) fn margin(self) -> Option<Margin> {
        match self {
            Room::Amount(range, dimension)
                if range.least().is_some_and(|low| low != NO_HIGH)
                    || range.greatest().is_some_and(|high| high != NO_LOW) =>
            {
                Some(Margin { range, dimension })
            }
            _ => None,
        }
    }
}
