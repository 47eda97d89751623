//! Of two rules of different rule sets that limit the same measure between the same ends, the one that governs.
//!
//! It is said only where nothing but the limits differs: the same things, the same outlines, measured the same way, both
//! in words of the program's own table, and both rules surely apply and stand without a relief. Of anything else it would
//! be a guess.

use super::JudgedBy;
use super::alike::{alike, all_alike, bare, is_common, required};
use crate::check::{Finding, Outcome, Part, Reading, Subject};
use crate::quantity::{Dimension, Interval};
use crate::report::figures::{measured_alone, unit_of};
use crate::report::{GovernsReport, LimitReport};
use crate::ruleset::words::{bound_words, listed, value_words};
use crate::ruleset::{Bound, Rule, Strength, Test, Value};
use crate::text::capitalised;

/// Each pair of limits of which one governs, in the order of the rule sets.
pub(super) fn governs(judged: &[JudgedBy<'_>]) -> Vec<GovernsReport> {
    let mut before: Vec<Limit<'_>> = Vec::new();
    let mut all = Vec::new();
    for by in judged {
        let mut own = limits(by);
        own.retain(|limit| !before.iter().any(|other| is_one_rule(limit, other)));
        for other in &before {
            all.extend(own.iter().flat_map(|limit| compared(other, limit)));
        }
        before.extend(own);
    }
    all
}

/// A limit that a binding rule of a rule set sets.
#[derive(Clone, Copy)]
struct Limit<'a> {
    by: &'a JudgedBy<'a>,
    rule: &'a Rule,
    finding: &'a Finding,
    test: &'a Test,
    bound: &'a Bound,
}

fn limits<'a>(by: &'a JudgedBy<'a>) -> Vec<Limit<'a>> {
    let governed = &by.governed;
    let findings = governed.findings.rules.iter();
    let rules = findings.filter_map(|finding| Some((finding, governed.rules.rule(finding.rule)?)));
    let binding = rules.filter(|(_, rule)| rule.strength == Strength::Must && !rule.built_in);
    let tests = binding.flat_map(|(finding, rule)| {
        let tests = required(&rule.require).into_iter();
        tests.map(move |test| (finding, rule, test))
    });
    let tests = tests.filter(|(_, rule, test)| is_common(rule.each.as_ref(), &test.value));
    tests
        .flat_map(|(finding, rule, test)| {
            test.bounds.iter().map(move |bound| Limit {
                by,
                rule,
                finding,
                test,
                bound,
            })
        })
        .collect()
}

/// Which of two limits governs, for each group of things for which both are the same.
fn compared(one: &Limit<'_>, other: &Limit<'_>) -> Vec<GovernsReport> {
    if !same_measure(one, other) {
        return Vec::new();
    }
    let mut groups: Vec<(GovernsReport, usize)> = Vec::new();
    let mut parts = 0;
    for (own, theirs) in parts_of_both(one, other) {
        parts += 1;
        let Some(report) = stricter((one, own), (other, theirs)) else {
            continue;
        };
        let same = |(group, _): &&mut (GovernsReport, usize)| {
            (&group.governs, &group.over) == (&report.governs, &report.over)
        };
        match groups.iter_mut().find(same) {
            Some((group, count)) => {
                group.subjects.extend(report.subjects);
                *count += 1;
            }
            None => groups.push((report, 1)),
        }
    }
    let said = groups.into_iter().map(|(mut group, count)| {
        if count == parts {
            group.subjects.clear();
        }
        in_a_sentence(group)
    });
    said.collect()
}

fn same_measure(one: &Limit<'_>, other: &Limit<'_>) -> bool {
    let same_each = match (&one.rule.each, &other.rule.each) {
        (None, None) => true,
        (Some(one), Some(other)) => all_alike(one, other),
        _ => false,
    };
    let about = |limit: &Limit<'_>| (limit.rule.about_pool, limit.test.holds);
    same_each && about(one) == about(other) && alike(&one.test.value, &other.test.value)
}

/// Whether both are one rule of a file that both rule sets build on, unchanged.
fn is_one_rule(one: &Limit<'_>, other: &Limit<'_>) -> bool {
    let file = |limit: &Limit<'_>| {
        let layers = &limit.by.governed.rules.layers;
        layers.get(limit.rule.layer).map(|layer| layer.id.clone())
    };
    one.rule.id == other.rule.id && file(one) == file(other) && one.bound == other.bound
}

