//! Published values outside North America against the rule sets: each limit just under, at, and just over.
//!
//! The values stand in `published-world/values.txt`, as they were read and with where they were read, apart from the
//! rule files, so that a slip in either shows.

use std::collections::BTreeMap;

use outside_checks::read::{bundled, cases_of};
use rules_core::ruleset::RuleSet;

use crate::common::comes_to;

const VALUES: &str = include_str!("../published-world/values.txt");

/// One published value.
struct Row<'a> {
    folder: &'a str,
    what: &'a str,
    change: &'a str,
    /// At-least and the like, and what comes out on the good side and on the other.
    good: &'a str,
    words: (&'a str, &'a str),
    limit: &'a str,
    source: String,
}

fn rows() -> Vec<Row<'static>> {
    let (mut folder, mut pages, mut rows) = ("", BTreeMap::new(), Vec::new());
    for line in VALUES.lines() {
        match line.split_once(' ') {
            Some(("=", name)) => (folder, pages) = (name, BTreeMap::new()),
            Some(("#", _)) | None => {}
            Some((name, page)) if name.starts_with('@') => {
                pages.insert(name, page);
            }
            Some(_) => rows.push(row(folder, line, &pages)),
        }
    }
    rows
}

fn row(folder: &'static str, line: &'static str, pages: &BTreeMap<&str, &str>) -> Row<'static> {
    let cells: Vec<_> = line.split(" | ").collect();
    let [what, change, good, limit, source] = cells[..] else {
        panic!("five cells: {line}")
    };
    let good: Vec<_> = good.split(' ').collect();
    let words = match good[1..] {
        [] => ("pass", "fail"),
        [good, other] => (good, other),
        _ => panic!("two words: {line}"),
    };
    let spelt_out = source.split(' ').map(|word| match word.strip_prefix('@') {
        Some(_) => *pages.get(word).unwrap_or_else(|| panic!("{word}: {line}")),
        None => word,
    });
    Row {
        folder,
        what,
        change,
        good: good[0],
        words,
        limit,
        source: spelt_out.collect::<Vec<_>>().join(" "),
    }
}

impl Row<'_> {
    /// Just under, at, and just over.
    fn values(&self) -> Vec<String> {
        match self.limit.contains(';') {
            true => self.limit.split("; ").map(str::to_owned).collect(),
            false => [-1, 0, 1].map(|step| moved(self.limit, step)).to_vec(),
        }
    }

    fn is_good(&self) -> [bool; 3] {
        match self.good {
            "at-least" => [false, true, true],
            "at-most" => [true, true, false],
            "more-than" => [false, false, true],
            "less-than" => [true, false, false],
            other => panic!("{other}"),
        }
    }

    /// What is wrong, in sentences.
    fn wrong(&self, rules: &RuleSet, cases: &str) -> Vec<String> {
        let values = self.values();
        assert_eq!(values.len(), 3, "{}", self.limit);
        let tried = values
            .iter()
            .zip(self.is_good())
            .filter_map(|(value, good)| {
                let wanted = if good { self.words.0 } else { self.words.1 };
                let found = comes_to(rules, cases, self.what, &self.change.replace("{}", value));
                let (folder, what, source) = (self.folder, self.what, &self.source);
                (found != wanted).then(|| {
                    format!("{folder} {what}: {value} comes to {found}, not {wanted} ({source})")
                })
            });
        tried.collect()
    }
}

/// A limit, so many thousandths of its unit more.
fn moved(limit: &str, thousandths: i64) -> String {
    if thousandths == 0 {
        return limit.to_owned();
    }
    let (number, unit) = limit.split_once(' ').expect("a number and a unit");
    let (whole, part) = number.split_once('.').unwrap_or((number, ""));
    let value: i64 = format!("{whole}{part:0<3}")
        .parse()
        .expect("three decimals at most");
    let value = value + thousandths;
    format!("{}.{:03} {unit}", value / 1000, value % 1000)
}

#[test]
fn published_values_come_out() {
    let (mut sets, mut all) = (BTreeMap::new(), Vec::new());
    for row in rows() {
        let (rules, cases) = sets
            .entry(row.folder)
            .or_insert_with(|| (bundled(row.folder), cases_of(row.folder)));
        all.extend(row.wrong(rules, cases));
    }
    assert!(all.is_empty(), "\n{}", all.join("\n"));
}

/// How many values are compared, how many of them are from a seller's page, and how many from memory;
/// docs/coverage/world.md says so too.
const COUNTS: (usize, usize, usize) = (385, 21, 2);

#[test]
fn there_are_enough_and_each_names_its_source() {
    let rows = rows();
    let from = |word: &str| {
        rows.iter()
            .filter(|row| row.source.starts_with(word))
            .count()
    };
    let known = |source: &str| source.starts_with("from memory") || source.contains("://");
    assert!(rows.iter().all(|row| known(&row.source)));
    assert_eq!((rows.len(), from("trade"), from("from memory")), COUNTS);
    let coverage = include_str!("../../docs/coverage/world.md");
    assert!(coverage.contains(&format!("{} published values", rows.len())));
}

#[test]
fn the_steps_are_a_thousandth_of_a_unit() {
    assert_eq!(moved("1.10 m", -1), "1.099 m");
    assert_eq!(moved("100 mm", 1), "100.001 mm");
    assert_eq!(moved("0.5 m", 1), "0.501 m");
}
