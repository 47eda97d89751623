//! Readings in figures and in sentences.

use super::context::ReportContext;
use super::figures::{
    NOT_KNOWN, drawn, drawn_margin, margin, measured_alone, measured_and_limit, open_end,
    says_nothing, unit_of,
};
use super::model::{RangeReport, ReadingReport};
use crate::check::{Part, Reading, Truth};
use crate::quantity::{Dimension, Interval};
use crate::ruleset::words::{bound_words, listed, value_words};
use crate::ruleset::{Along, Bound, Measured, Places, Rule, Value};
use crate::text::capitalised;
use crate::vocabulary::Answer;

/// What a reading belongs to.
#[derive(Clone, Copy)]
pub(super) struct About<'f> {
    pub rule: &'f Rule,
    pub part: &'f Part,
}

/// Whether a value is the widest gap in a barrier.
fn is_a_gap(value: &Value) -> bool {
    match value {
        Value::Enclosure(_) => true,
        Value::Named { value, .. } => is_a_gap(value),
        _ => false,
    }
}

/// Whether a distance was measured that is surely not 0. If its two ends are then one place, something was cut, and it
/// is not known where the distance was measured.
fn is_apart(reading: &Reading) -> bool {
    let length = reading.dimension == Dimension::Length;
    length
        && reading.measured.is_some_and(|measured| measured.low > 0)
        && !is_a_gap(reading.value())
}

impl ReportContext<'_> {
    pub(super) fn reading(&self, about: About<'_>, reading: &Reading) -> ReadingReport {
        let report = self.figures_of(about, reading);
        let report = ReadingReport {
            witness: reading
                .witness
                .as_ref()
                .filter(|witness| witness.from != witness.to || !is_apart(reading))
                .map(|witness| match is_a_gap(reading.value()) {
                    true => self.gap(witness),
                    false => self.witness(witness),
                }),
            ..report
        };
        let sentence = match self.none_words(about, reading) {
            Some(none) => none.sentence(&report, reading),
            None => self.reading_sentence(&report, reading),
        };
        ReadingReport { sentence, ..report }
    }

    /// The figures of a reading, and itself in a few words; where it was measured, and itself in a sentence, is left out.
    pub(super) fn figures_of(&self, about: About<'_>, reading: &Reading) -> ReadingReport {
        let (measured, limit) = self.ranges(reading);
        let room = (reading.margin)
            .filter(|_| measured.is_some())
            .and_then(|room| margin(room, Some(reading.bound().relation()), reading.unit));
        let unit = unit_of(reading.unit, reading.dimension);
        let along = reading.along.map(|along| measured_alone(along, unit));
        let mut report = ReadingReport {
            what: value_words(reading.value(), self.rules),
            drawn: drawn(reading),
            along: along.and_then(|along| Some(format!("from {} to {}", along.low?, along.high?))),
            place: self.place_words_of(about.part, reading),
            words: self.known_words(reading),
            may_be_none: reading.may_be_none,
            bound: self.asked_words(reading),
            holds: holds(reading.truth).to_owned(),
            margin: room,
            ..only_ranges(measured, limit)
        };
        let at_worst = report.margin.as_ref().map(|room| room.at_worst.as_str());
        report.brief = match self.none_words(about, reading) {
            Some(none) => none.brief(reading.truth, report.measured.as_ref()),
            None => self.brief(&report, at_worst, reading),
        };
        report
    }

    fn reading_sentence(&self, report: &ReadingReport, compared: &Reading) -> String {
        let what = capitalised(&report.what);
        let must = self.must(report, compared);
        match amount_words(report, compared) {
            Some(amount) => {
                let none = match report.may_be_none {
                    true => ", or there is none",
                    false => "",
                };
                let room = room_words(report, compared).map(|room| format!(": {room}"));
                let room = room.unwrap_or_default();
                format!("{what} is {amount}{none}; {must}{room}.")
            }
            None if !report.words.is_empty() => {
                let none = report.may_be_none.then(|| "none".to_owned());
                let words = [&report.words[..], none.as_slice()].concat();
                format!("{what}: {}; {must}.", listed(&words, "or"))
            }
            None if report.may_be_none && report.holds != "open" => {
                format!("{what}: none; {must}.")
            }
            None => format!("{what} is not known; {must}."),
        }
    }

    /// What it must keep; the limit's amount behind it where the words alone do not say it.
    fn must(&self, report: &ReadingReport, compared: &Reading) -> String {
        if let (true, Bound::Is(_)) = (compared.negated, compared.bound()) {
            let words = bound_words(compared.bound(), self.rules);
            return format!("it must not be {words}");
        }
        let limit = compared.bound().limit();
        let stated = limit.is_none_or(|limit| matches!(limit, Value::Stated(_)));
        let whereabouts = match compared.test.holds {
            Some(Along::Anywhere) => " somewhere along it",
            Some(Along::AllAlong) => " all along it",
            None => "",
        };
        let here = match &report.limit {
            Some(limit) if !stated && limit.text == NOT_KNOWN => ", which is not known".to_owned(),
            Some(limit) if !stated => format!(", here {}{}", limit.text, open_end(limit)),
            _ => String::new(),
        };
        format!("it must be {}{whereabouts}{here}", report.bound)
    }

    /// What must be kept: `at least 3 m`, `not wood`.
    fn asked_words(&self, reading: &Reading) -> String {
        let words = bound_words(reading.bound(), self.rules);
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
}

