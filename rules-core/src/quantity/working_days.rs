//! Working days: those that are neither on the weekend nor a holiday.

use std::collections::BTreeSet;

use super::CalendarDate;
use super::easter::easter;

/// A day of the week.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Weekday {
    /// Monday.
    Monday,
    /// Tuesday.
    Tuesday,
    /// Wednesday.
    Wednesday,
    /// Thursday.
    Thursday,
    /// Friday.
    Friday,
    /// Saturday.
    Saturday,
    /// Sunday.
    Sunday,
}

impl Weekday {
    /// The words that files use, in the order of the week.
    pub const ALL: [(&'static str, Self); 7] = [
        ("monday", Self::Monday),
        ("tuesday", Self::Tuesday),
        ("wednesday", Self::Wednesday),
        ("thursday", Self::Thursday),
        ("friday", Self::Friday),
        ("saturday", Self::Saturday),
        ("sunday", Self::Sunday),
    ];

    /// Its name in sentences.
    pub fn name(self) -> &'static str {
        match self {
            Self::Monday => "Monday",
            Self::Tuesday => "Tuesday",
            Self::Wednesday => "Wednesday",
            Self::Thursday => "Thursday",
            Self::Friday => "Friday",
            Self::Saturday => "Saturday",
            Self::Sunday => "Sunday",
        }
    }

    /// The day of the week of a day number: 1970-01-01 was a Thursday.
    pub fn of(day: i128) -> Self {
        let mut from_thursday = Self::ALL.iter().cycle().skip(3);
        let place = usize::try_from(day.rem_euclid(7)).unwrap_or_default();
        from_thursday
            .nth(place)
            .map_or(Self::Thursday, |(_, weekday)| *weekday)
    }
}

/// A day of every year.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct YearDay {
    /// The month, from 1.
    pub month: i128,
    /// The day of the month, from 1.
    pub day: i128,
}

impl YearDay {
    /// Its day number in a year; `None` for 29 February where there is none.
    fn in_year(self, year: i128) -> Option<i128> {
        let YearDay { month, day } = self;
        CalendarDate { year, month, day }.day_number()
    }
}

/// A holiday.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Holiday {
    /// This one day.
    On(i128),
    /// This day of every year.
    Yearly(YearDay),
    /// This many days after Easter Sunday; before it, if negative.
    Easter(i128),
    /// The first such weekday on or after this day of the year.
    WeekdayFrom(Weekday, YearDay),
}

/// Which days are working days.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WorkingDays {
    /// What the calendar is called, where it has a name.
    pub name: Option<String>,
    /// The days of the week on which nobody works.
    pub weekend: BTreeSet<Weekday>,
    /// The holidays; `None` where nobody has stated them.
    pub holidays: Option<Vec<Holiday>>,
    /// Where a fixed holiday falls on the first weekday of a pair, the second is taken off in lieu.
    pub moved: Vec<(Weekday, Weekday)>,
}

impl Default for WorkingDays {
    /// All days but Saturdays and Sundays; nobody has stated the holidays.
    fn default() -> Self {
        Self {
            name: None,
            weekend: [Weekday::Saturday, Weekday::Sunday].into(),
            holidays: None,
            moved: Vec::new(),
        }
    }
}

impl WorkingDays {
    /// Whether a day is a working day.
    pub fn works(&self, day: i128) -> bool {
        !self.weekend.contains(&Weekday::of(day)) && !self.is_holiday(day)
    }

    fn is_holiday(&self, day: i128) -> bool {
        let year = CalendarDate::from_day_number(day).year;
        let holidays = self.holidays.iter().flatten();
        holidays.copied().any(|holiday| match holiday {
            Holiday::On(one) => one == day,
            Holiday::Yearly(of_year) => self.falls_on(of_year, year, day),
            Holiday::Easter(after) => easter(year).saturating_add(after) == day,
            Holiday::WeekdayFrom(weekday, from) => {
                let from = from.in_year(year);
                Weekday::of(day) == weekday
                    && from.is_some_and(|from| (from..from.saturating_add(7)).contains(&day))
            }
        })
    }

    /// Whether a day is taken off for a fixed holiday: the holiday itself, or the day it is moved to.
    fn falls_on(&self, of_year: YearDay, year: i128, day: i128) -> bool {
        // A holiday near New Year may be moved into the year before or after.
        let own = [year - 1, year, year + 1].map(|year| of_year.in_year(year));
        own.into_iter().flatten().any(|own| {
            let to = self
                .moved
                .iter()
                .find(|(from, _)| *from == Weekday::of(own));
            own == day
                || to.is_some_and(|(_, to)| (day - own).abs() <= 3 && Weekday::of(day) == *to)
        })
    }

    /// The day of the `count`th working day after a day; the day itself does not count.
    pub fn after(&self, day: i128, count: i128) -> i128 {
        let mut left = count;
        let mut days = day.saturating_add(1)..day.saturating_add(enough_days(count));
        let last = days.find(|day| {
            left -= i128::from(self.works(*day));
            left <= 0
        });
        match count {
            ..=0 => day,
            _ => last.unwrap_or(days.end),
        }
    }

    /// The last day from which counting [`after`](Self::after) still ends on or before `day`.
    pub fn before(&self, day: i128, count: i128) -> i128 {
        let mut left = count;
        let earliest = day.saturating_sub(enough_days(count));
        let first = (earliest..=day).rev().find(|day| {
            left -= i128::from(self.works(*day));
            left <= 0
        });
        match count {
            ..=0 => day,
            _ => first.unwrap_or(earliest).saturating_sub(1),
        }
    }
}

/// A number of days that surely holds `count` working days in any real calendar: one working day a week, and holidays
/// for a year or two besides.
fn enough_days(count: i128) -> i128 {
    count.saturating_mul(7).saturating_add(800)
}
