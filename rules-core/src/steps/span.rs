//! Spans of time on the calendar. A span that may be shorter or longer counts in full: dates are to be kept.

use crate::quantity::{Dimension, Unit, WorkingDays, add_months};
use crate::ruleset::Stated;

/// What goes beyond is no plan any more: 400 years.
const MOST_DAYS: i128 = 146_097;
const MOST_MONTHS: i128 = 4_800_000;

/// A span, and the calendar that says which days are working days for whoever wrote it.
#[derive(Clone, Copy)]
pub(super) struct Span<'r> {
    pub stated: &'r Stated,
    pub calendar: &'r WorkingDays,
}

/// The day so long after a day.
pub(super) fn after(day: i128, span: Option<Span<'_>>) -> i128 {
    let Some(Span { stated, calendar }) = span else {
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

/// The last day from which it is no later than `day` so long after.
pub(super) fn before(day: i128, span: Option<Span<'_>>) -> i128 {
    let Some(Span { stated, calendar }) = span else {
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
    // Months are not of one length: 31 March less a month is 28 February, and so are 30 and 29 March.
    let near = guess.saturating_sub(4)..=guess.saturating_add(4);
    near.rev()
        .find(|from| after(*from, span) <= day)
        .unwrap_or(guess)
}

/// Thousandths of months as whole months, and as many days as the rest can have.
fn whole_months(thousandths: i128) -> (i128, i128) {
    let rest = thousandths.rem_euclid(1000);
    (thousandths.div_euclid(1000), (rest * 31 + 999) / 1000)
}
