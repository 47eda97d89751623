//! Reading an amount as a person wrote it.

use std::borrow::Cow;

use super::amount::{has_unit, in_tiny_units, parts_of, read_date, read_slope, too_large};
use super::dimension::Dimension;
use super::fault::QuantityFault;
use super::interval::Interval;
use super::meant::meant;
use super::number::read_number;
use super::unit::Unit;
use super::wide::Rounding;

/// An amount as read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Written {
    /// The one amount that was written, without its ±; `None` where only a range was.
    pub drawn: Option<i128>,
    /// All amounts that it can stand for.
    pub range: Interval,
    /// Its dimension.
    pub dimension: Dimension,
    /// The unit it was written in (the first, of several).
    pub unit: Unit,
}

impl Written {
    fn exact(amount: i128, unit: Unit) -> Self {
        Self::ranging(Some(amount), Interval::exact(amount), unit)
    }

    fn ranging(drawn: Option<i128>, range: Interval, unit: Unit) -> Self {
        Self {
            drawn,
            range,
            dimension: unit.dimension(),
            unit,
        }
    }
}

/// Reads an amount: `3.2 m`, `4 ft 6 in`, `1-3/4 in`, `3.05 m ± 0.02 m`, `46 .. 50 in`, `at least 3 m`, `2026-03-01`.
///
/// `wanted` is the dimension it must have (`None`: any); days may be written for months and months for days. A figure
/// without a unit takes `default_unit` if that is of the wanted dimension. Otherwise it is a plain number, where one is
/// wanted or anything goes. An amount that is not a whole number of tiny units is rounded once, to the nearest; a ± is
/// rounded up.
///
/// # Errors
///
/// A sentence for the person who wrote it, where it is not an amount, not of the wanted dimension, or can be read in two
/// ways.
pub fn parse(
    text: &str,
    wanted: Option<Dimension>,
    default_unit: Option<Unit>,
) -> Result<Written, QuantityFault> {
    let reader = Reader {
        wanted,
        default_unit,
    };
    let plain = in_plain_signs(text);
    let written = reader
        .read_plain(&plain)
        .map_err(|fault| meant(text.trim(), wanted).unwrap_or(fault))?;
    reader.refuse_too_large(&written, &plain)?;
    Ok(written)
}

/// Whether a text is one amount with its unit.
pub(super) fn reads(text: &str) -> bool {
    let reader = Reader {
        wanted: None,
        default_unit: None,
    };
    let read = reader.read_plain(&in_plain_signs(text));
    read.is_ok_and(|written| written.unit != Unit::ONE && written.drawn.is_some())
}

/// Reads a figure that was printed here, however large a computed amount may be.
pub(super) fn read_printed(text: &str, dimension: Dimension) -> Option<i128> {
    let reader = Reader {
        wanted: Some(dimension),
        default_unit: None,
    };
    reader.read_plain(text).ok()?.drawn
}

/// The same text with one character for each sign.
fn in_plain_signs(text: &str) -> Cow<'_, str> {
    let text = text.trim();
    let plain = |byte: u8| byte.is_ascii() && !matches!(byte, b'\t' | b'+');
    if text.bytes().all(plain) {
        return text.into();
    }
    let one_to_one = text.chars().map(|c| match c {
        '\u{2212}' => '-',
        '\u{2032}' | '\u{2019}' => '\'',
        '\u{2033}' | '\u{201d}' => '"',
        '\u{a0}' | '\u{202f}' | '\t' => ' ',
        other => other,
    });
    one_to_one
        .collect::<String>()
        .replace("+/-", "±")
        .replace("+-", "±")
        .into()
}

/// The texts before and after the two dots of a range.
fn around_dots(text: &str) -> Option<(&str, &str)> {
    let dots = text.as_bytes().windows(2).position(|two| two == b"..")?;
    Some((text.get(..dots)?, text.get(dots + 2..)?))
}

struct Reader {
    wanted: Option<Dimension>,
    default_unit: Option<Unit>,
}

