//! Calendar days, by the Gregorian calendar, as numbers of days since 1970-01-01.

use super::interval::Interval;

/// The calendar repeats every 400 years, weekdays included.
const DAYS_IN_400_YEARS: i128 = 146_097;
const MONTHS_IN_400_YEARS: i128 = 4_800;
/// From 0000-03-01, where this count of days begins, to 1970-01-01.
const DAYS_TO_1970: i128 = 719_468;

/// A day of the calendar.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct CalendarDate {
    /// The year, as written.
    pub year: i128,
    /// The month, from 1.
    pub month: i128,
    /// The day of the month, from 1.
    pub day: i128,
}

impl CalendarDate {
    /// The date with that number of days since 1970-01-01.
    pub fn from_day_number(number: i128) -> Self {
        // Years are counted from March, so that the leap day is the last of its year.
        let days = number.saturating_add(DAYS_TO_1970);
        let (era, day_of_era) = (
            days.div_euclid(DAYS_IN_400_YEARS),
            days.rem_euclid(DAYS_IN_400_YEARS),
        );
        let year_of_era =
            (day_of_era - day_of_era / 1460 + day_of_era / 36_524 - day_of_era / 146_096) / 365;
        let day_of_year = day_of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
        let from_march = (5 * day_of_year + 2) / 153;
        let month = from_march + if from_march < 10 { 3 } else { -9 };
        Self {
            year: era * 400 + year_of_era + i128::from(month <= 2),
            month,
            day: day_of_year - (153 * from_march + 2) / 5 + 1,
        }
    }

    /// The number of days since 1970-01-01; `None` if the calendar has no such day.
    pub fn day_number(self) -> Option<i128> {
        let real = (1..=9999).contains(&self.year)
            && (1..=12).contains(&self.month)
            && (1..=days_in_month(self.year, self.month)).contains(&self.day);
        real.then(|| day_number(self.year, self.month, self.day))
    }
}

impl std::fmt::Display for CalendarDate {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(out, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

/// The day that many calendar months later (or earlier). Where the month is too short, it is the month's last day:
/// one month after 31 January is the last of February.
pub fn add_months(number: i128, months: i128) -> i128 {
    let date = CalendarDate::from_day_number(number);
    let count = (date.year * 12 + date.month - 1).saturating_add(months);
    let (year, month) = (count.div_euclid(12), count.rem_euclid(12) + 1);
    day_number(year, month, date.day.min(days_in_month(year, month)))
}

/// The fewest and the most days in that many whole calendar months in a row; `None` where the number does not fit.
pub(crate) fn days_in_months(months: i128) -> Option<Interval> {
    if months < 0 {
        return days_in_months(months.checked_neg()?).map(Interval::neg);
    }
    let whole = (months / MONTHS_IN_400_YEARS).checked_mul(DAYS_IN_400_YEARS)?;
    let rest = months % MONTHS_IN_400_YEARS;
    let spans = (0..MONTHS_IN_400_YEARS).map(|first| first_of(first + rest) - first_of(first));
    let hull = spans.map(Interval::exact).reduce(Interval::hull)?;
    Some(hull.shift(whole))
}

/// The first day of a month, counted from January of the year 0.
fn first_of(month: i128) -> i128 {
    day_number(month.div_euclid(12), month.rem_euclid(12) + 1, 1)
}

fn days_in_month(year: i128, month: i128) -> i128 {
    match month {
        2 if is_leap(year) => 29,
        2 => 28,
        4 | 6 | 9 | 11 => 30,
        _ => 31,
    }
}

fn is_leap(year: i128) -> bool {
    year % 4 == 0 && (year % 100 != 0 || year % 400 == 0)
}

fn day_number(year: i128, month: i128, day: i128) -> i128 {
    let year = if month <= 2 { year - 1 } else { year };
    let (era, year_of_era) = (year.div_euclid(400), year.rem_euclid(400));
    let from_march = if month > 2 { month - 3 } else { month + 9 };
    let day_of_year = (153 * from_march + 2) / 5 + day - 1;
    let day_of_era = year_of_era * 365 + year_of_era / 4 - year_of_era / 100 + day_of_year;
    era.saturating_mul(DAYS_IN_400_YEARS)
        .saturating_add(day_of_era - DAYS_TO_1970)
}
