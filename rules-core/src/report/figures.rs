//! Amounts printed so that the figures never say anything else than the outcome does.

use super::model::{MarginReport, RangeReport};
use crate::check::{Margin, Reading};
use crate::quantity::{
    Dimension, Figures, Interval, NO_HIGH, NO_LOW, Relation, Rounding, Unit, in_one_dimension, show,
};
use crate::ruleset::{Bound, Value};

/// The unit of a reading: the limit's, unless it was brought into another dimension (months into days).
pub(super) fn unit_of(unit: Option<Unit>, dimension: Dimension) -> Unit {
    unit.filter(|unit| unit.dimension() == dimension)
        .unwrap_or(Unit::usual(dimension))
}

/// What was measured and its limit, printed together.
pub(super) fn measured_and_limit(reading: &Reading) -> Option<(RangeReport, RangeReport)> {
    let unit = unit_of(reading.unit, reading.dimension);
    let limit_unit = limit_unit(reading.bound(), unit);
    let measured = with_real_ends(reading.measured?, unit.dimension());
    let limit = with_real_ends(reading.limit?, limit_unit.dimension());
    let relation = reading.bound().relation();
    let figures = Figures::across((measured, unit), relation, (limit, limit_unit));
    let decided = relation
        .judge_as(
            (measured, unit.dimension()),
            (limit, limit_unit.dimension()),
        )
        .is_some_and(|compared| !compared.open());
    let text = match decided && measured.is_exact() && measured.least() != Some(NO_HIGH) {
        true => cautious(&figures, relation).to_owned(),
        false => rounded(measured, unit)
            .unwrap_or_else(|| range_words(measured, &figures.low, &figures.high)),
    };
    let (low, high) = &figures.limit;
    let limit = limit_range(limit, low, high, limit_unit);
    let measured = RangeReport {
        text,
        ..range(measured, &figures.low, &figures.high, unit)
    };
    Some((measured, limit))
}

/// A range that is far narrower than a figure of the unit is printed as one, unless that would say that there is none:
/// areas that were cut are off by a hair.
fn rounded(measured: Interval, unit: Unit) -> Option<String> {
    let (low, high) = (measured.least()?, measured.greatest()?);
    let [below, above] = [low, high].map(|end| show(end, unit, Rounding::Nearest, unit.digits()));
    let (numerator, denominator) = unit.size();
    let figure = (numerator / denominator) / 10_u128.pow(unit.digits());
    let hair = i128::try_from(figure / 100).ok()?;
    let alike = below == above && below != show(0, unit, Rounding::Nearest, unit.digits());
    (alike && high.checked_sub(low)? <= hair).then_some(below)
}

/// What the limit may be; nothing of it is told where nothing is known.
fn limit_range(limit: Interval, low: &str, high: &str, unit: Unit) -> RangeReport {
    let known = match says_nothing(limit) {
        true => Interval::any(),
        false => limit,
    };
    let text = match (known.least(), known.greatest()) {
        (Some(_), Some(_)) if low != high => format!("{low} to {high}"),
        _ => range_words(known, low, high),
    };
    RangeReport {
        text,
        ..range(known, low, high, unit)
    }
}

/// No length on a plan comes near it: what does is the greatest number of the machine, more or less by what was added.
const NO_LENGTH: i128 = (i64::MAX / 2) as i128;

/// The range with its ends open where they only are as far as the machine counts.
fn with_real_ends(range: Interval, dimension: Dimension) -> Interval {
    if dimension != Dimension::Length {
        return range;
    }
    let real = |end: i128| match end.checked_abs().is_none_or(|size| size >= NO_LENGTH) {
        true if end < 0 => NO_LOW,
        true => NO_HIGH,
        false => end,
    };
    Interval {
        low: real(range.low),
        high: real(range.high),
    }
}

/// A range on its own, without a limit beside it.
pub(super) fn measured_alone(measured: Interval, unit: Unit) -> RangeReport {
    let measured = with_real_ends(measured, unit.dimension());
    let low = show(measured.low, unit, Rounding::Down, unit.digits());
    let high = show(measured.high, unit, Rounding::Up, unit.digits());
    RangeReport {
        text: range_words(measured, &low, &high),
        ..range(measured, &low, &high, unit)
    }
}

/// What it is as drawn, against the same limit; none where that says no more than the range does.
pub(super) fn drawn(reading: &Reading) -> Option<String> {
    let says_more = |drawn: &Interval| Some(*drawn) != reading.measured && !says_nothing(*drawn);
    let drawn = reading.drawn.filter(says_more)?;
    let as_drawn = Reading {
        measured: Some(drawn),
        ..reading.clone()
    };
    measured_and_limit(&as_drawn).map(|(measured, _)| measured.text)
}

