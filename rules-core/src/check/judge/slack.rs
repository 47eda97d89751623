//! How much slack a requirement leaves. Positive is good.

use crate::check::{Margin, Truth};
use crate::quantity::{Dimension, Interval, NO_HIGH, NO_LOW};

/// The slack that a requirement leaves.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Slack {
    /// An amount; positive is good.
    Amount(Interval, Dimension),
    /// It holds, and no amount could change that (a word).
    Endless,
    /// It does not hold, and no amount could change that.
    None,
    /// A word that is still open.
    Open,
    /// Amounts of different dimensions, which no single figure can express.
    Unlike,
}

impl Slack {
    /// The slack of a requirement that has no amounts.
    pub(crate) fn of_truth(truth: Truth) -> Slack {
        match truth {
            Truth::HOLDS => Slack::Endless,
            Truth::FAILS => Slack::None,
            _ => Slack::Open,
        }
    }

    fn range(self) -> Option<(Interval, Option<Dimension>)> {
        match self {
            Slack::Amount(range, dimension) => Some((range, Some(dimension))),
            Slack::Endless => Some((Interval::exact(NO_HIGH), None)),
            Slack::None => Some((Interval::exact(NO_LOW), None)),
            Slack::Open => Some((Interval::any(), None)),
            Slack::Unlike => None,
        }
    }

    fn together(self, other: Slack, join: fn(Interval, Interval) -> Interval) -> Slack {
        let (Some((one, own)), Some((two, others))) = (self.range(), other.range()) else {
            return Slack::Unlike;
        };
        match (own, others) {
            (Some(own), Some(others)) if own != others => Slack::Unlike,
            (Some(dimension), _) | (_, Some(dimension)) => Slack::Amount(join(one, two), dimension),
            (None, None) => match join(one, two) {
                range if range == Interval::exact(NO_HIGH) => Slack::Endless,
                range if range == Interval::exact(NO_LOW) => Slack::None,
                _ => Slack::Open,
            },
        }
    }

    /// The slack of two that must both hold: the lesser.
    pub(crate) fn least(self, other: Slack) -> Slack {
        self.together(other, Interval::min)
    }

    /// The slack of two of which one must hold: the greater.
    pub(crate) fn greatest(self, other: Slack) -> Slack {
        self.together(other, Interval::max)
    }

    /// The slack of two of which either may be the case.
    pub(crate) fn either(self, other: Slack) -> Slack {
        self.together(other, Interval::hull)
    }

    pub(crate) fn negated(self) -> Slack {
        match self {
            Slack::Amount(range, dimension) => Slack::Amount(range.neg(), dimension),
            Slack::Endless => Slack::None,
            Slack::None => Slack::Endless,
            other => other,
        }
    }

    /// The least slack as an amount; where there is none, more than any amount.
    pub(crate) fn least_amount(self) -> i128 {
        match self {
            Slack::Amount(range, _) => range.low,
            _ => NO_HIGH,
        }
    }

    /// As a figure, where it is one.
    pub(crate) fn margin(self) -> Option<Margin> {
        match self {
            Slack::Amount(range, dimension)
                if range.least().is_some_and(|low| low != NO_HIGH)
                    || range.greatest().is_some_and(|high| high != NO_LOW) =>
            {
                Some(Margin { range, dimension })
            }
            _ => None,
        }
    }
}