fn holds(truth: Truth) -> &'static str {
    match truth.applied() {
        Truth::HOLDS => "holds",
        Truth::FAILS => "fails",
        Truth::AUTHORITY => "authority",
        _ => "open",
    }
}

/// How much it is: as drawn first, then what it may be, and at which place along its thing.
fn amount_words(report: &ReadingReport, compared: &Reading) -> Option<String> {
    let touch = match meets(compared) {
        true => " (they touch or overlap)",
        false => "",
    };
    let amount = match (&report.drawn, &report.measured) {
        (Some(drawn), Some(measured)) if compared.drawn.is_some_and(Interval::is_exact) => {
            format!("{drawn} as drawn{touch} and may be {}", measured.text)
        }
        (Some(drawn), Some(measured)) => {
            format!("{} ({drawn} as drawn){}", measured.text, open_end(measured))
        }
        (Some(drawn), None) => format!("{drawn} as drawn{touch}"),
        (None, Some(measured)) => format!("{}{touch}{}", measured.text, open_end(measured)),
        (None, None) => return None,
    };
    Some(match (&report.along, &report.place) {
        (Some(along), Some(place)) => format!("{amount} {place} ({along} along it)"),
        (Some(_), None) => format!("{amount} along it"),
        (None, _) => amount,
    })
}

/// Whether two outlines have no distance between them as drawn, by the nearest way.
fn meets(compared: &Reading) -> bool {
    let level = match compared.value() {
        Value::Distance(distance) => {
            distance.how == Measured::Level && distance.places == Places::Nearest
        }
        _ => false,
    };
    level
        && compared
            .drawn
            .is_some_and(|drawn| drawn.is_exact() && drawn.low == 0)
}

/// Whether two outlines touch or overlap where any distance would do: how far one reaches into the other is not in the
/// figures, so that "exactly at the limit" would belittle it.
pub(super) fn overlaps_at_no_distance(compared: &Reading) -> bool {
    let room = compared.margin.map(|margin| margin.range);
    meets(compared) && room == Some(Interval::exact(0))
}

/// How much room there is; where only that is known, how much there is as drawn.
fn room_words(report: &ReadingReport, compared: &Reading) -> Option<String> {
    match (&report.margin, &report.measured) {
        (Some(_), _) if overlaps_at_no_distance(compared) => None,
        (Some(margin), _) => Some(margin.text.clone()),
        (None, None) => Some(format!("{} as drawn", drawn_margin(compared)?.text)),
        (None, Some(_)) => None,
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
        along: None,
        place: None,
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
