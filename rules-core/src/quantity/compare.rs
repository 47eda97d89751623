//! Comparing two intervals, over all the values that both can have.

use super::dimension::Dimension;
use super::interval::Interval;
use serde::{Deserialize, Serialize};

/// How a measured amount has to stand to a limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Relation {
    /// The limit or more.
    AtLeast,
    /// More than the limit.
    MoreThan,
    /// The limit or less.
    AtMost,
    /// Less than the limit.
    LessThan,
    /// The limit itself.
    Is,
}

/// What a comparison can come to. At least one of the two is true.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Compared {
    /// There are possible values for which the relation holds.
    pub can_be_true: bool,
    /// There are possible values for which it does not hold.
    pub can_be_false: bool,
}

impl Compared {
    /// It holds whatever the values are.
    pub fn surely(self) -> bool {
        !self.can_be_false
    }

    /// It holds for no values.
    pub fn never(self) -> bool {
        !self.can_be_true
    }

    /// It holds for some values and not for others.
    pub fn open(self) -> bool {
        self.can_be_true && self.can_be_false
    }
}

impl Interval {
    /// Whether one of these is at least one of the limit's.
    pub fn at_least(self, limit: Self) -> Compared {
        Compared {
            can_be_true: self.high >= limit.low,
            can_be_false: self.low < limit.high,
        }
    }

    /// Whether one of these is more than one of the limit's.
    pub fn more_than(self, limit: Self) -> Compared {
        Compared {
            can_be_true: self.high > limit.low,
            can_be_false: self.low <= limit.high,
        }
    }

    /// Whether one of these is at most one of the limit's.
    pub fn at_most(self, limit: Self) -> Compared {
        limit.at_least(self)
    }

    /// Whether one of these is less than one of the limit's.
    pub fn less_than(self, limit: Self) -> Compared {
        limit.more_than(self)
    }

    /// Whether one of these is the same as one of the limit's.
    pub fn equals(self, limit: Self) -> Compared {
        let same = self.is_exact() && self == limit;
        Compared {
            can_be_true: self.meet(limit).is_some(),
            can_be_false: !same,
        }
    }
}

impl Relation {
    /// How the measured amount stands to the limit, both of one dimension.
    pub fn judge(self, measured: Interval, limit: Interval) -> Compared {
        match self {
            Self::AtLeast => measured.at_least(limit),
            Self::MoreThan => measured.more_than(limit),
            Self::AtMost => measured.at_most(limit),
            Self::LessThan => measured.less_than(limit),
            Self::Is => measured.equals(limit),
        }
    }

    /// [`Relation::judge`] with the dimensions; `None` where they cannot be compared. Days stand against months by
    /// the number of days that so many months can have.
    pub fn judge_as(
        self,
        measured: (Interval, Dimension),
        limit: (Interval, Dimension),
    ) -> Option<Compared> {
        let (measured, limit, _) = in_one_dimension(measured, limit)?;
        Some(self.judge(measured, limit))
    }

    /// By how much the relation is kept, good being positive; `None` for [`Relation::Is`], which is kept or not.
    pub fn margin(self, measured: Interval, limit: Interval) -> Option<Interval> {
        match self {
            Self::AtLeast | Self::MoreThan => Some(measured.sub(limit)),
            Self::AtMost | Self::LessThan => Some(limit.sub(measured)),
            Self::Is => None,
        }
    }
}

/// Both amounts in one dimension, so that they can be compared, added or subtracted: as they are, or in days where one
/// is in days and the other in months.
pub fn in_one_dimension(
    (one, own): (Interval, Dimension),
    (two, others): (Interval, Dimension),
) -> Option<(Interval, Interval, Dimension)> {
    match (own, others) {
        (Dimension::Days, Dimension::Months) => Some((one, two.days_of_months(), Dimension::Days)),
        (Dimension::Months, Dimension::Days) => Some((one.days_of_months(), two, Dimension::Days)),
        _ if own == others => Some((one, two, own)),
        _ => None,
    }
}
