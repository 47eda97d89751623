//! How long a pool stands: in months or in days, under limits in months.

use std::cmp::Ordering;

use rules_core::quantity::Dimension;

use super::asked::{Got, Measure};
use super::site::{Fact, Site, Span};
use super::{pool, shown};
use crate::soundness::evaluate::Undecided;
use crate::soundness::random::Random;
use crate::soundness::words::METRE;

/// The measures asked for.
pub const MEASURES: &[Measure] = &[Measure {
    each: None,
    within: None,
    value: "fact: pool.standing-time",
    dimension: Dimension::Months,
    of: |world, _| match world.pool().fact("standing-time") {
        Some(Fact::Time(spans)) => Ok(Got::Time(spans[0])),
        _ => Err(Undecided::NotKnown),
    },
    exact: true,
}];

/// A pool that stands for some time.
pub fn draw(random: &mut Random) -> Site {
    let span = match random.chance(50) {
        true => Span {
            count: random.between(1, 30),
            months: true,
        },
        false => Span {
            count: random.between(1, 900),
            months: false,
        },
    };
    let mut pool = pool(random, (8 * METRE, 8 * METRE));
    pool.facts.push(("standing-time", Fact::Time(vec![span])));
    let mut site = Site::new((24 * METRE, 30 * METRE), pool, &shown(&[]));
    site.begins = random.below(48);
    site
}

/// A limit beside a span, in months.
pub fn near(random: &mut Random, span: Span) -> Span {
    let about = match span.months {
        true => span.count,
        false => span.count * 12 / 365,
    };
    let by = *random.pick(&[0, 1, 2, 10]);
    let count = (about + random.between(-by, by)).max(1);
    Span {
        count,
        months: true,
    }
}

/// The days of twelve months, with 28 in February.
const DAYS: [i64; 12] = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/// The days of a span that begins with a month, counted from a January two years after a leap year.
fn days(span: Span, begins: usize) -> i64 {
    if !span.months {
        return span.count;
    }
    let months = usize::try_from(span.count).unwrap_or(0);
    let long = |month: usize| {
        let leap = month % 48 == 25;
        DAYS[month % 12] + i64::from(leap)
    };
    (begins..begins + months).map(long).sum()
}

/// Compares two spans that begin on the same day.
pub fn compared(one: Span, other: Span, begins: usize) -> Ordering {
    match one.months == other.months {
        true => one.count.cmp(&other.count),
        false => days(one, begins).cmp(&days(other, begins)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn months(count: i64) -> Span {
        Span {
            count,
            months: true,
        }
    }

    /// Worked by hand: two months are 59 days from January and 62 from July; every fourth year has a February of 29
    /// days.
    #[test]
    fn months_are_as_long_as_the_calendar_says() {
        assert_eq!(days(months(2), 0), 59);
        assert_eq!(days(months(2), 6), 62);
        assert_eq!(days(months(2), 24), 60);
        assert_eq!(days(months(48), 5), 4 * 365 + 1);
    }
}
