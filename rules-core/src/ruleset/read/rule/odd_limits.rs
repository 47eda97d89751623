//! Limits that nothing can keep, that everything keeps, or that are a share a hundred times too large.

use crate::faults::Code;
use crate::grammar;
use crate::quantity::{ONE, Unit, show_exactly};
use crate::ruleset::lint::cells::{every_amount_keeps, everything_keeps, impossible, stated};
use crate::ruleset::read::Reader;
use crate::ruleset::types::physical;
use crate::ruleset::{Bound, Stated, Value};
use crate::text::{Entry, Span};

impl Reader<'_> {
    /// Reports bounds that no amount can keep, and bounds that every amount keeps.
    pub(super) fn contradiction(&mut self, value: &Value, bounds: &[Bound], span: Span) {
        if impossible(value, bounds, &self.vocabulary) {
            let (message, help) = match bounds {
                [_] => (
                    format!(
                        "Nothing can keep this limit{}.",
                        self.possible(value, bounds)
                    ),
                    match value {
                        Value::Count(_) => "A count is a whole number, 0 or more.",
                        _ => "Is a figure, the unit or the direction wrong?",
                    },
                ),
                _ => (
                    "Nothing can keep all of these limits at once.".to_owned(),
                    "Is one of them the wrong way round?",
                ),
            };
            self.fault(Code::Contradiction, span, message).help(help);
        } else if everything_keeps(value, bounds, &self.vocabulary)
            || every_amount_keeps(value, bounds, &self.vocabulary)
        {
            let message = format!(
                "Every possible value keeps this limit{}.",
                self.possible(value, bounds)
            );
            self.warning(Code::AlwaysHolds, span, message)
                .help("Is a figure, the unit or the direction wrong?");
        } else {
            self.idle_bound(value, bounds, span);
        }
    }

    /// Reports a share that is given in percent without the sign, that is more than the whole, or next to nothing.
    pub(super) fn odd_share(&mut self, value: &Value, bounds: &[Bound], entries: &[Entry]) {
        const MOST: i128 = 3 * ONE;
        let mut limits = bounds.iter().filter_map(|bound| stated(bound.limit()?));
        let odd =
            |limit: &&Stated| limit.range.low > ONE || (1..ONE / 100).contains(&limit.range.low);
        let Some(limit) = limits.find(odd).filter(|_| is_share(value)) else {
            return;
        };
        let is_bound = |entry: &&Entry| grammar::BOUNDS.iter().any(|key| key.name == entry.key);
        let place = entries.iter().find(is_bound).map(|entry| entry.value.span);
        if let Some(span) = place.filter(|_| limit.unit == Unit::PERCENT) {
            self.odd_percent(limit, span);
        }
        if limit.range.low <= MOST {
            return;
        }
        let number = show_exactly(limit.range.low, Unit::ONE);
        let written = |entry: &&Entry| entry.value.text() == Some(number.as_str());
        let Some(span) = entries.iter().find(written).map(|entry| entry.value.span) else {
            return;
        };
        let message = format!("`{number}` as a share is {number}00 %.");
        self.warning(Code::LargeShare, span, message)
            .help(format!("Write `{number} %`, if that is meant."));
    }

    fn odd_percent(&mut self, limit: &Stated, span: Span) {
        let show = |share: i128| show_exactly(share, Unit::PERCENT);
        let said = show(limit.range.low);
        match limit.range.low.checked_mul(100).filter(|many| *many < ONE) {
            Some(many) => self
                .warning(
                    Code::SmallShare,
                    span,
                    format!("`{said}` is less than a hundredth."),
                )
                .help(format!(
                    "If {} is meant, write `{}`.",
                    show(many),
                    show(many)
                )),
            None => self
                .warning(
                    Code::LargeShare,
                    span,
                    format!("`{said}` is more than the whole."),
                )
                .help("A share of an area is at most 100 %: is there a figure too many?"),
        }
    }

    /// The possible amounts, in the unit of the limit, as the end of a sentence: `: it is never less than 0 m`.
    fn possible(&self, value: &Value, bounds: &[Bound]) -> String {
        let limit = bounds.iter().filter_map(|bound| stated(bound.limit()?));
        let Some(unit) = limit.map(|limit| limit.unit).next() else {
            return String::new();
        };
        let (least, most) = physical(value, &self.vocabulary);
        let show = |amount: Option<i128>| amount.map(|amount| show_exactly(amount, unit));
        match (show(least), show(most)) {
            (Some(least), Some(most)) => {
                format!(": it is never less than {least} or more than {most}")
            }
            (Some(least), None) => format!(": it is never less than {least}"),
            (None, Some(most)) => format!(": it is never more than {most}"),
            (None, None) => String::new(),
        }
    }
}

/// Whether a value is a share of an area.
pub(super) fn is_share(value: &Value) -> bool {
    matches!(value, Value::Area(area) if area.share_of.is_some())
}
