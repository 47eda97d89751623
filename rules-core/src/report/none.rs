//! Where there must be none: an area, a length or a number that must be nothing, and the pool past the lot line.

use super::context::ReportContext;
use super::model::{RangeReport, ReadingReport};
use super::readings::About;
use super::telling::MET;
use crate::check::{Reading, Truth};
use crate::ruleset::words::{all_words, operand_words, zone_words};
use crate::ruleset::{Area, Bound, Choice, Value};
use crate::text::capitalised;

/// How it is said that there is none of something, and that there is some.
pub(super) struct NoneWords {
    none: String,
    /// What is asked where it is not known.
    whether: String,
    before: String,
    after: String,
    /// What must be, where that does not go without saying.
    must: &'static str,
    /// What a row says of some.
    row: &'static str,
}

impl ReportContext<'_> {
    /// How to word a reading of something of which there must be none.
    pub(super) fn none_words(&self, about: About<'_>, reading: &Reading) -> Option<NoneWords> {
        if about.rule.built_in {
            return Some(self.past_the_line(about));
        }
        must_be_none(reading).then(|| self.of_value(reading.value()))?
    }

    /// What the pool comes to that must lie on the lot.
    fn past_the_line(&self, about: About<'_>) -> NoneWords {
        let pool = self.pool_words(about.part);
        NoneWords {
            none: format!("{pool} lies on the lot"),
            whether: format!("{pool} lies on the lot"),
            before: String::new(),
            after: format!(" of {pool} lies past the lot line"),
            must: "",
            row: " past the lot line",
        }
    }

    fn of_value(&self, value: &Value) -> Option<NoneWords> {
        match value {
            Value::Count(things) => {
                let things = all_words(things, self.rules);
                Some(NoneWords {
                    none: format!("there are no {things}"),
                    whether: format!("there are any {things}"),
                    before: format!("the number of {things} is "),
                    after: String::new(),
                    must: "; there must be none",
                    row: ", none allowed",
                })
            }
            Value::Area(area) => self.of_area(area),
            Value::Named { value, .. } => self.of_value(value),
            _ => None,
        }
    }

    fn of_area(&self, area: &Area) -> Option<NoneWords> {
        let zone = area.within.as_ref().filter(|_| area.share_of.is_none())?;
        let zone = zone_words(zone, self.rules);
        let any = format!(
            "what is within {}",
            operand_words(&area.of, "or", self.rules)
        );
        Some(NoneWords {
            none: format!("no part of {any} lies {zone}"),
            whether: format!("any part of {any} lies {zone}"),
            before: String::new(),
            after: format!(
                " of what is within {} lies {zone}",
                operand_words(&area.of, "and", self.rules)
            ),
            must: "; there must be none",
            row: ", none allowed",
        })
    }
}

impl NoneWords {
    /// `3.2 m² of the pool lies past the lot line.`
    pub(super) fn sentence(&self, report: &ReadingReport, reading: &Reading) -> String {
        let said = match (&report.drawn, &report.measured) {
            _ if reading.truth == Truth::HOLDS => return self.is(&self.none),
            (Some(drawn), measured) => {
                let may_be = measured
                    .as_ref()
                    .map(|range| format!("; it may be {}", range.text));
                let as_drawn = match reading.drawn.is_some_and(|drawn| drawn.high == 0) {
                    true => format!("as drawn, {}", self.none),
                    false => format!("as drawn, {}", self.some(drawn)),
                };
                format!("{as_drawn}{}", may_be.unwrap_or_default())
            }
            (None, Some(measured)) => self.some(&measured.text),
            (None, None) => format!("it is not known whether {}", self.whether),
        };
        self.is(&format!("{said}{}", self.must))
    }

    /// The same in a few words.
    pub(super) fn brief(&self, truth: Truth, measured: Option<&RangeReport>) -> String {
        match (truth.applied(), measured) {
            (Truth::HOLDS, _) => MET.to_owned(),
            (_, Some(measured)) => format!("{}{}", measured.text, self.row),
            (_, None) => "not known".to_owned(),
        }
    }

    fn some(&self, amount: &str) -> String {
        format!("{}{amount}{}", self.before, self.after)
    }

    fn is(&self, clause: &str) -> String {
        format!("{}.", capitalised(clause))
    }
}

/// Whether nothing but none keeps the bound.
fn must_be_none(reading: &Reading) -> bool {
    let nothing = reading
        .limit
        .is_some_and(|limit| limit.is_exact() && limit.low == 0);
    match reading.bound() {
        _ if reading.negated => false,
        Bound::AtMost(limit) => nothing && matches!(limit, Value::Stated(_)),
        Bound::Is(choices) => matches!(choices.as_slice(), [Choice::Amount(0, _)]),
        _ => false,
    }
}
