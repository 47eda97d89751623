//! The calendar by which a file counts working days.

use crate::faults::Code;
use crate::grammar;
use crate::quantity::{CalendarDate, Dimension};
use crate::quantity::{Holiday, Interval, Unit, Weekday, WorkingDays, YearDay, parse};
use crate::ruleset::Stated;
use crate::ruleset::read::Reader;
use crate::ruleset::read::value::is_amount;
use crate::text::{Entry, Node, Span};

/// More working days than this in one span are a slip: four years.
const MOST: i128 = 1000;
/// No country has more holidays than this.
const MOST_HOLIDAYS: usize = 60;
/// 1 January 2026 and a year on from it: in any year a calendar has a working day.
const A_YEAR: std::ops::Range<i128> = 20_454..20_819;

impl<'a> Reader<'a> {
    /// The calendar of the files; the one of the file asked for counts, else that of a file under it.
    pub(crate) fn calendar(&mut self) -> WorkingDays {
        let mut calendar = None;
        self.base_first(|reader, node| {
            let written = node.get("calendar");
            calendar = written
                .and_then(|node| reader.one_calendar(node))
                .or(calendar.take());
        });
        calendar.unwrap_or_default()
    }

    fn one_calendar(&mut self, node: &'a Node) -> Option<WorkingDays> {
        let [name, weekend, holidays, moved] = self.keys(node, &grammar::CALENDAR)?;
        let mut calendar = WorkingDays {
            name: self.told(name),
            ..WorkingDays::default()
        };
        if let Some(entry) = weekend {
            let days = self.words(&entry.value).into_iter();
            let days = days.filter_map(|(word, span)| self.weekday(word, span));
            calendar.weekend = days.collect();
        }
        calendar.holidays = holidays.map(|entry| self.holidays(entry));
        calendar.moved = moved.map_or_else(Vec::new, |entry| self.moved(entry));
        if !A_YEAR.clone().any(|day| calendar.works(day)) {
            self.fault(Code::NoWorkingDay, node.span, "By this calendar there is no working day.")
                .help("Name under `weekend` only the days of the week on which nobody works, as in `[saturday, sunday]`.");
            calendar.weekend = WorkingDays::default().weekend;
        }
        Some(calendar)
    }

    fn weekday(&mut self, word: &str, span: Span) -> Option<Weekday> {
        let known = Weekday::ALL.iter().find(|(name, _)| *name == word);
        if known.is_none() {
            self.unknown_word(word, span, Weekday::ALL.iter().map(|(name, _)| *name));
        }
        known.map(|(_, weekday)| *weekday)
    }

    fn holidays(&mut self, entry: &'a Entry) -> Vec<Holiday> {
        let items = self.items(&entry.value, &entry.key);
        if items.len() > MOST_HOLIDAYS {
            let message = format!(
                "A calendar has at most {MOST_HOLIDAYS} holidays, and this one lists more."
            );
            self.fault(Code::TooManyHolidays, entry.key_span, message)
                .help("Write what comes every year once, as in `12-25` or `easter+1`.");
            return Vec::new();
        }
        items.iter().filter_map(|item| self.holiday(item)).collect()
    }

    fn holiday(&mut self, node: &'a Node) -> Option<Holiday> {
        let holiday = node.text().and_then(holiday);
        if holiday.is_none() {
            let shown = node
                .text()
                .map_or_else(|| node.describe().to_owned(), |text| format!("`{text}`"));
            self.fault(Code::BadHoliday, node.span, format!("{shown} is no holiday."))
                .help("Write a day (`2026-05-15`), a day of every year (`12-25`), days from Easter Sunday (`easter-2`, `easter+1`), or the first such weekday from a day on (`monday from 09-01`).");
        }
        holiday
    }

    fn moved(&mut self, entry: &'a Entry) -> Vec<(Weekday, Weekday)> {
        let keys = self.keys(&entry.value, &grammar::MOVED);
        let each = keys.into_iter().flatten().zip(Weekday::ALL);
        let moved = each.filter_map(|(entry, (_, from))| {
            let word = entry.and_then(|entry| Some((self.text(entry)?, entry.value.span)));
            let (word, span) = word?;
            Some((from, self.weekday(word, span)?))
        });
        moved.collect()
    }

    /// A span in working days; `None` where it is not written so.
    pub(crate) fn working_days(&mut self, text: &'a str, span: Span) -> Option<Option<Stated>> {
        let ends = ["working days", "working day"];
        let count = ends.iter().find_map(|end| text.trim().strip_suffix(end));
        let count = count?.trim();
        self.counted_in_working_days.get_or_insert(span);
        let number = count.parse::<i128>().ok().filter(|_| is_amount(count));
        let number = number.filter(|number| (0..=MOST).contains(number));
        if number.is_none() {
            let message = format!("`{text}` is no number of working days.");
            let help = format!("Write a whole number up to {MOST}, as in `3 working days`.");
            self.fault(Code::BadWorkingDays, span, message).help(help);
        }
        Some(number.map(|number| Stated {
            range: Interval::exact(number),
            dimension: Dimension::Days,
            unit: Unit::WORKING_DAY,
        }))
    }

    /// Says that working days are counted and nobody said which days are holidays.
    pub(crate) fn holidays_unsaid(&mut self, calendar: &WorkingDays) {
        let Some(span) = self.counted_in_working_days else {
            return;
        };
        if calendar.holidays.is_none() {
            self.warning(
                Code::NoHolidays,
                span,
                "Working days are counted, and nothing says which days are holidays.",
            )
            .help("Add `calendar:` with `holidays`, as in `{holidays: [01-01, easter+1, 12-25]}`.");
        }
    }
}

/// A holiday as it is written.
fn holiday(text: &str) -> Option<Holiday> {
    let text = text.trim();
    if let Some(days) = text.strip_prefix("easter") {
        return from_easter(days.trim());
    }
    if let Some((weekday, from)) = text.split_once(" from ") {
        let (_, weekday) = Weekday::ALL
            .iter()
            .find(|(name, _)| *name == weekday.trim())?;
        return Some(Holiday::WeekdayFrom(*weekday, year_day(from.trim())?));
    }
    year_day(text)
        .map(Holiday::Yearly)
        .or_else(|| one_day(text))
}

/// `+1`, `-2`, or nothing for the day itself.
fn from_easter(days: &str) -> Option<Holiday> {
    if days.is_empty() {
        return Some(Holiday::Easter(0));
    }
    let days: i128 = days.strip_prefix('+').unwrap_or(days).parse().ok()?;
    (-100..=100)
        .contains(&days)
        .then_some(Holiday::Easter(days))
}

/// `12-25`; 29 February is a day of some years.
fn year_day(text: &str) -> Option<YearDay> {
    let (month, day) = text.split_once('-')?;
    let two = |part: &str| part.parse::<i128>().ok().filter(|_| part.len() == 2);
    let (month, day) = (two(month)?, two(day)?);
    let in_leap_year = CalendarDate {
        year: 2000,
        month,
        day,
    };
    in_leap_year.day_number().map(|_| YearDay { month, day })
}

fn one_day(text: &str) -> Option<Holiday> {
    let written = parse(text, Some(Dimension::Date), None).ok()?;
    (written.range.low == written.range.high).then_some(Holiday::On(written.range.low))
}
