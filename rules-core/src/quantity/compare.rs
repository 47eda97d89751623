//! Comparing two intervals, over all the values that both can have.

use super::dimension::Dimension;
use super::interval::Interval;
use serde::{Deserialize, Serialize};

/// How a measured amount must compare with a limit.
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

/// The possible results of a comparison. At least one of the two is true.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Compared {
    /// The relation holds for some of the possible values.
    pub can_be_true: bool,
    /// It fails for some of the possible values.
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
    /// Whether the amount is at least the limit.
    pub fn at_least(self, limit: Self) -> Compared {
        Compared {
            can_be_true: self.high >= limit.low,
            can_be_false: self.low < limit.high,
        }
    }

    /// Whether the amount is more than the limit.
    pub fn more_than(self, limit: Self) -> Compared {
        Compared {
            can_be_true: self.high > limit.low,
            can_be_false: self.low <= limit.high,
        }
    }

    /// Whether the amount is at most the limit.
    pub fn at_most(self, limit: Self) -> Compared {
        limit.at_least(self)
    }

    /// Whether the amount is less than the limit.
    pub fn less_than(self, limit: Self) -> Compared {
        limit.more_than(self)
    }

    /// Whether the amount is the same as the limit.
    pub fn equals(self, limit: Self) -> Compared {
        let same = self.is_exact() && self == limit;
        Compared {
            can_be_true: self.meet(limit).is_some(),
            can_be_false: !same,
        }
    }
}

impl Relation {
    /// Compares the measured amount with the limit; both are of one dimension.
    pub fn judge(self, measured: Interval, limit: Interval) -> Compared {
        match self {
            Self::AtLeast => measured.at_least(limit),
            Self::MoreThan => measured.more_than(limit),
            Self::AtMost => measured.at_most(limit),
            Self::LessThan => measured.less_than(limit),
            Self::Is => measured.equals(limit),
        }
    }

    /// [`Relation::judge`] with the dimensions; `None` where they cannot be compared. To compare days with months,
    /// the months are turned into the number of days that they can have.
    pub fn judge_as(
        self,
        measured: (Interval, Dimension),
        limit: (Interval, Dimension),
    ) -> Option<Compared> {
        let (measured, limit, _) = in_one_dimension(measured, limit)?;
        Some(self.judge(measured, limit))
    }

    /// The margin, positive where the relation is met; `None` for [`Relation::Is`], which is met or not.
    pub fn margin(self, measured: Interval, limit: Interval) -> Option<Interval> {
        match self {
            Self::AtLeast | Self::MoreThan => Some(measured.sub(limit)),
            Self::AtMost | Self::LessThan => Some(limit.sub(measured)),
            Self::Is => None,
        }
    }
}

/// Both amounts in one dimension, ready to be compared, added or subtracted. They stay as they are, except that months
/// become days where the other amount is in days. `None` where the dimensions differ otherwise.
pub fn in_one_dimension(
    (one, of_one): (Interval, Dimension),
    (two, of_two): (Interval, Dimension),
) -> Option<(Interval, Interval, Dimension)> {
    match (of_one, of_two) {
        (Dimension::Days, Dimension::Months) => Some((one, two.days_of_months(), Dimension::Days)),
        (Dimension::Months, Dimension::Days) => Some((one.days_of_months(), two, Dimension::Days)),
        _ if of_one == of_two => Some((one, two, of_one)),
        _ => None,
    }
}
