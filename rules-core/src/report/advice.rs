//! What would decide a finding that only the plan's accuracy leaves open.

use super::context::ReportContext;
use super::drawn::{Enough, gap_as_drawn};
use super::figures::{larger, smaller, unit_of};
use super::readings::About;
use crate::check::{Reading, Witness};
use crate::plan::ThingIndex;
use crate::plan::figure::Accuracy;
use crate::quantity::{Dimension, Unit};
use crate::ruleset::Value;
use crate::ruleset::words::value_words;
use crate::vocabulary::OutlineId;

/// What makes it sure that nothing lies beyond a line.
const SURVEY_THE_LINES: &str = "Have the lines surveyed that count here, and say how far off they may be; or move away from them.";

/// What makes it sure how much the drawing covers.
const SURVEY_AND_SAY: &str =
    "Have the lines surveyed that count here, and say how far off they may be.";

/// Whether it is read off many lines of the drawing at once, so that nobody can measure it by itself.
fn is_drawn(value: &Value) -> bool {
    match value {
        Value::Area(_) | Value::Volume(_) | Value::Length { .. } | Value::Count(_) => true,
        Value::Named { value, .. } => is_drawn(value),
        _ => false,
    }
}

impl ReportContext<'_> {
    /// The advice for a part that is `marginal`: what to survey or tape, how well, or how far to move.
    pub(super) fn advice(&self, about: About<'_>) -> Option<String> {
        let open = about.part.readings.iter();
        let open = open.filter(|reading| reading.truth.is_open());
        let sentences: Vec<String> = open
            .filter_map(|reading| self.one_advice(about, reading))
            .collect();
        (!sentences.is_empty()).then(|| sentences.join(" "))
    }

    fn one_advice(&self, about: About<'_>, reading: &Reading) -> Option<String> {
        if self.none_words(about, reading).is_some() {
            return Some(SURVEY_THE_LINES.to_owned());
        }
        let gap = gap_as_drawn(reading)?;
        let unit = unit_of(reading.unit, reading.dimension);
        let advice = match (reading.tolerance, reading.witness) {
            (Some(tolerance), Some(witness)) => self.survey(reading, tolerance.into(), &witness),
            (None, Some(witness)) => self.ask_how_far_off(&witness, unit),
            _ => self.measure_again(reading, gap, unit),
        };
        Some(format!(
            "{advice}{}",
            move_in(reading, unit).unwrap_or_default()
        ))
    }

    fn survey(&self, reading: &Reading, tolerance: i128, witness: &Witness) -> String {
        let unit = unit_of(reading.unit, reading.dimension);
        let ends = self.both_ends(witness, unit);
        match Enough::beside(reading) {
            Some(enough) => format!(
                "Survey or tape between {ends}: the two accuracies together are {} and must come down to {}.",
                larger(tolerance, unit),
                enough.or_less()
            ),
            None => format!(
                "As drawn it lies exactly at the limit, so that no survey of {ends} can settle it."
            ),
        }
    }

    /// What to ask for where nobody said how far off the ends of a distance may be; of one end, where the other is told.
    fn ask_how_far_off(&self, witness: &Witness, unit: Unit) -> String {
        let from = (witness.from_thing, witness.from_outline);
        let to = (witness.to_thing, witness.to_outline);
        let untold = |(thing, outline)| self.accuracy(thing, outline).is_none();
        match (untold(from), untold(to)) {
            (true, false) => self.ask_of_one(from),
            (false, true) => self.ask_of_one(to),
            _ => {
                let ends = self.both_ends(witness, unit);
                format!("Say how far off {ends} may be, or have them surveyed.")
            }
        }
    }

    fn ask_of_one(&self, (thing, outline): (ThingIndex, OutlineId)) -> String {
        let end = self.outline_words(thing, outline);
        format!("Say how far off {end} may be, or have it surveyed.")
    }

    fn both_ends(&self, witness: &Witness, unit: Unit) -> String {
        format!(
            "{} and {}",
            self.end_words(witness.from_thing, witness.from_outline, unit),
            self.end_words(witness.to_thing, witness.to_outline, unit)
        )
    }

    /// One end of a distance, with how far off it may be.
    fn end_words(&self, thing: ThingIndex, outline: OutlineId, unit: Unit) -> String {
        let words = self.outline_words(thing, outline);
        match self.accuracy(thing, outline) {
            Some(accuracy) => format!("{words} (± {})", larger(accuracy.into(), unit)),
            None => words,
        }
    }

    fn accuracy(&self, thing: ThingIndex, outline: OutlineId) -> Accuracy {
        self.thing(thing)?.outlines.get(&outline)?.accuracy
    }

    fn measure_again(&self, reading: &Reading, gap: i128, unit: Unit) -> String {
        if is_drawn(reading.value()) {
            return SURVEY_AND_SAY.to_owned();
        }
        let what = value_words(reading.value(), self.rules);
        if gap == 0 {
            return format!(
                "As stated, {what} is exactly at the limit: no measuring can settle it."
            );
        }
        let how = match reading.value() {
            Value::Fact(fact) => self.rules.vocabulary.fact(*fact).how.as_str(),
            _ => "",
        };
        let again = format!(
            "Measure {what} again, to ± {} or better. {how}",
            smaller(gap, unit)
        );
        again.trim_end().to_owned()
    }
}

/// By how much to move so that it holds wherever the lines truly are.
fn move_in(reading: &Reading, unit: Unit) -> Option<String> {
    let margin = reading.margin?;
    let far = margin.range.least().filter(|low| *low <= 0)?;
    let lengths = margin.dimension == Dimension::Length && reading.tolerance.is_some();
    if !lengths {
        return None;
    }
    let by = match far {
        0 => "a little".to_owned(),
        _ => larger(far.checked_neg()?, unit),
    };
    Some(format!(
        " Or move it by {by}: then it keeps the limit wherever the lines truly are."
    ))
}
