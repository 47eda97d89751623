//! The largest, the smallest or the sum of amounts, some of which may not exist.

use crate::check::Truth;
use crate::quantity::Interval;
use crate::ruleset::Over;

/// The largest, the smallest or the sum of amounts, some of which may not exist.
pub(crate) struct Total {
    how: Over,
    sure: Option<Interval>,
    all: Option<Interval>,
    /// Whether some thing states that it has no such amount.
    nothing: Truth,
}

impl Total {
    pub(crate) fn new(how: Over) -> Total {
        let start = (how == Over::Sum).then_some(Interval::exact(0));
        Total {
            how,
            sure: start,
            all: start,
            nothing: Truth::FAILS,
        }
    }

    /// Adds a thing that has no such amount: it adds nothing to a sum, and leaves no largest and no smallest, as it would keep no
    /// limit by itself either.
    pub(crate) fn add_nothing(&mut self, sure: bool) {
        let own = match (self.how, sure) {
            (Over::Sum, _) => Truth::FAILS,
            (_, true) => Truth::HOLDS,
            (_, false) => Truth::OPEN,
        };
        self.nothing = self.nothing.or(own);
    }

    pub(crate) fn may_be_nothing(&self) -> bool {
        self.nothing != Truth::FAILS
    }

    pub(crate) fn add(&mut self, range: Interval, sure: bool, many: bool) {
        match self.how {
            Over::Sum => self.add_to_sum(range, sure, many),
            Over::Largest => self.join(range, sure, Interval::max),
            Over::Smallest => self.join(range, sure, Interval::min),
        }
    }

    fn add_to_sum(&mut self, range: Interval, sure: bool, many: bool) {
        let perhaps = Interval {
            low: range.low.min(0),
            high: range.high.max(0),
        };
        let own = match (sure, many) {
            (true, _) => range,
            (false, false) => perhaps,
            (false, true) => Interval {
                low: if range.low < 0 {
                    Interval::any().low
                } else {
                    0
                },
                high: if range.high > 0 {
                    Interval::any().high
                } else {
                    0
                },
            },
        };
        self.sure = self.sure.map(|sum| sum.add(own));
        self.all = self.sure;
    }

    fn join(&mut self, range: Interval, sure: bool, pick: fn(Interval, Interval) -> Interval) {
        let joined = |old: Option<Interval>| Some(old.map_or(range, |old| pick(old, range)));
        if sure {
            self.sure = joined(self.sure);
        }
        self.all = joined(self.all);
    }

    pub(crate) fn may_be_empty(&self) -> bool {
        self.sure.is_none() && self.nothing != Truth::HOLDS
    }

    /// The range between the result of the sure ones and the result of all.
    pub(crate) fn range(&self) -> Option<Interval> {
        let all = self.all.filter(|_| self.nothing != Truth::HOLDS)?;
        Some(match (self.how, self.sure) {
            (Over::Sum, _) => all,
            (Over::Largest, Some(sure)) => Interval {
                low: sure.low,
                high: all.high,
            },
            (Over::Smallest, Some(sure)) => Interval {
                low: all.low,
                high: sure.high,
            },
            (_, None) => self.only_perhaps(all),
        })
    }

    /// The range where none is sure, so that any one may be the only one.
    fn only_perhaps(&self, all: Interval) -> Interval {
        match self.how {
            Over::Largest => Interval {
                low: Interval::any().low,
                high: all.high,
            },
            _ => Interval {
                low: all.low,
                high: Interval::any().high,
            },
        }
    }
}
