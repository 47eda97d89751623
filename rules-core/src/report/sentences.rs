//! Findings in sentences.

use super::figures::{
    NOT_KNOWN, drawn, margin, measured_alone, measured_and_limit, open_end, relation, says_nothing,
    unit_of,
};
use super::matter::Matter;
use super::missing::capitalised;
use super::model::{PartReport, RangeReport, ReadingReport};
use super::telling::brief;
use crate::check::{Outcome, Part, Reading, Subject, Truth};
use crate::ruleset::words::{bound_words, in_force_words, listed, requirement_words, value_words};
use crate::ruleset::{Bound, Rule, Value};
use crate::vocabulary::{Answer, KindId};

/// Whether a value is the widest gap in a barrier.
fn is_a_gap(value: &Value) -> bool {
    match value {
        Value::Enclosure(_) => true,
        Value::Named { value, .. } => is_a_gap(value),
        _ => false,
    }
}

/// So many readings are said in full; the rest are counted.
const MOST_SAID: usize = 3;

impl Matter<'_> {
    pub(super) fn reading(&self, reading: &Reading) -> ReadingReport {
        let report = self.figures_of(reading);
        let report = ReadingReport {
            drawn: report.measured.as_ref().and_then(|_| drawn(reading)),
            witness: reading
                .witness
                .as_ref()
                .map(|witness| match is_a_gap(reading.value()) {
                    true => self.gap(witness),
                    false => self.witness(witness),
                }),
            ..report
        };
        ReadingReport {
            sentence: reading_sentence(&report, reading),
            ..report
        }
    }

    /// The figures of a reading, and itself in a few words; what it is as drawn, where, and in a sentence is left out.
    pub(super) fn figures_of(&self, reading: &Reading) -> ReadingReport {
        let (measured, limit) = self.ranges(reading);
        let room = (reading.margin)
            .filter(|_| measured.is_some())
            .and_then(|room| margin(room, Some(relation(reading.bound())), reading.unit));
        let mut report = ReadingReport {
            what: value_words(reading.value(), self.rules),
            words: self.known_words(reading),
            may_be_none: reading.may_be_none,
            bound: self.asked_words(reading),
            holds: holds(reading.truth).to_owned(),
            margin: room,
            ..only_ranges(measured, limit)
        };
        let at_worst = report.margin.as_ref().map(|room| room.at_worst.as_str());
        report.brief = brief(&report, at_worst, reading);
        report
    }

    /// What must be kept: `at least 3 m`, `not wood`.
    fn asked_words(&self, reading: &Reading) -> String {
        let words = bound_words(reading.bound(), Some(reading.value()), self.rules);
        match (reading.negated, reading.bound()) {
            (true, Bound::Is(_)) => format!("not {words}"),
            _ => words,
        }
    }

    /// What was measured, where that is known, and the limit.
    pub(super) fn ranges(&self, reading: &Reading) -> (Option<RangeReport>, Option<RangeReport>) {
        let known = reading.measured.filter(|_| self.is_known(reading));
        let alone = |known| measured_alone(known, unit_of(reading.unit, reading.dimension));
        match measured_and_limit(reading) {
            Some((measured, limit)) => (known.map(|_| measured), Some(limit)),
            None => (known.map(alone), None),
        }
    }

    /// Whether a reading says more than the world allows anyway.
    pub(super) fn is_known(&self, reading: &Reading) -> bool {
        let Some(measured) = reading.measured else {
            return false;
        };
        let Value::Fact(fact) = reading.value() else {
            return !says_nothing(measured);
        };
        let possible = self.rules.vocabulary.fact(*fact).answer.possible();
        measured.meet(possible) != Some(possible)
    }

    /// The words that a reading may be; none where it may be any that the vocabulary has.
    pub(super) fn known_words(&self, reading: &Reading) -> Vec<String> {
        let possible = reading.possible_words();
        let any = match reading.value() {
            Value::Fact(fact) => match &self.rules.vocabulary.fact(*fact).answer {
                Answer::YesNo => possible.len() > 1,
                Answer::Word { words, .. } => words.iter().all(|word| possible.contains(word)),
                Answer::Amount { .. } => false,
            },
            _ => false,
        };
        if any { Vec::new() } else { possible }
    }

    /// What was found for one subject, in a sentence or more.
    pub(super) fn part_sentence(
        &self,
        rule: &Rule,
        part: &Part,
        readings: &[ReadingReport],
    ) -> String {
        let lead = match &part.subject {
            Subject::Plan => String::new(),
            Subject::Thing { sure: false, .. } => format!(
                "for {}, if the rule speaks of it, ",
                self.subject(&part.subject).said
            ),
            Subject::NoneOf(kind) => {
                return self.none_of(*kind, rule, part);
            }
            Subject::Thing { .. } | Subject::Unseen(_) => {
                format!("for {}, ", self.subject(&part.subject).said)
            }
        };
        let relief = part.relief.and_then(|relief| rule.reliefs.get(relief));
        let relief = relief.map(|relief| relief.id.as_str());
        let body = match part.outcome {
            Outcome::Pass => passes(part, relief, readings),
            Outcome::Fail => self.fails(rule, readings),
            Outcome::Marginal => marginal(part, readings),
            Outcome::Unknown => self.unknown(part, readings),
            Outcome::Refer => self.refers(relief, readings),
            Outcome::NotApplicable => self.does_not_apply(rule),
        };
        capitalised(&format!("{lead}{}", after(&lead, &body)))
    }

    /// What it comes to that there is nothing of what a rule is for.
    fn none_of(&self, kind: KindId, rule: &Rule, part: &Part) -> String {
        let relief = part.relief.and_then(|relief| rule.reliefs.get(relief));
        let then = match (part.outcome, relief) {
            (Outcome::Fail, _) => "there must be one".to_owned(),
            (Outcome::Pass, Some(relief)) => format!("it passes by relief `{}`", relief.id),
            (Outcome::Pass, None) => "the rule is met".to_owned(),
            (Outcome::Refer, _) => format!("{} decides this", self.rules.authority),
            _ => "what follows from that is not known yet".to_owned(),
        };
        format!("There is no {} here; {then}.", self.noun(kind))
    }

    fn fails(&self, rule: &Rule, readings: &[ReadingReport]) -> String {
        if readings.is_empty() {
            let asked = requirement_words(&rule.require, self.rules);
            return format!("This is not met: {asked}.");
        }
        said(readings)
    }

    fn unknown(&self, part: &Part, readings: &[ReadingReport]) -> String {
        let missing = match part.missing.len() {
            0 => "Something that it turns on is not known.".to_owned(),
            1 => "It turns on an answer that is still missing.".to_owned(),
            number => format!("It turns on {number} answers that are still missing."),
        };
        joined(&[said(readings), missing])
    }

    fn refers(&self, relief: Option<&str>, readings: &[ReadingReport]) -> String {
        let authority = capitalised(&self.rules.authority);
        let decides = match relief {
            Some(relief) => format!("{authority} decides whether relief `{relief}` is granted."),
            None => format!("{authority} decides this."),
        };
        joined(&[said(readings), decides])
    }

    pub(super) fn does_not_apply(&self, rule: &Rule) -> String {
        match (&rule.when, &rule.unless) {
            (Some(when), _) => format!(
                "This rule applies only where {}.",
                requirement_words(when, self.rules)
            ),
            (None, Some(unless)) => format!(
                "This rule does not apply where {}.",
                requirement_words(unless, self.rules)
            ),
            (None, None) if rule.in_force.is_some() => {
                let in_force = rule.in_force.as_ref();
                let words = in_force.map(|it| in_force_words(it, self.rules));
                format!(
                    "This rule is in force {}, or there is nothing here that it speaks about.",
                    words.unwrap_or_default()
                )
            }
            (None, None) => "There is nothing here that this rule speaks about.".to_owned(),
        }
    }
}

