//! Day numbers against known dates.

use super::calendar::days_in_months;
use super::*;

fn day(year: i128, month: i128, day: i128) -> i128 {
    CalendarDate { year, month, day }
        .day_number()
        .expect("a day of the calendar")
}

#[test]
fn known_days() {
    // POSIX "Seconds Since the Epoch": 1970-01-01 is day 0. Unix time 1,000,000,000 fell on 2001-09-09 and
    // 2,147,483,647 falls on 2038-01-19 (from memory).
    assert_eq!(day(1970, 1, 1), 0);
    assert_eq!(day(2001, 9, 9), 1_000_000_000 / 86_400);
    assert_eq!(day(2038, 1, 19), 2_147_483_647 / 86_400);
    // Modified Julian date 51544 is 2000-01-01, 40587 is 1970-01-01 (from memory).
    assert_eq!(day(2000, 1, 1), 51_544 - 40_587);
    assert_eq!(day(1969, 12, 31), -1);
}

#[test]
fn leap_years_by_the_gregorian_rule() {
    let has = |year| {
        CalendarDate {
            year,
            month: 2,
            day: 29,
        }
        .day_number()
        .is_some()
    };
    assert!(has(2024) && has(2000) && has(1600));
    assert!(!has(2026) && !has(1900) && !has(2100));
    assert!(
        CalendarDate {
            year: 2026,
            month: 4,
            day: 31
        }
        .day_number()
        .is_none()
    );
    assert!(
        CalendarDate {
            year: 2026,
            month: 13,
            day: 1
        }
        .day_number()
        .is_none()
    );
    assert!(
        CalendarDate {
            year: 2026,
            month: 0,
            day: 1
        }
        .day_number()
        .is_none()
    );
}

#[test]
fn days_and_dates_go_both_ways() {
    let mut before = CalendarDate::from_day_number(day(1599, 12, 31));
    for number in day(1600, 1, 1)..day(2401, 1, 1) {
        let date = CalendarDate::from_day_number(number);
        assert_eq!(date.day_number(), Some(number));
        assert!(date > before);
        before = date;
    }
}

#[test]
fn months_later() {
    let later = |from, months| CalendarDate::from_day_number(add_months(from, months)).to_string();
    assert_eq!(later(day(2026, 1, 31), 1), "2026-02-28");
    assert_eq!(later(day(2024, 1, 31), 1), "2024-02-29");
    assert_eq!(later(day(2026, 11, 30), 3), "2027-02-28");
    assert_eq!(later(day(2026, 3, 15), -3), "2025-12-15");
    assert_eq!(later(day(2026, 3, 15), 12), "2027-03-15");
}

#[test]
fn months_have_between_so_many_days() {
    let days = |months| days_in_months(months).unwrap();
    assert_eq!(days(0), Interval::exact(0));
    assert_eq!(days(1), Interval::new(28, 31));
    assert_eq!(days(2), Interval::new(59, 62));
    assert_eq!(days(3), Interval::new(89, 92));
    assert_eq!(days(12), Interval::new(365, 366));
    // A span of 4 years over 1900 or 2100 has no leap day.
    assert_eq!(days(48), Interval::new(1460, 1461));
    assert_eq!(days(4800), Interval::exact(146_097));
    assert_eq!(days(-1), Interval::new(-31, -28));
    assert_eq!(
        Interval::exact(1500).days_of_months(),
        Interval::new(28, 62)
    );
    assert_eq!(
        Interval::exact(-1500).days_of_months(),
        Interval::new(-62, -28)
    );
    assert_eq!(Interval::any().days_of_months(), Interval::any());
}

#[test]
fn every_span_of_months_lies_within_its_days() {
    for from in day(1999, 1, 1)..day(2005, 1, 1) {
        for months in [1, 2, 3, 5, 7, 11] {
            let days = days_cached(months);
            assert!(
                days.contains(add_months(from, months) - from),
                "{from} and {months} months"
            );
        }
    }
}

/// The days of a few whole months; computing them takes a while.
fn days_cached(months: i128) -> Interval {
    static DAYS: std::sync::OnceLock<Vec<Interval>> = std::sync::OnceLock::new();
    let all = DAYS.get_or_init(|| {
        (0..12)
            .map(|months| days_in_months(months).unwrap())
            .collect()
    });
    all[usize::try_from(months).unwrap()]
}

#[test]
fn days_are_compared_with_the_days_that_months_can_have() {
    let months = (Interval::exact(2000), Dimension::Months);
    let at_most = |days| {
        Relation::AtMost
            .judge_as((Interval::exact(days), Dimension::Days), months)
            .unwrap()
    };
    assert!(at_most(59).surely());
    assert!(at_most(60).open());
    assert!(at_most(62).open());
    assert!(at_most(63).never());
    let year = (Interval::exact(12_000), Dimension::Months);
    assert!(Relation::Is.judge_as(year, year).unwrap().surely());
    assert!(
        Relation::Is
            .judge_as(year, (Interval::exact(1), Dimension::Length))
            .is_none()
    );
}