/// How much room there would be as drawn, against the same limit; none where nobody knows the limit well enough to tell on
/// which side of it that lies.
pub(super) fn drawn_margin(reading: &Reading) -> Option<MarginReport> {
    let unit = unit_of(reading.unit, reading.dimension).dimension();
    let limit = limit_unit(reading.bound(), Unit::usual(unit)).dimension();
    let (drawn, limit, dimension) =
        in_one_dimension((reading.drawn?, unit), (reading.limit?, limit))?;
    let relation = reading.bound().relation();
    let range = relation.margin(drawn, limit)?;
    let either_side = range.low < 0 && range.high > 0;
    let range = (!either_side).then_some(range)?;
    margin(Margin { range, dimension }, Some(relation), reading.unit)
}

/// The limit's own unit where it is of another dimension than what is measured: months against days.
fn limit_unit(bound: &Bound, unit: Unit) -> Unit {
    match bound.limit() {
        Some(Value::Stated(stated)) if stated.dimension != unit.dimension() => stated.unit,
        _ => unit,
    }
}

/// The one of two figures on either side of an exact amount that leaves less room.
fn cautious(figures: &Figures, relation: Relation) -> &str {
    match relation {
        Relation::AtMost | Relation::LessThan => &figures.high,
        Relation::AtLeast | Relation::MoreThan | Relation::Is => &figures.low,
    }
}

fn range(exact: Interval, low: &str, high: &str, unit: Unit) -> RangeReport {
    RangeReport {
        low: exact
            .least()
            .filter(|low| *low != NO_HIGH)
            .map(|_| low.to_owned()),
        high: exact.greatest().map(|_| high.to_owned()),
        unit: unit.symbol().to_owned(),
        text: String::new(),
    }
}

fn range_words(exact: Interval, low: &str, high: &str) -> String {
    match (exact.least(), exact.greatest()) {
        (Some(NO_HIGH), _) => WITHOUT_END.to_owned(),
        (Some(_), Some(_)) if low == high => low.to_owned(),
        (Some(_), Some(_)) => format!("between {low} and {high}"),
        (Some(_), None) => format!("at least {low}"),
        (None, Some(_)) => format!("at most {high}"),
        (None, None) => NOT_KNOWN.to_owned(),
    }
}

/// What surely is more than any amount: a gap that nothing closes, a distance to what is not there.
pub(super) const WITHOUT_END: &str = "without end";
/// What nobody knows anything of.
pub(super) const NOT_KNOWN: &str = "not known";

/// What is to be added in a sentence where one end of a range is not known.
pub(super) fn open_end(range: &RangeReport) -> &'static str {
    match (&range.low, &range.high) {
        (Some(_), None) => ", how much more nobody knows",
        (None, Some(_)) => ", how much less nobody knows",
        _ => "",
    }
}

/// Whether a range says nothing that was not plain before: no end, or a length of nothing or more.
pub(super) fn says_nothing(range: Interval) -> bool {
    range.greatest().is_none() && range.least().is_none_or(|low| low <= 0)
}

/// An amount rounded up.
pub(super) fn larger(amount: i128, unit: Unit) -> String {
    show(amount, unit, Rounding::Up, unit.digits())
}

/// Rounded down, but never to nothing: what is asked for must be possible.
pub(super) fn smaller(amount: i128, unit: Unit) -> String {
    let nothing = show(0, unit, Rounding::Down, 0);
    (unit.digits()..MOST_DIGITS)
        .map(|digits| show(amount, unit, Rounding::Down, digits))
        .find(|text| *text != nothing)
        .unwrap_or(nothing)
}

/// The margin in words: `0.4 m short`, `between 0.02 m short and 0.03 m to spare`.
pub(super) fn margin(
    margin: Margin,
    relation: Option<Relation>,
    unit: Option<Unit>,
) -> Option<MarginReport> {
    let margin = real_margin(margin)?;
    let (low, high) = (margin.range.least(), margin.range.greatest());
    let printer = Printer::of(margin, relation, unit);
    Some(MarginReport {
        low: low.map(|low| printer.signed(low, Rounding::Down)),
        high: high.map(|high| printer.signed(high, Rounding::Up)),
        text: printer.words(low, high, margin.range.is_exact()),
        at_worst: printer.at_worst(low),
    })
}

/// The low end of a margin in words, as [`margin`] says it.
pub(super) fn at_worst(margin: Margin, relation: Relation, unit: Option<Unit>) -> Option<String> {
    let margin = real_margin(margin)?;
    let printer = Printer::of(margin, Some(relation), unit);
    Some(printer.at_worst(margin.range.least()))
}

