//! Working days against published calendars.

use super::easter::easter;
use super::*;
use crate::quantity::{CalendarDate, Dimension, parse};

fn day(text: &str) -> i128 {
    let written = parse(text, Some(Dimension::Date), None).expect("a date");
    written.range.low
}

fn date(day: i128) -> String {
    CalendarDate::from_day_number(day).to_string()
}

/// Easter Sundays from a published list for 2000 to 2099 (jtsoftware.tripod.com/easter); Python's `dateutil.easter` gives
/// the same days.
#[test]
fn easter_falls_on_the_published_days() {
    let published = [
        "2000-04-23",
        "2001-04-15",
        "2002-03-31",
        "2003-04-20",
        "2004-04-11",
        "2005-03-27",
        "2006-04-16",
        "2007-04-08",
        "2008-03-23",
        "2009-04-12",
        "2010-04-04",
        "2011-04-24",
        "2012-04-08",
        "2013-03-31",
        "2014-04-20",
        "2015-04-05",
        "2016-03-27",
        "2017-04-16",
        "2018-04-01",
        "2019-04-21",
        "2020-04-12",
        "2021-04-04",
        "2022-04-17",
        "2023-04-09",
        "2024-03-31",
        "2025-04-20",
        "2026-04-05",
        "2027-03-28",
        "2028-04-16",
        "2029-04-01",
        "2030-04-21",
        "2031-04-13",
        "2032-03-28",
        "2033-04-17",
        "2034-04-09",
        "2035-03-25",
        "2036-04-13",
        "2037-04-05",
        "2038-04-25",
        "2039-04-10",
        "2040-04-01",
    ];
    let computed: Vec<_> = (2000..=2040).map(|year| date(easter(year))).collect();
    assert_eq!(computed, published);
}

fn holidays(list: &[Holiday]) -> WorkingDays {
    WorkingDays {
        holidays: Some(list.to_vec()),
        ..WorkingDays::default()
    }
}

fn yearly(month: i128, day: i128) -> Holiday {
    Holiday::Yearly(YearDay { month, day })
}

#[test]
fn weekdays_are_counted_from_a_thursday() {
    let days = ["1970-01-01", "2026-03-02", "2026-03-07", "1969-12-28"];
    let of = days.map(|text| Weekday::of(day(text)));
    let expected = [
        Weekday::Thursday,
        Weekday::Monday,
        Weekday::Saturday,
        Weekday::Sunday,
    ];
    assert_eq!(of, expected);
}

#[test]
fn weekends_are_not_counted() {
    let plain = WorkingDays::default();
    // 6 March 2026 is a Friday.
    assert_eq!(date(plain.after(day("2026-03-06"), 1)), "2026-03-09");
    assert_eq!(date(plain.after(day("2026-03-07"), 1)), "2026-03-09");
    assert_eq!(date(plain.after(day("2026-03-06"), 10)), "2026-03-20");
    assert_eq!(plain.after(day("2026-03-07"), 0), day("2026-03-07"));
}

/// The Norwegian public holidays of the spring of 2026 and their names are those of the Act on public holidays (lov om
/// helligdager, 24 Feb 1995 no. 12, section 2) and of the Act on 1 and 17 May (26 Apr 1947 no. 1); from memory.
#[test]
fn movable_and_fixed_holidays_are_not_counted() {
    let norway = holidays(&[
        Holiday::Easter(-3),
        Holiday::Easter(-2),
        Holiday::Easter(1),
        Holiday::Easter(39),
        Holiday::Easter(50),
        yearly(5, 1),
        yearly(5, 17),
    ]);
    // Easter Sunday is 5 April 2026: Thursday, Friday and Monday are free.
    assert_eq!(date(norway.after(day("2026-04-01"), 1)), "2026-04-07");
    assert_eq!(date(norway.after(day("2026-04-30"), 1)), "2026-05-04");
    assert!(!norway.works(day("2026-05-14")) && !norway.works(day("2026-05-25")));
    assert!(norway.works(day("2026-05-15")));
}

/// The federal holidays of the United States in 2026, as its personnel office lists them: 19 January, 16 February, 25 May,
/// 3 July (for the 4th, a Saturday), 7 September, 12 October, 26 November; 5 U.S.C. 6103; from memory.
#[test]
fn holidays_on_a_day_of_the_week_and_moved_ones() {
    let from = |weekday, month, day| Holiday::WeekdayFrom(weekday, YearDay { month, day });
    let federal = WorkingDays {
        moved: vec![
            (Weekday::Saturday, Weekday::Friday),
            (Weekday::Sunday, Weekday::Monday),
        ],
        ..holidays(&[
            yearly(1, 1),
            from(Weekday::Monday, 1, 15),
            from(Weekday::Monday, 2, 15),
            from(Weekday::Monday, 5, 25),
            yearly(7, 4),
            from(Weekday::Monday, 9, 1),
            from(Weekday::Monday, 10, 8),
            from(Weekday::Thursday, 11, 22),
        ])
    };
    for free in [
        "2026-01-19",
        "2026-02-16",
        "2026-05-25",
        "2026-07-03",
        "2026-09-07",
        "2026-10-12",
        "2026-11-26",
        // 1 January 2028 is a Saturday; 4 July 2027 a Sunday.
        "2027-12-31",
        "2027-07-05",
    ] {
        assert!(!federal.works(day(free)), "{free}");
    }
    assert!(federal.works(day("2026-07-06")) && federal.works(day("2026-11-27")));
}

#[test]
fn one_day_of_one_year() {
    let calendar = holidays(&[Holiday::On(day("2026-03-09"))]);
    assert_eq!(date(calendar.after(day("2026-03-06"), 1)), "2026-03-10");
    assert!(calendar.works(day("2027-03-09")));
}

#[test]
fn counting_back_finds_the_last_day_to_start() {
    let calendar = holidays(&[yearly(5, 1), Holiday::Easter(1)]);
    for start in day("2026-03-20")..day("2026-05-20") {
        for count in 0..12 {
            let last = calendar.before(start, count);
            assert!(
                calendar.after(last, count) <= start,
                "{} {count}",
                date(start)
            );
            assert!(
                calendar.after(last + 1, count) > start,
                "{} {count}",
                date(start)
            );
        }
    }
}

#[test]
fn counting_ends_even_without_a_working_day() {
    let none = WorkingDays {
        weekend: Weekday::ALL.iter().map(|(_, weekday)| *weekday).collect(),
        ..WorkingDays::default()
    };
    assert!(none.after(0, 3) > 800 && none.before(0, 3) < -800);
}