impl Reader {
    fn read_plain(&self, text: &str) -> Result<Written, QuantityFault> {
        if text.contains(',') {
            let without = text.replace(", ", " ");
            let help = match without != text && self.read(&without).is_ok() {
                true => format!("Write `{without}`"),
                false => {
                    "Write the decimals behind a point, such as `3.2`, and thousands without a mark"
                        .to_owned()
                }
            };
            return Err(QuantityFault::new(
                format!("`{text}` has a comma in it"),
                help,
            ));
        }
        self.read(text)
    }

    fn read(&self, text: &str) -> Result<Written, QuantityFault> {
        if let Some(least) = text.strip_prefix("at least ") {
            let (amount, unit) = self.one(least, None)?;
            return Ok(Written::ranging(None, Interval::from_low(amount), unit));
        }
        if let Some(most) = text.strip_prefix("at most ") {
            let (amount, unit) = self.one(most, None)?;
            return Ok(Written::ranging(None, Interval::up_to(amount), unit));
        }
        if let Some((least, most)) = around_dots(text) {
            return self.between(least.trim(), most.trim());
        }
        if let Some((middle, error)) = text.split_once('±') {
            return self.give_or_take(middle.trim(), error.trim());
        }
        let (amount, unit) = self.one(text, None)?;
        Ok(Written::exact(amount, unit))
    }

    /// `46 .. 50 in`: somewhere between.
    fn between(&self, least: &str, most: &str) -> Result<Written, QuantityFault> {
        let (most_amount, most_unit) = self
            .one(most, None)
            .or_else(|fault| self.refuse_unit_on_left(least, most, fault))?;
        let (least_amount, unit) = self.one(least, unit_if_named(most, most_unit))?;
        self.same_kind(unit, most_unit, most)?;
        if least_amount > most_amount {
            return Err(QuantityFault::new(
                format!("in `{least} .. {most}` the first is more than the second"),
                format!("Write the lesser first: `{most} .. {least}`"),
            ));
        }
        Ok(Written::ranging(
            None,
            Interval::new(least_amount, most_amount),
            unit,
        ))
    }

    /// `3.05 ± 0.02 m`.
    fn give_or_take(&self, middle: &str, error: &str) -> Result<Written, QuantityFault> {
        let error_read = self.amount(error, None, Rounding::Up);
        let (size, error_unit) =
            error_read.or_else(|fault| self.refuse_unit_on_left(middle, error, fault))?;
        let (amount, unit) = self.one(middle, unit_if_named(error, error_unit))?;
        self.same_kind(unit, error_unit, error)?;
        if size < 0 || unit == Unit::DATE {
            return Err(QuantityFault::new(
                format!("`± {error}` is not how far off the amount can be"),
                "Write it as an amount that is not negative, such as `± 0.02 m`; for dates write `2026-03-01 .. 2026-04-01`",
            ));
        }
        Ok(Written::ranging(
            Some(amount),
            Interval::exact(amount).widen(size),
            unit,
        ))
    }

    /// Refuses a range whose two amounts differ in dimension, or where only the first has a unit.
    fn same_kind(&self, unit: Unit, last: Unit, last_text: &str) -> Result<(), QuantityFault> {
        if unit.dimension() != last.dimension() {
            return Err(QuantityFault::new(
                format!(
                    "{} and {} do not go together",
                    unit.dimension().words(),
                    last.dimension().words()
                ),
                "Write both in units of the same kind",
            ));
        }
        if has_unit(last_text) || unit == last {
            return Ok(());
        }
        Err(unit_only_on_left(last_text, unit))
    }

    /// The missing unit is the fault to report where the first amount has a unit and the last has none.
    fn refuse_unit_on_left<T>(
        &self,
        first: &str,
        last: &str,
        fault: QuantityFault,
    ) -> Result<T, QuantityFault> {
        let left = parts_of(first)
            .ok()
            .and_then(|(_, parts)| parts.first().and_then(|part| part.1));
        match left {
            Some(unit) if !has_unit(last) && read_number(last).is_ok() => {
                Err(unit_only_on_left(last, unit))
            }
            _ => Err(fault),
        }
    }

