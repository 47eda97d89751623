//! Findings in sentences.

use super::context::ReportContext;
use super::drawn::{as_drawn_words, fails_as_drawn, may_only_fail_as_drawn};
use super::model::{PartReport, ReadingReport};
use super::readings::About;
use crate::check::{Outcome, Part, Subject};
use crate::quantity::Interval;
use crate::ruleset::Rule;
use crate::ruleset::words::{in_force_words, requirement_words};
use crate::text::capitalised;
use crate::vocabulary::KindId;

/// What a relief asks is shown only if it is shorter than this.
const MOST_ASKED: usize = 300;
/// The most readings shown in full; the rest are counted.
const MOST_SAID: usize = 3;

impl ReportContext<'_> {
    /// What was found for one subject, in a sentence or more.
    pub(super) fn part_sentence(&self, about: About<'_>, readings: &[ReadingReport]) -> String {
        let About { rule, part } = about;
        if let Subject::NoneOf(kind) = part.subject {
            return self.none_of(kind, about);
        }
        let lead = self.lead(about);
        let relief = part.relief.and_then(|relief| rule.reliefs.get(relief));
        let relief = relief.map(|relief| relief.id.as_str());
        let body = match part.outcome {
            Outcome::Pass => passes(part, relief, readings),
            Outcome::Fail => self.fails(rule, readings),
            Outcome::Marginal => self.marginal(about, readings),
            Outcome::Unknown => self.unknown(about, readings),
            Outcome::Refer => self.refers(relief, readings),
            Outcome::NotApplicable => self.does_not_apply(rule),
        };
        capitalised(&format!("{lead}{}", after(&lead, &body)))
    }

    /// ``For the pool `spa`, where its wall is lowest (40 in), ``: whom it is about, and at which place.
    fn lead(&self, about: About<'_>) -> String {
        let part = about.part;
        let said = self.part_subject(part).said;
        let subject = match part.subject {
            // What must lie on the lot is said anyway.
            _ if about.rule.built_in => String::new(),
            Subject::Plan | Subject::NoneOf(_) => String::new(),
            Subject::Thing { sure: false, .. } => format!("for {said}, if the rule is about it, "),
            Subject::Thing { .. } | Subject::Unseen(_) => format!("for {said}, "),
        };
        match part.outcome {
            Outcome::Pass | Outcome::NotApplicable => subject,
            _ => subject + &self.other_places(part),
        }
    }

    /// What it comes to that there is nothing of what a rule is for.
    fn none_of(&self, kind: KindId, About { rule, part }: About<'_>) -> String {
        let relief = part.relief.and_then(|relief| rule.reliefs.get(relief));
        let then = match (part.outcome, relief) {
            (Outcome::Fail, _) => "there must be one".to_owned(),
            (Outcome::Pass, Some(relief)) => format!("it passes by relief `{}`", relief.id),
            (Outcome::Pass, None) => "the rule is met".to_owned(),
            (Outcome::Refer, _) => format!("{} decides this", self.rules.authority),
            _ => "what follows from that is not known yet".to_owned(),
        };
        let pool = (part.pool.is_some() && self.several_pools()).then(|| self.pool_words(part));
        let lead = pool.map_or(String::new(), |pool| format!("for {pool}, "));
        capitalised(&format!(
            "{lead}there is no {} here; {then}.",
            self.noun(kind)
        ))
    }

    fn fails(&self, rule: &Rule, readings: &[ReadingReport]) -> String {
        if readings.is_empty() {
            let asked = requirement_words(&rule.require, self.rules);
            return joined(&[format!("This is not met: {asked}."), self.no_relief(rule)]);
        }
        joined(&[said(readings), self.no_relief(rule)])
    }

    /// The reliefs that would have been enough instead.
    fn no_relief(&self, rule: &Rule) -> String {
        let told = rule.reliefs.iter().map(|relief| {
            let asked = requirement_words(&relief.require, self.rules);
            let when = relief.when.as_ref();
            let when = when.map(|when| format!("where {}, ", requirement_words(when, self.rules)));
            let when = when.unwrap_or_default();
            match when.len() + asked.len() {
                0..MOST_ASKED => format!(
                    "The relief `{}` is not met either; it asks: {when}{asked}.",
                    relief.id
                ),
                _ => format!("The relief `{}` is not met either.", relief.id),
            }
        });
        joined(&told.collect::<Vec<String>>())
    }

    fn marginal(&self, about: About<'_>, readings: &[ReadingReport]) -> String {
        let as_drawn = as_drawn_words(about.part.as_drawn);
        let said = said(readings);
        let said = said.strip_prefix("As drawn, ").unwrap_or(&said);
        let figures = match said.is_empty() {
            true => String::new(),
            false => format!(": {}", after(as_drawn, said.trim_end_matches('.'))),
        };
        let first = format!("{}{figures}.", capitalised(as_drawn));
        joined(&[first, self.what_makes_sure(about)])
    }

    fn unknown(&self, about: About<'_>, readings: &[ReadingReport]) -> String {
        let fails = match may_only_fail_as_drawn(about.part) {
            true if is_unsure(about.part) => "It fails as drawn.",
            true => "If the rule applies, it fails as drawn.",
            false => "",
        };
        let missing = match self.all_missing_of(about).len() {
            0 if is_near(about.part) => format!(
                "No answer to a question settles this: as drawn and stated, the figure may lie on either side of the limit. \
                 Measure or draw it more exactly, or change the plan; otherwise ask {}.",
                self.rules.authority
            ),
            0 => format!(
                "No answer to a question settles this; ask {}.",
                self.rules.authority
            ),
            1 => "It depends on an answer that is still missing.".to_owned(),
            number => format!("It depends on {number} answers that are still missing."),
        };
        joined(&[fails.to_owned(), said(readings), missing])
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
                    "This rule is in force {}, or there is nothing here that it is about.",
                    words.unwrap_or_default()
                )
            }
            (None, None) => "There is nothing here that this rule is about.".to_owned(),
        }
    }
}

