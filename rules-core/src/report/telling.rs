//! Which of a part's readings tells most of it, and the part in a few words.

use super::context::ReportContext;
use super::figures::{NOT_KNOWN, WITHOUT_END, at_worst};
use super::model::ReadingReport;
use super::readings::{About, only_ranges, overlaps_at_no_distance};
use crate::check::{Outcome, Part, Reading, Truth};
use crate::ruleset::words::{clause_of, listed, value_words};
use crate::ruleset::{Along, Bound};

impl ReportContext<'_> {
    /// The place of the reading that tells most of a part: of those that agree with what it comes to, the first with a
    /// limit of which anything is known. Where it passes by a relief, what counts is what the relief asks, and the relief's
    /// readings come last.
    pub(super) fn telling(&self, part: &Part, compared: &[Reading]) -> Option<usize> {
        let agrees = |one: &Reading| agrees(part.outcome, one.truth);
        if by_relief(part) {
            return compared.iter().rposition(agrees);
        }
        let tells = |one: &Reading| agrees(one) && one.limit.is_some() && self.is_known(one);
        let first = compared.iter().position(agrees);
        compared.iter().position(tells).or(first)
    }

    /// The reading in a few words, those of [`ReportContext::figures_of`].
    pub(super) fn brief_of(&self, about: About<'_>, reading: &Reading) -> String {
        if self.none_words(about, reading).is_some() {
            return self.figures_of(about, reading).brief;
        }
        let (measured, limit) = self.ranges(reading);
        let room = reading.margin.filter(|_| measured.is_some());
        let room = room.and_then(|room| at_worst(room, reading.bound().relation(), reading.unit));
        let in_figures = measured.is_some() && limit.is_some();
        let mut report = ReadingReport {
            place: self.place_words_of(about.part, reading),
            ..only_ranges(measured, limit)
        };
        if !in_figures {
            report.what = value_words(reading.value(), self.rules);
            report.words = self.known_words(reading);
        }
        self.brief(&report, room.as_deref(), reading)
    }

    /// The reading in a few words, with the figures as they are at worst.
    pub(super) fn brief(
        &self,
        report: &ReadingReport,
        room: Option<&str>,
        reading: &Reading,
    ) -> String {
        let (Some(measured), Some(limit)) = (&report.measured, &report.limit) else {
            return match report.words.is_empty() || clause_of(reading.value(), self.rules).is_some()
            {
                true => in_a_word(reading.truth).to_owned(),
                false => format!("{} is {}", report.what, quoted(&report.words)),
            };
        };
        let (asked, at_worst, limit) = match reading.bound() {
            Bound::AtLeast(_) => ("at least ", &measured.low, &limit.high),
            Bound::MoreThan(_) => ("more than ", &measured.low, &limit.high),
            Bound::AtMost(_) => ("at most ", &measured.high, &limit.low),
            Bound::LessThan(_) => ("less than ", &measured.high, &limit.low),
            Bound::Is(_) => ("", &measured.low, &limit.low),
        };
        // Of what must hold somewhere along a thing, the worst place tells nothing.
        let anywhere = reading.test.holds == Some(Along::Anywhere);
        let measured = match at_worst {
            _ if anywhere => &measured.text,
            Some(amount) => amount,
            None if measured.text == WITHOUT_END => WITHOUT_END,
            None => NOT_KNOWN,
        };
        let whereabouts = if anywhere { " somewhere along it" } else { "" };
        let asked = match limit {
            Some(limit) => format!("{asked}{limit} asked{whereabouts}"),
            None => "how much is asked is not known".to_owned(),
        };
        let place = report.place.as_ref().map(|place| format!(" {place}"));
        let place = place.unwrap_or_default();
        let room = room.filter(|room| *room != NOT_KNOWN && !overlaps_at_no_distance(reading));
        let room = room.map(|room| format!(", {room}")).unwrap_or_default();
        format!("{measured}{place}, {asked}{room}")
    }

    /// `3.4 m, at least 3 m asked, 0.4 m to spare`; with the relief by which it passes.
    pub(super) fn part_brief(&self, about: About<'_>, telling: Option<&Reading>) -> String {
        let About { rule, part } = about;
        let brief = telling.map(|one| self.brief_of(about, one));
        let relief = part.relief.filter(|_| by_relief(part));
        let relief = relief.and_then(|relief| rule.reliefs.get(relief));
        let relief = relief.map(|relief| format!(", by relief `{}`", relief.id));
        let brief = brief.as_deref().unwrap_or(in_a_word(part.truth));
        // Of what is just met it says nothing for which pool it is.
        let pool = part.pool.filter(|_| self.several_pools() && brief != MET);
        let pool = pool.map(|pool| format!(", for {}", self.thing_words(pool)));
        format!(
            "{brief}{}{}",
            relief.unwrap_or_default(),
            pool.unwrap_or_default()
        )
    }
}

/// Whether a comparison does not contradict what it belongs to.
fn agrees(outcome: Outcome, truth: Truth) -> bool {
    match outcome {
        Outcome::Pass => truth.applied() == Truth::HOLDS,
        Outcome::Fail => truth.applied() == Truth::FAILS,
        _ => true,
    }
}

fn by_relief(part: &Part) -> bool {
    part.relief.is_some() && part.outcome == Outcome::Pass
}

/// The brief of a part that is met and has no figure.
pub(super) const MET: &str = "met";

/// The result of a comparison that has no figure to show.
fn in_a_word(truth: Truth) -> &'static str {
    match truth.applied() {
        Truth::HOLDS => MET,
        Truth::FAILS => "not met",
        Truth::AUTHORITY => "for the authority",
        Truth::NONE => "not applicable",
        _ => NOT_KNOWN,
    }
}

fn quoted(words: &[String]) -> String {
    let words: Vec<String> = words.iter().map(|word| format!("`{word}`")).collect();
    listed(&words, "or")
}