    fn one(&self, text: &str, borrowed: Option<Unit>) -> Result<(i128, Unit), QuantityFault> {
        self.amount(text, borrowed, Rounding::Nearest)
    }

    /// One amount of the wanted kind. `borrowed` is the unit of the other end of its range.
    fn amount(
        &self,
        text: &str,
        borrowed: Option<Unit>,
        rounding: Rounding,
    ) -> Result<(i128, Unit), QuantityFault> {
        if let Some(date) = read_date(text) {
            let unit = self.of_wanted_kind(Unit::DATE, text)?;
            return Ok((date?, unit));
        }
        if self.wanted == Some(Dimension::Number) && text.contains(':') {
            return read_slope(text);
        }
        let (negative, parts) = parts_of(text)?;
        let mut total = 0_i128;
        let mut first_unit = None;
        for (ratio, own) in parts {
            let unit = self.of_wanted_kind(self.unit_for(own, borrowed, text)?, text)?;
            let size = in_tiny_units(ratio, unit, rounding, text)?;
            total = total.checked_add(size).ok_or_else(|| too_large(text))?;
            first_unit = first_unit.or(Some(unit));
        }
        let unit = first_unit
            .ok_or_else(|| QuantityFault::new("there is no amount here", self.example()))?;
        Ok((if negative { -total } else { total }, unit))
    }

    fn unit_for(
        &self,
        own: Option<Unit>,
        borrowed: Option<Unit>,
        text: &str,
    ) -> Result<Unit, QuantityFault> {
        let fits = |unit: &Unit| {
            self.wanted
                .is_none_or(|wanted| alike(wanted, unit.dimension()))
        };
        let plain = || matches!(self.wanted, None | Some(Dimension::Number)).then_some(Unit::ONE);
        own.or(borrowed)
            .or_else(|| self.default_unit.filter(fits))
            .or_else(plain)
            .ok_or_else(|| {
                QuantityFault::new(
                    format!("`{text}` has no unit"),
                    format!("Write the unit, for instance {}", self.example()),
                )
            })
    }

    fn of_wanted_kind(&self, unit: Unit, text: &str) -> Result<Unit, QuantityFault> {
        match self.wanted {
            Some(wanted) if !alike(wanted, unit.dimension()) => Err(QuantityFault::new(
                format!(
                    "{} is wanted here, `{text}` is {}",
                    wanted.words(),
                    unit.dimension().words()
                ),
                format!(
                    "Write {}, for instance {}",
                    wanted.words(),
                    wanted.example()
                ),
            )),
            _ => Ok(unit),
        }
    }

    fn refuse_too_large(&self, written: &Written, text: &str) -> Result<(), QuantityFault> {
        let largest = written.dimension.largest();
        let fits = |end: Option<i128>| end.is_none_or(|end| (-largest..=largest).contains(&end));
        let all =
            fits(written.range.least()) && fits(written.range.greatest()) && fits(written.drawn);
        all.then_some(()).ok_or_else(|| too_large(text))
    }

    fn example(&self) -> &'static str {
        self.wanted.unwrap_or(Dimension::Length).example()
    }
}

/// Whether an amount of one dimension will do where the other is wanted.
fn alike(wanted: Dimension, given: Dimension) -> bool {
    let span = |dimension| matches!(dimension, Dimension::Days | Dimension::Months);
    wanted == given || (span(wanted) && span(given))
}

/// The unit, if the text names it.
fn unit_if_named(text: &str, unit: Unit) -> Option<Unit> {
    has_unit(text).then_some(unit)
}

fn unit_only_on_left(last: &str, unit: Unit) -> QuantityFault {
    QuantityFault::new(
        format!("`{last}` has no unit, though the figure before it has one"),
        format!("Write `{last} {}`", unit.plural()),
    )
}
