//! Published North American values against the rule sets: each limit just under, at, and just over.
//!
//! A row says which plan of the rule set's own cases is changed how, the published limit, and where it was read (or
//! `from memory`). The limit stands here as it was read, apart from the rule file, so that a slip in either shows.

mod arizona;
mod barriers;
mod california;
mod florida;
mod guideline;
mod new_york;
mod quebec;
mod services;
mod towns;

use std::collections::BTreeMap;

use outside_checks::read::{bundled, cases_of};
use rules_core::ruleset::RuleSet;

use crate::common::comes_to;

/// On which side of the limit a value is good.
#[derive(Clone, Copy)]
pub enum Good {
    /// The limit and more.
    AtLeast,
    /// The limit and less.
    AtMost,
    /// More than the limit.
    MoreThan,
    /// Less than the limit.
    LessThan,
}
use Good::{AtLeast, AtMost, LessThan, MoreThan};

/// One published value.
pub struct Row {
    /// The rule, or `decide ` and the decision.
    what: &'static str,
    /// What is laid over the base plan of the cases; the value takes the place of `{}`.
    change: &'static str,
    good: Good,
    limit: &'static str,
    /// What comes out on the good side and on the other.
    words: (&'static str, &'static str),
    /// Where it was read.
    source: &'static str,
}

/// A value on whose good side the rule passes, and else fails.
pub const fn row(
    what: &'static str,
    change: &'static str,
    good: Good,
    limit: &'static str,
    source: &'static str,
) -> Row {
    Row {
        what,
        change,
        good,
        limit,
        words: ("pass", "fail"),
        source,
    }
}

impl Row {
    /// The same with other words for both sides.
    const fn gives(self, good: &'static str, else_: &'static str) -> Row {
        Row {
            words: (good, else_),
            ..self
        }
    }
}

/// The limit, and a hundredth of its unit less or more.
fn moved(limit: &str, hundredths: i64) -> String {
    let (number, unit) = limit.split_once(' ').expect("a number and a unit");
    let (whole, part) = number.split_once('.').unwrap_or((number, ""));
    let value: i64 = format!("{whole}{part:0<2}")
        .parse()
        .expect("a number with at most two decimals");
    let value = value + hundredths;
    format!("{}.{:02} {unit}", value / 100, value % 100)
}

/// What is wrong with a row, in sentences.
fn wrong(rules: &RuleSet, cases: &str, row: &Row) -> Vec<String> {
    let good = match row.good {
        AtLeast => [false, true, true],
        AtMost => [true, true, false],
        MoreThan => [false, false, true],
        LessThan => [true, false, false],
    };
    let values = [-1, 0, 1].map(|step| {
        if step == 0 {
            row.limit.to_owned()
        } else {
            moved(row.limit, step)
        }
    });
    let tried = values.iter().zip(good).filter_map(|(value, good)| {
        let wanted = if good { row.words.0 } else { row.words.1 };
        let found = comes_to(rules, cases, row.what, &row.change.replace("{}", value));
        (found != wanted).then(|| {
            format!(
                "{} {}: {value} comes to {found}, not {wanted} ({})",
                rules.id, row.what, row.source
            )
        })
    });
    tried.collect()
}

/// States and a province.
const PLACES: &[(&str, &[Row])] = &[
    ("california", california::CALIFORNIA),
    ("florida", florida::FLORIDA),
    ("arizona", arizona::ARIZONA),
    ("new-york", new_york::NEW_YORK),
    ("quebec", quebec::QUEBEC),
];

fn all_sets() -> BTreeMap<&'static str, &'static [Row]> {
    [barriers::SETS, services::SETS, PLACES, towns::SETS]
        .concat()
        .into_iter()
        .collect()
}

#[test]
fn published_values_come_out() {
    let mut all = Vec::new();
    for (name, rows) in all_sets() {
        let (rules, cases) = (bundled(name), cases_of(name));
        all.extend(rows.iter().flat_map(|row| wrong(&rules, &cases, row)));
    }
    assert!(all.is_empty(), "\n{}", all.join("\n"));
}

#[test]
fn there_are_enough_and_each_names_its_source() {
    let sets = all_sets();
    let rows: Vec<_> = sets.values().flat_map(|rows| rows.iter()).collect();
    let from_memory = rows
        .iter()
        .filter(|row| row.source.contains("from memory"))
        .count();
    assert!(rows.iter().all(|row| row.source.starts_with("from memory")
        || row.source.contains("://")
        || row.source.contains("address withheld")));
    assert_eq!((rows.len(), from_memory), COUNTS);
}

/// How many values are compared, and how many of them are from memory; docs/coverage/north-america.md says so too.
const COUNTS: (usize, usize) = (329, 13);

#[test]
fn the_steps_are_a_hundredth_of_a_unit() {
    assert_eq!(moved("48 in", -1), "47.99 in");
    assert_eq!(moved("1.75 in", 1), "1.76 in");
    assert_eq!(moved("0.5 in", -1), "0.49 in");
    assert_eq!(moved("22.5 ft", 1), "22.51 ft");
}
