//! What would decide a finding that only the plan's accuracy leaves open.

use super::figures::unit_of;
use super::matter::Matter;
use crate::check::{Reading, Witness};
use crate::plan::ThingIndex;
use crate::plan::figure::Accuracy;
use crate::quantity::{Dimension, Interval, Rounding, Unit, show};
use crate::ruleset::Value;
use crate::ruleset::words::value_words;
use crate::vocabulary::OutlineId;

impl Matter<'_> {
    /// The advice for a part that is `marginal`: what to survey or tape, how well, or how far to move.
    pub(super) fn advice(&self, compared: &[Reading]) -> Option<String> {
        let open = compared.iter().map(|one| one);
        let open = open.filter(|reading| reading.truth.is_open());
        let sentences: Vec<String> = open
            .filter_map(|reading| self.one_advice(reading))
            .collect();
        (!sentences.is_empty()).then(|| sentences.join(" "))
    }

    fn one_advice(&self, reading: &Reading) -> Option<String> {
        let gap = gap_as_drawn(reading.drawn?, reading.limit?)?;
        let unit = unit_of(reading.unit, reading.dimension);
        let advice = match (reading.blur, reading.witness) {
            (Some(blur), Some(witness)) => self.survey(blur.into(), gap, &witness, unit),
            _ => self.measure_again(reading, gap, unit),
        };
        Some(format!(
            "{advice}{}",
            move_in(reading, unit).unwrap_or_default()
        ))
    }

    fn survey(&self, blur: i128, gap: i128, witness: &Witness, unit: Unit) -> String {
        let ends = format!(
            "{} and {}",
            self.end_words(witness.from_thing, witness.from_outline, unit),
            self.end_words(witness.to_thing, witness.to_outline, unit)
        );
        if gap == 0 {
            return format!(
                "As drawn it lies exactly at the limit, so that no survey of {ends} can settle it."
            );
        }
        format!(
            "Survey or tape between {ends}: the two accuracies together are {} and must come down to {} or less.",
            larger(blur, unit),
            smaller(gap, unit)
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
        let what = value_words(reading.value(), self.rules);
        let how = match reading.value() {
            Value::Fact(fact) => self.rules.vocabulary.fact(*fact).how.as_str(),
            _ => "",
        };
        let how = if how.is_empty() {
            String::new()
        } else {
            format!(" {how}")
        };
        if gap == 0 {
            return format!(
                "As stated, {what} is exactly at the limit: no measuring can settle it."
            );
        }
        format!(
            "Measure {what} again, to ± {} or better.{how}",
            smaller(gap, unit)
        )
    }
}

/// How far the reading lies from the limit as drawn; nothing where the limit's own range reaches it.
fn gap_as_drawn(drawn: Interval, limit: Interval) -> Option<i128> {
    let below = limit.low.checked_sub(drawn.high)?;
    let above = drawn.low.checked_sub(limit.high)?;
    Some(below.max(above).max(0))
}

/// By how much to move so that it holds wherever the lines truly are.
fn move_in(reading: &Reading, unit: Unit) -> Option<String> {
    let margin = reading.margin?;
    let far = margin.range.least().filter(|low| *low <= 0)?;
    let lengths = margin.dimension == Dimension::Length && reading.blur.is_some();
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

fn larger(amount: i128, unit: Unit) -> String {
    show(amount, unit, Rounding::Up, unit.digits())
}

/// Rounded down, but never to nothing: what is asked for must be possible.
fn smaller(amount: i128, unit: Unit) -> String {
    let nothing = show(0, unit, Rounding::Down, 0);
    (unit.digits()..30)
        .map(|digits| show(amount, unit, Rounding::Down, digits))
        .find(|text| *text != nothing)
        .unwrap_or(nothing)
}