/// What was found for the same things under both rules, where both surely apply and neither is relieved.
fn parts_of_both<'a>(one: &Limit<'a>, other: &Limit<'a>) -> Vec<(&'a Part, &'a Part)> {
    let whom = |limit: &Limit<'a>, part: &'a Part| {
        let id = |index: usize| Some(limit.by.plan.things.get(index)?.id.clone());
        let subject = match part.subject {
            Subject::Plan => Some(None),
            Subject::Thing { index, sure: true } => Some(id(index)),
            _ => None,
        };
        Some((subject?, part.pool.and_then(id)))
    };
    let (own, theirs) = (&one.finding.parts, &other.finding.parts);
    let own = own.iter().filter(|part| binds(one.rule, part));
    let pairs = own.flat_map(|own| {
        let mine = whom(one, own);
        let theirs = theirs.iter().filter(|part| binds(other.rule, part));
        let same = theirs.filter(|part| mine.is_some() && mine == whom(other, part));
        same.map(|theirs| (own, theirs)).collect::<Vec<_>>()
    });
    pairs.collect()
}

fn binds(rule: &Rule, part: &Part) -> bool {
    let plain = part.relief.is_none() && matches!(part.outcome, Outcome::Pass | Outcome::Fail);
    !part.truth.may_not_apply() && (plain || rule.reliefs.is_empty())
}

fn stricter(
    (one, own): (&Limit<'_>, &Part),
    (other, theirs): (&Limit<'_>, &Part),
) -> Option<GovernsReport> {
    let (first, second) = (one.amount(own)?, other.amount(theirs)?);
    let (governs, over) = match (is_stricter(&first, &second), is_stricter(&second, &first)) {
        (true, _) => (one.report(&first), other.report(&second)),
        (_, true) => (other.report(&second), one.report(&first)),
        _ => return None,
    };
    let rules = one.by.governed.rules;
    Some(GovernsReport {
        what: value_words(&one.test.value, rules),
        subjects: subject(one, own).into_iter().collect(),
        governs,
        over,
        sentence: String::new(),
    })
}

fn subject(limit: &Limit<'_>, part: &Part) -> Option<String> {
    let Subject::Thing { index, .. } = part.subject else {
        return None;
    };
    Some(format!("`{}`", limit.by.plan.things.get(index)?.called()))
}

/// A limit as it is in this plan.
struct Amount {
    range: Interval,
    dimension: Dimension,
    is_least: bool,
    is_met_at: bool,
    words: String,
}

/// Whether whatever keeps the one surely keeps the other, and not the other way round.
fn is_stricter(one: &Amount, other: &Amount) -> bool {
    let beyond = match one.is_least {
        true => (one.range.low, other.range.high),
        false => (other.range.low, one.range.high),
    };
    let alike = (one.is_least, one.dimension) == (other.is_least, other.dimension);
    let at_limit = one.range == other.range && one.range.is_exact();
    alike && (beyond.0 > beyond.1 || at_limit && !one.is_met_at && other.is_met_at)
}

impl Limit<'_> {
    fn amount(&self, part: &Part) -> Option<Amount> {
        let (value, is_least, is_met_at) = match self.bound {
            Bound::AtLeast(value) => (value, true, true),
            Bound::MoreThan(value) => (value, true, false),
            Bound::AtMost(value) => (value, false, true),
            Bound::LessThan(value) => (value, false, false),
            Bound::Is(_) => return None,
        };
        let (range, dimension, words) = match bare(value) {
            Value::Stated(stated) => (stated.range, stated.dimension, self.words()),
            _ => self.as_read(part, if is_least { "at least" } else { "at most" })?,
        };
        Some(Amount {
            range,
            dimension,
            is_least,
            is_met_at,
            words,
        })
    }

    fn words(&self) -> String {
        bound_words(self.bound, self.by.governed.rules)
    }

    /// A limit that the plan decides on (a row of a table, say), as it was read for a part.
    fn as_read(&self, part: &Part, words: &str) -> Option<(Interval, Dimension, String)> {
        let own = |reading: &&Reading| !reading.negated && *reading.test == *self.test;
        let own = |reading: &&Reading| own(reading) && reading.bound() == self.bound;
        let reading = part.readings.iter().find(own)?;
        let limit = reading.limit?;
        let unit = unit_of(reading.unit, reading.dimension);
        let words = format!("{words} {}", measured_alone(limit, unit).text);
        Some((limit, reading.dimension, words))
    }

    fn report(&self, amount: &Amount) -> LimitReport {
        LimitReport {
            rule: self.rule.id.clone(),
            clause: self.rule.clause.clone(),
            rule_set: self.by.rules.id.clone(),
            bound: amount.words.clone(),
        }
    }
}

fn in_a_sentence(report: GovernsReport) -> GovernsReport {
    let lead = match report.subjects.is_empty() {
        true => String::new(),
        false => format!(" (for {})", listed(&report.subjects, "and")),
    };
    let (governs, over) = (&report.governs, &report.over);
    let sentence = format!(
        "{}{lead}: {} governs ({}, {}); {} asks for {} ({}).",
        capitalised(&report.what),
        governs.bound,
        governs.rule_set,
        governs.clause,
        over.rule_set,
        over.bound,
        over.clause
    );
    GovernsReport { sentence, ..report }
}