fn passes(part: &Part, relief: Option<&str>, readings: &[ReadingReport]) -> String {
    let open = part.place().is_some_and(|place| place.base.is_open());
    let by = match relief {
        Some(relief) if open => {
            format!(
                "It passes by relief `{relief}` if the requirement itself turns out not to be met."
            )
        }
        Some(relief) => format!("It passes by relief `{relief}`."),
        None if readings.is_empty() => "It is met.".to_owned(),
        None => String::new(),
    };
    joined(&[said(readings), by])
}

fn marginal(part: &Part, readings: &[ReadingReport]) -> String {
    let as_drawn = match Outcome::decided(part.as_drawn) {
        Some(Outcome::Fail) => "As drawn it fails",
        Some(Outcome::Refer) => "As drawn it would be the authority's to decide",
        Some(Outcome::NotApplicable) => "As drawn the rule does not apply",
        _ => "As drawn it passes",
    };
    let open = format!("{as_drawn}, but the accuracy of the plan leaves it open.");
    joined(&[said(readings), open])
}

/// The readings' sentences, no more than a few.
fn said(readings: &[ReadingReport]) -> String {
    let mut sentences: Vec<String> = readings
        .iter()
        .take(MOST_SAID)
        .map(|reading| reading.sentence.clone())
        .collect();
    sentences.dedup();
    if let Some(more @ 1..) = readings.len().checked_sub(MOST_SAID) {
        sentences.push(format!("And {more} more."));
    }
    sentences.join(" ")
}

fn joined(sentences: &[String]) -> String {
    let some: Vec<&str> = sentences
        .iter()
        .map(String::as_str)
        .filter(|sentence| !sentence.is_empty())
        .collect();
    some.join(" ")
}

