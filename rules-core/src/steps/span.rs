//! Spans of time on the calendar. An uncertain span counts at its longest, so that the dates can be kept.

use crate::quantity::{Dimension, Unit, WorkingDays, add_months};
use crate::ruleset::Stated;

/// No plan runs longer than this: 400 years.
const MOST_DAYS: i128 = 146_097;
const MOST_MONTHS: i128 = 4_800_000;

/// A span, and the calendar to count its working days by.
#[derive(Clone, Copy)]
pub(super) struct TimeSpan<'r> {
    pub stated: &'r Stated,
    pub calendar: &'r WorkingDays,
}

/// The day that lies a span after another.
pub(super) fn after(day: i128, span: Option<TimeSpan<'_>>) -> i128 {
    let Some(TimeSpan { stated, calendar }) = span else {
        return day;
    };
    let long = stated.range.high.max(0);
    match stated.dimension {
        _ if stated.unit == Unit::WORKING_DAY => calendar.after(day, long),
        Dimension::Months => {
            let (months, rest) = whole_months(long.min(MOST_MONTHS));
            add_months(day, months).saturating_add(rest)
        }
        _ => day.saturating_add(long.min(MOST_DAYS)),
    }
}

/// The last day from which the span ends no later than `day`.
pub(super) fn before(day: i128, span: Option<TimeSpan<'_>>) -> i128 {
    let Some(TimeSpan { stated, calendar }) = span else {
        return day;
    };
    let long = stated.range.high.max(0);
    if stated.unit == Unit::WORKING_DAY {
        return calendar.before(day, long);
    }
    let guess = match stated.dimension {
        Dimension::Months => {
            let (months, rest) = whole_months(long.min(MOST_MONTHS));
            add_months(day.saturating_sub(rest), -months)
        }
        _ => day.saturating_sub(long.min(MOST_DAYS)),
    };
    // Months differ in length: a month before 31 March is 28 February, and so it is for 30 and 29 March.
    let near = guess.saturating_sub(4)..=guess.saturating_add(4);
    near.rev()
        .find(|from| after(*from, span) <= day)
        .unwrap_or(guess)
}

/// Thousandths of months as whole months, and the most days that the rest can have.
fn whole_months(thousandths: i128) -> (i128, i128) {
    let rest = thousandths.rem_euclid(1000);
    (thousandths.div_euclid(1000), (rest * 31 + 999) / 1000)
}
