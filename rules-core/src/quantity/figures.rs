//! Figures for a report that never contradict what it says.

use super::compare::{Compared, Relation};
use super::dimension::Dimension;
use super::interval::Interval;
use super::show::{ends, read_again, show_exactly};
use super::unit::Unit;

/// A measured range and its limit in words. Somebody who compares the printed figures by hand gets the same answer as
/// from the exact amounts.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Figures {
    /// The least that was measured, rounded down.
    pub low: String,
    /// The most that was measured, rounded up.
    pub high: String,
    /// The ends of the limit, the low one rounded down and the high one up; both are the same where it is one amount.
    pub limit: (String, String),
}

impl Figures {
    /// The figures, each amount in its unit; the two differ where the measured one cannot be given in the limit's: days
    /// against months.
    pub fn across(measured: (Interval, Unit), relation: Relation, limit: (Interval, Unit)) -> Self {
        let exact = relation.judge_as(with_dimension(measured), with_dimension(limit));
        let mut digits = measured.1.digits();
        let mut printed = Printed::new(measured, limit, digits);
        while digits < MOST_DIGITS && printed.judge(relation) != exact {
            digits += 1;
            printed = Printed::new(measured, limit, digits);
        }
        Self {
            low: printed.measured.low,
            high: printed.measured.high,
            limit: (printed.limit.low, printed.limit.high),
        }
    }
}

/// With this many digits every figure is exact.
const MOST_DIGITS: u32 = 30;

/// A range as printed.
struct Ends {
    low: String,
    high: String,
    unit: Unit,
}

impl Ends {
    fn outward((range, unit): (Interval, Unit), digits: u32) -> Self {
        let (low, high) = ends(range, unit, digits);
        Self { low, high, unit }
    }

    /// A limit that is one amount is not rounded.
    fn as_written((range, unit): (Interval, Unit), digits: u32) -> Self {
        if !range.is_exact() {
            return Self::outward((range, unit), digits);
        }
        let text = show_exactly(range.low, unit);
        Self {
            low: text.clone(),
            high: text,
            unit,
        }
    }

    /// The amounts the printed figures stand for.
    fn read(&self) -> Option<(Interval, Dimension)> {
        let low = read_again(&self.low, self.unit)?;
        let high = match self.high == self.low {
            true => low,
            false => read_again(&self.high, self.unit)?,
        };
        Some((Interval { low, high }, self.unit.dimension()))
    }
}

/// Both ranges, printed with some number of digits.
struct Printed {
    measured: Ends,
    limit: Ends,
}

impl Printed {
    fn new(measured: (Interval, Unit), limit: (Interval, Unit), digits: u32) -> Self {
        Self {
            measured: Ends::outward(measured, digits),
            limit: Ends::as_written(limit, digits),
        }
    }

    fn judge(&self, relation: Relation) -> Option<Compared> {
        relation.judge_as(self.measured.read()?, self.limit.read()?)
    }
}

fn with_dimension((range, unit): (Interval, Unit)) -> (Interval, Dimension) {
    (range, unit.dimension())
}