/// A sentence behind a lead loses its capital, unless it names somebody.
fn after(lead: &str, body: &str) -> String {
    const OURS: [&str; 8] = [
        "The ", "It ", "This ", "As ", "Whether ", "There ", "What ", "Who",
    ];
    let ours = OURS.iter().any(|start| body.starts_with(start));
    let mut rest = body.chars();
    match rest.next() {
        Some(first) if ours && !lead.is_empty() => {
            format!("{}{}", first.to_lowercase(), rest.as_str())
        }
        _ => body.to_owned(),
    }
}

fn holds(truth: Truth) -> &'static str {
    match truth.applied() {
        Truth::HOLDS => "holds",
        Truth::FAILS => "fails",
        Truth::AUTHORITY => "authority",
        _ => "open",
    }
}

fn reading_sentence(report: &ReadingReport, compared: &Reading) -> String {
    let what = capitalised(&report.what);
    let must = must(report, compared);
    match &report.measured {
        Some(measured) => {
            let none = if report.may_be_none {
                ", or there is none"
            } else {
                ""
            };
            let drawn = report
                .drawn
                .as_ref()
                .map(|drawn| format!(" ({drawn} as drawn)"));
            let room = report
                .margin
                .as_ref()
                .map(|margin| format!(": {}", margin.text));
            format!(
                "{what} is {}{}{}{none}; {must}{}.",
                measured.text,
                open_end(measured),
                drawn.unwrap_or_default(),
                room.unwrap_or_default()
            )
        }
        None if !report.words.is_empty() => {
            let mut words = report.words.clone();
            if report.may_be_none {
                words.push("none".to_owned());
            }
            format!("{what}: {}; {must}.", listed(&words, "or"))
        }
        None if report.may_be_none && report.holds != "open" => format!("{what}: none; {must}."),
        None => format!("{what} is not known; {must}."),
    }
}

/// A reading of which nothing is told but its figures.
pub(super) fn only_ranges(
    measured: Option<RangeReport>,
    limit: Option<RangeReport>,
) -> ReadingReport {
    ReadingReport {
        what: String::new(),
        measured,
        drawn: None,
        words: Vec::new(),
        may_be_none: false,
        limit,
        bound: String::new(),
        holds: String::new(),
        margin: None,
        witness: None,
        sentence: String::new(),
        brief: String::new(),
    }
}

/// What it must keep; the limit's amount behind it where the words alone do not say it.
fn must(report: &ReadingReport, compared: &Reading) -> String {
    if let (true, Bound::Is(_)) = (compared.negated, compared.bound()) {
        return format!("it must {}", report.bound.replacen("not ", "not be ", 1));
    }
    let stated = match compared.bound() {
        Bound::AtLeast(value)
        | Bound::AtMost(value)
        | Bound::MoreThan(value)
        | Bound::LessThan(value) => matches!(value, Value::Stated(_)),
        Bound::Is(_) => true,
    };
    match &report.limit {
        Some(limit) if !stated && limit.text == NOT_KNOWN => {
            format!("it must be {}, which is not known", report.bound)
        }
        Some(limit) if !stated => format!(
            "it must be {}, here {}{}",
            report.bound,
            limit.text,
            open_end(limit)
        ),
        _ => format!("it must be {}", report.bound),
    }
}

/// What a rule comes to in a sentence: its one part, or the part that decides it and a count of the others.
pub(super) fn rule_sentence(parts: &[PartReport], deciding: Option<usize>) -> String {
    let Some(part) = deciding.and_then(|place| parts.get(place)) else {
        return "There is nothing here that this rule speaks about.".to_owned();
    };
    if parts.len() == 1 {
        return part.sentence.clone();
    }
    let alike = parts
        .iter()
        .filter(|other| other.outcome == part.outcome)
        .count();
    format!(
        "{} {}",
        tally(part.outcome, alike, parts.len()),
        part.sentence
    )
}

fn tally(outcome: Outcome, alike: usize, all: usize) -> String {
    let verb = match outcome {
        Outcome::Fail => "fail",
        Outcome::Unknown => "are not decided",
        Outcome::Marginal => "are within the accuracy of the plan",
        Outcome::Refer => "are for the authority to decide",
        Outcome::Pass => "pass",
        Outcome::NotApplicable => "are not concerned",
    };
    match (outcome, alike == all) {
        (Outcome::Pass, true) => format!("All {all} pass; the one with the least room:"),
        (_, true) => format!("All {all} {verb}; the first:"),
        (_, false) => format!("{alike} of {all} {verb}; the first:"),
    }
}

/// The place of the part that decides: the worst outcome, and among equals the least room.
pub(crate) fn deciding(parts: &[Part]) -> Option<usize> {
    let room = |part: &Part| part.margin.map_or(i128::MAX, |margin| margin.range.low);
    let places = parts.iter().enumerate();
    let worst = places.min_by_key(|(_, part)| (part.outcome, room(part)));
    worst.map(|(place, _)| place)
}
