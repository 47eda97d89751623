//! What is known of one subject of a rule at each distance.

use std::collections::BTreeMap;

use crate::check::{Outcome, Part, Truth};

/// A range of distances, in nanometres: what is drawn, less and plus what it may be off.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Range {
    pub low: i64,
    pub high: i64,
    /// Whether the checker takes just this low end. If not, it takes a lesser one.
    pub low_counts: bool,
    /// Whether the checker takes just this high end. If not, it takes a lesser one.
    pub high_counts: bool,
}

impl Range {
    /// A single distance, whatever it is.
    pub const ONE: Range = Range {
        low: 0,
        high: 0,
        low_counts: true,
        high_counts: true,
    };
}

/// What has been found so far. A subject surely holds by the low end of its range alone, and surely fails by the high end.
#[derive(Debug, Clone, Default)]
pub(super) struct Known {
    /// It surely holds from here on.
    holds_from: Option<i64>,
    /// It does not surely hold up to here.
    short_to: Option<i64>,
    /// It surely fails up to here.
    fails_to: Option<i64>,
    /// It does not surely fail from here on.
    stands_from: Option<i64>,
    /// What came out with the pool in one place, by the low end.
    places: BTreeMap<i64, (Outcome, Truth, Truth)>,
}

impl Known {
    /// Remembers what came out; `one_place` is whether the pool was in one place, not anywhere in a cell.
    pub fn learn(&mut self, range: Range, part: &Part, one_place: bool) {
        match Outcome::decided(part.truth) {
            Some(Outcome::Pass | Outcome::NotApplicable) => {
                let known = self.holds_from.unwrap_or(range.low);
                self.holds_from = Some(known.min(range.low));
            }
            // None is less than any amount.
            _ if range.low_counts => self.short_to = self.short_to.max(Some(range.low)),
            _ => {}
        }
        match part.truth == Truth::FAILS {
            true if range.high_counts => self.fails_to = self.fails_to.max(Some(range.high)),
            true => {}
            false => {
                let known = self.stands_from.unwrap_or(range.high);
                self.stands_from = Some(known.min(range.high));
            }
        }
        if one_place && range.low_counts && range.high_counts {
            let found = (part.outcome, part.truth, part.as_drawn);
            self.places.insert(range.low, found);
        }
    }

    /// What comes out in a range, as far as it is known; for a cell, whatever is open is called unknown.
    pub fn outcome(&self, range: Range, one_place: bool) -> Option<Outcome> {
        let holds = self.holds_from.is_some_and(|from| range.low >= from);
        let is_short = self.short_to.is_some_and(|to| range.low <= to);
        let fails = self.fails_to.is_some_and(|to| range.high <= to);
        let stands = self.stands_from.is_some_and(|from| range.high >= from);
        if range.low_counts && holds {
            Some(Outcome::Pass)
        } else if fails {
            Some(Outcome::Fail)
        } else if !is_short || !stands || !range.high_counts {
            None
        } else if one_place {
            self.between(range)
        } else {
            Some(Outcome::Unknown)
        }
    }

    /// If a smaller and a larger distance had the same outcome, every distance between them has it, too.
    fn between(&self, range: Range) -> Option<Outcome> {
        let before = self.places.range(..=range.low).next_back();
        let after = self.places.range(range.low..).next();
        let same = before.zip(after).filter(|(one, other)| one.1 == other.1);
        same.filter(|_| range.low_counts).map(|(one, _)| one.1.0)
    }
}