/// The margin, where at least one of its ends is an amount.
fn real_margin(margin: Margin) -> Option<Margin> {
    let range = with_real_ends(margin.range, margin.dimension);
    let endless = [range.low, range.high].map(|end| end == NO_LOW || end == NO_HIGH);
    (endless != [true, true]).then_some(Margin { range, ..margin })
}

/// What too little room is called.
fn shortness(relation: Option<Relation>) -> &'static str {
    match relation {
        Some(Relation::AtMost | Relation::LessThan) => "too much",
        _ => "short",
    }
}

struct Printer {
    unit: Unit,
    short: &'static str,
}

impl Printer {
    fn of(margin: Margin, relation: Option<Relation>, unit: Option<Unit>) -> Self {
        Self {
            unit: unit_of(unit, margin.dimension),
            short: shortness(relation),
        }
    }

    fn at_worst(&self, low: Option<i128>) -> String {
        match low {
            Some(low) => self.one(low, Rounding::Down),
            None => NOT_KNOWN.to_owned(),
        }
    }

    fn words(&self, low: Option<i128>, high: Option<i128>, exact: bool) -> String {
        match (low, high) {
            (Some(amount), _) if exact => self.one(amount, Rounding::Down),
            (Some(low), Some(high)) if (low < 0) == (high < 0) => self.same_side(low, high),
            (Some(low), Some(high)) => format!(
                "between {} and {}",
                self.one(low, Rounding::Down),
                self.one(high, Rounding::Up)
            ),
            (Some(low), None) if low > 0 => format!("at least {}", self.one(low, Rounding::Down)),
            (Some(low), None) => format!("at worst {}", self.one(low, Rounding::Down)),
            (None, Some(high)) if high >= 0 => format!("at best {}", self.one(high, Rounding::Up)),
            (None, Some(high)) => format!("at least {}", self.one(high, Rounding::Up)),
            (None, None) => NOT_KNOWN.to_owned(),
        }
    }

    fn same_side(&self, low: i128, high: i128) -> String {
        let (first, second) = if low < 0 { (high, low) } else { (low, high) };
        let (one, two) = if low < 0 {
            (Rounding::Up, Rounding::Down)
        } else {
            (Rounding::Down, Rounding::Up)
        };
        let (first_text, second_text) = (self.size(first, one), self.size(second, two));
        let side = self.side(low);
        if first_text == second_text {
            format!("{first_text} {side}")
        } else {
            format!("between {first_text} and {second_text} {side}")
        }
    }

    fn one(&self, amount: i128, rounding: Rounding) -> String {
        match amount {
            0 => "exactly at the limit".to_owned(),
            _ => format!("{} {}", self.size(amount, rounding), self.side(amount)),
        }
    }

    fn side(&self, amount: i128) -> &'static str {
        if amount < 0 { self.short } else { "to spare" }
    }

    /// The amount without its sign, rounded as the signed amount is.
    fn size(&self, amount: i128, rounding: Rounding) -> String {
        self.signed(amount, rounding)
            .trim_start_matches('-')
            .to_owned()
    }

    /// With so many digits that the amount is at least one step of the last: a millimetre is not printed as 0 m or 0.01 m.
    fn signed(&self, amount: i128, rounding: Rounding) -> String {
        let nothing = show(0, self.unit, rounding, 0);
        let down = |digits| show(amount.saturating_abs(), self.unit, Rounding::Down, digits);
        let digits = (self.unit.digits()..MOST_DIGITS)
            .find(|digits| amount == 0 || down(*digits) != nothing)
            .unwrap_or(MOST_DIGITS);
        show(amount, self.unit, rounding, digits)
    }
}

/// By then every figure is exact.
const MOST_DIGITS: u32 = 30;

/// A length in nanometres as metres, exactly: `12.345`.
pub(super) fn metres(nanometres: i128) -> String {
    let sign = if nanometres < 0 { "-" } else { "" };
    let size = nanometres.unsigned_abs();
    let (whole, behind) = (size / METRE, size % METRE);
    if behind == 0 {
        return format!("{sign}{whole}");
    }
    let digits = format!("{behind:09}");
    format!("{sign}{whole}.{}", digits.trim_end_matches('0'))
}

const METRE: u128 = 1_000_000_000;

/// The same, to the nearest millimetre, for people.
pub(super) fn metres_roughly(nanometres: i128) -> String {
    let half = if nanometres < 0 { -500_000 } else { 500_000 };
    let millimetres = nanometres.saturating_add(half) / 1_000_000;
    metres(millimetres.saturating_mul(1_000_000))
}