/// Whether it is about a thing the rule may not mean.
fn is_unsure(part: &Part) -> bool {
    matches!(part.subject, Subject::Thing { sure: false, .. })
}

/// Whether it is open although the figure has a known low and high end.
fn is_near(part: &Part) -> bool {
    let known = |measured: Interval| measured.least().is_some() && measured.greatest().is_some();
    let mut readings = part.readings.iter();
    readings.any(|reading| reading.truth.is_open() && reading.measured.is_some_and(known))
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

/// The readings' sentences, no more than a few.
fn said(readings: &[ReadingReport]) -> String {
    let some = readings.get(..MOST_SAID).unwrap_or(readings);
    let mut sentences: Vec<String> = Vec::new();
    for (place, reading) in some.iter().enumerate() {
        match some.get(place + 1) {
            Some(next) if none_or(reading, next) => {}
            _ => {
                let before = place.checked_sub(1).and_then(|before| some.get(before));
                let or_none = before.is_some_and(|before| none_or(before, reading));
                sentences.push(match or_none {
                    true => (reading.sentence).replacen("it must be ", "it must be none or ", 1),
                    false => reading.sentence.clone(),
                });
            }
        }
    }
    sentences.dedup();
    if let Some(more @ 1..) = readings.len().checked_sub(MOST_SAID) {
        sentences.push(format!("And {more} more."));
    }
    sentences.join(" ")
}

/// Whether the second reading continues the first: it must be none, or keep this limit.
fn none_or(first: &ReadingReport, second: &ReadingReport) -> bool {
    let one_value = first.what == second.what && first.place == second.place;
    one_value && first.bound == "none" && second.limit.is_some() && second.bound != "none"
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
    const OURS: [&str; 14] = [
        "Between ",
        "Nor ",
        "No answer",
        "The ",
        "It ",
        "This ",
        "As ",
        "Whether ",
        "There ",
        "What ",
        "Who",
        "If ",
        "No ",
        "All ",
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

/// What a rule comes to in a sentence: its one part, or the part that decides it and a count of the others.
pub(super) fn rule_sentence(
    outcome: Outcome,
    parts: &[PartReport],
    deciding: Option<usize>,
) -> String {
    let Some(part) = deciding.and_then(|place| parts.get(place)) else {
        return "There is nothing here that this rule is about.".to_owned();
    };
    if parts.len() == 1 {
        return part.sentence.clone();
    }
    let alike = parts
        .iter()
        .filter(|other| comes_to(other) == comes_to(part))
        .count();
    let tally = match outcome == Outcome::Fail && part.outcome != Outcome::Fail {
        true => "Whatever the missing answers are, at least one fails; the first:".to_owned(),
        false => tally(part, alike, parts),
    };
    format!("{tally} {}", part.sentence)
}

/// What parts are counted together by: of those that only the accuracy leaves open, also what they come to as drawn.
fn comes_to(part: &PartReport) -> (Outcome, Option<Outcome>) {
    let as_drawn = part.as_drawn.filter(|_| part.outcome == Outcome::Marginal);
    (part.outcome, as_drawn)
}

fn tally(part: &PartReport, alike: usize, parts: &[PartReport]) -> String {
    let all = parts.len();
    let verb = match comes_to(part) {
        (Outcome::Fail, _) => "fail",
        (Outcome::Unknown, _) => "are not decided",
        (Outcome::Marginal, Some(Outcome::Fail)) => "fail as drawn",
        (Outcome::Marginal, Some(Outcome::Pass)) => "pass as drawn",
        (Outcome::Marginal, _) => "are too close to call",
        (Outcome::Refer, _) => "are for the authority to decide",
        (Outcome::Pass, _) => "pass",
        (Outcome::NotApplicable, _) => "are not concerned",
    };
    let unseen = parts
        .iter()
        .any(|part| part.subject.id.is_none() && !part.subject.sure);
    match (part.outcome, alike == all) {
        (Outcome::Pass, true) if unseen => {
            "All pass, and so would any that is not drawn; the one with the least room:".to_owned()
        }
        (Outcome::Pass, true) => format!("All {all} pass; the one with the least room:"),
        (_, true) => format!("All {all} {verb}; the first:"),
        (_, false) => format!("{alike} of {all} {verb}; the first:"),
    }
}

/// The place of the part that decides: the worst outcome, what fails as drawn before all else that is open, and among
/// equals the least room.
pub(crate) fn deciding(parts: &[Part]) -> Option<usize> {
    let room = |part: &Part| part.margin.map_or(i128::MAX, |margin| margin.range.low);
    let key = |part: &Part| (!is_bad(part), part.outcome, room(part));
    let places = parts.iter().enumerate();
    let worst = places.min_by_key(|(_, part)| key(part));
    worst.map(|(place, _)| place)
}

/// Whether it fails, for sure or as drawn.
fn is_bad(part: &Part) -> bool {
    part.outcome == Outcome::Fail || fails_as_drawn(part)
}
