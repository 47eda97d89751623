//! Facts that people of the trade take for granted: common practice, no source.

use crate::common::Outcome::{Fail, Pass, Unknown};
use crate::common::{Plot, class_of, classes_of, outcome, outcomes};
use rules_core::quantity::{CalendarDate, Dimension, add_months, parse};

/// A pool that stands longer than two months needs a permit; one that stands two months does not.
/// Common practice, no source.
#[test]
fn two_months_without_a_permit() {
    let table =
        "{by: pool.standing-time, rows: [{at-most: 2 months, then: free}, {otherwise: permit}]}";
    for (time, class) in [
        ("2 months", "free"),
        ("1 month", "free"),
        ("3 months", "permit"),
        ("30 years", "permit"),
        // No two months in a row are shorter than 59 days or longer than 62.
        ("59 days", "free"),
        ("63 days", "permit"),
    ] {
        assert_eq!(
            class_of(table, &Plot::pool("standing-time", time)),
            class,
            "{time}"
        );
    }
    // 61 days are two months from June on, more than that from February on.
    let between = Plot::pool("standing-time", "61 days");
    assert_eq!(classes_of(table, &between), ["free", "permit"]);
}

/// A slab 20 cm thick of 6 m³ covers 30 m². Common practice, no source.
#[test]
fn six_cubic_metres_of_slab() {
    let amount = |text| parse(text, None, None).unwrap().range;
    let volume = amount("30 m2").times(Dimension::Area, amount("20 cm"), Dimension::Length);
    assert_eq!(volume, Some((amount("6 m3"), Dimension::Volume)));
    let rule = "
    require:
      value: pool.volume
      at-most: {product: [20 cm, pool.footprint]}";
    let volumes = [("6 m3", Pass), ("6.001 m3", Fail), ("5.999 m3", Pass)];
    outcomes(rule, volumes, |volume| {
        Plot::pool("volume", volume).and_pool("footprint", "30 m2")
    });
}

/// A rigid cover carries 100 kg/m². Common practice, no source.
#[test]
fn a_rigid_cover_carries_a_hundred_kilograms() {
    let rules = "
kinds:
  - id: cover
    facts:
      - id: carries
        said: load that the cover carries
        ask: How much does the cover carry?
        answer: load
        least: 0 kg/m2
        most: 10000 kg/m2
rules:
  - {id: r, title: A rule, clause: \"1\", each: cover, require: {fact: cover.carries, at-least: 100 kg/m2}}
";
    for (load, expected) in [
        ("100 kg/m2", Pass),
        ("99.9 kg/m2", Fail),
        ("100.1 kg/m2", Pass),
        ("unknown", Unknown),
    ] {
        let cover = Plot::thing(&format!("{{kind: cover, id: c, carries: {load}}}"));
        assert_eq!(outcome(rules, &cover), expected, "{load}");
    }
}

/// An application handed in in September was answered in early January. Common practice, no source.
///
/// So it took more than three calendar months and fewer than five, whatever the days were.
#[test]
fn from_september_to_early_january() {
    let day = |year, month, day| CalendarDate { year, month, day }.day_number().unwrap();
    for applied in 1..=30 {
        for answered in 1..=10 {
            let (applied, answered) = (day(2024, 9, applied), day(2025, 1, answered));
            assert!(add_months(applied, 3) < answered && answered < add_months(applied, 5));
        }
    }
    // 30 September to 1 January: 31 + 30 + 31 days of the months between, and one more.
    assert_eq!(day(2025, 1, 1) - day(2024, 9, 30), 93);
    let rule = |most: &str| {
        format!(
            "
    require:
      difference: [permit-issued, applied]
      at-most: {most}"
        )
    };
    let dates = |_: &str| Plot::top("dates: {applied: 2024-09-16, permit-issued: 2025-01-06}");
    // 16 September to 6 January: 112 days, which is 16 weeks.
    outcomes(&rule("112 days"), [("112", Pass)], dates);
    outcomes(&rule("111 days"), [("111", Fail)], dates);
    outcomes(&rule("16 weeks"), [("16 weeks", Pass)], dates);
    // Any three months are at most 92 days, any four at least 120.
    outcomes(&rule("3 months"), [("3 months", Fail)], dates);
    outcomes(&rule("4 months"), [("4 months", Pass)], dates);
}
