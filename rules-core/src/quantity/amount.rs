//! Reading one amount: its sign, its figures, its units.

use super::calendar::CalendarDate;
use super::dimension::Dimension;
use super::fault::QuantityFault;
use super::number::{Ratio, read_number};
use super::unit::Unit;
use super::wide::{Rounding, scale_up};

/// Whether there is a unit after the number.
pub(super) fn has_unit(text: &str) -> bool {
    text.chars()
        .any(|c| c.is_alphabetic() || matches!(c, '\'' | '"' | '%' | '°'))
}

/// The sign of an amount, and its figures with their units.
pub(super) type Parts = (bool, Vec<(Ratio, Option<Unit>)>);

pub(super) fn parts_of(text: &str) -> Result<Parts, QuantityFault> {
    let (negative, mut rest) = match text.strip_prefix('-') {
        Some(rest) => (true, rest.trim_start()),
        None => (false, text),
    };
    let mut parts = Vec::new();
    while !rest.is_empty() {
        let (ratio, after) = read_number(rest).map_err(|fault| quoting_whole(fault, text))?;
        let (unit, after) = read_unit(after.trim_start(), text)?;
        parts.push((ratio, unit));
        rest = after;
    }
    check_compound(&parts, text)?;
    Ok((negative, parts))
}

/// Adds the whole text to a fault that quotes only the rest of it.
fn quoting_whole(fault: QuantityFault, text: &str) -> QuantityFault {
    let sentence = match fault.sentence.contains(&format!("`{text}`")) {
        true => fault.sentence,
        false => format!("in `{text}`, {}", fault.sentence),
    };
    QuantityFault { sentence, ..fault }
}

/// The unit at the start of a text, and what follows it.
fn read_unit<'t>(text: &'t str, whole: &str) -> Result<(Option<Unit>, &'t str), QuantityFault> {
    let after_foot = text.strip_prefix('\'');
    if let Some(after) = after_foot.filter(|after| !after.starts_with('\'')) {
        // The dash in `4'-6"` is not a minus sign.
        let after = after.trim_start();
        return Ok((Some(Unit::FOOT), after.strip_prefix('-').unwrap_or(after)));
    }
    if let Some(after) = text.strip_prefix('"') {
        return Ok((Some(Unit::INCH), after.trim_start()));
    }
    let (name, after) = name_and_rest(text);
    let unit = match name.trim() {
        "" => None,
        name => Some(Unit::find(name).ok_or_else(|| unknown_unit(name, whole))?),
    };
    Ok((unit, after.trim_start()))
}

/// Splits after the name of a unit, which ends at a space with a figure behind it.
fn name_and_rest(text: &str) -> (&str, &str) {
    let mut pairs = text.char_indices().zip(text.chars().skip(1));
    let end = pairs
        .find(|((_, c), next)| *c == ' ' && (next.is_ascii_digit() || matches!(next, '-' | '.')));
    end.and_then(|((at, _), _)| text.split_at_checked(at))
        .unwrap_or((text, ""))
}

/// Refuses two figures together, except whole feet followed by inches.
fn check_compound(parts: &[(Ratio, Option<Unit>)], text: &str) -> Result<(), QuantityFault> {
    let good = match parts {
        [] | [_] => true,
        [(feet, foot), (inches, inch)] => {
            let units = *foot == Some(Unit::FOOT) && *inch == Some(Unit::INCH);
            units
                && feet.denominator == 1
                && inches.numerator < inches.denominator.saturating_mul(12)
        }
        _ => false,
    };
    good.then_some(()).ok_or_else(|| {
        QuantityFault::new(
            format!("`{text}` has more than one figure in it"),
            "Write one figure with one unit; only whole feet and less than 12 inches go together, such as `4 ft 6 in`",
        )
    })
}

pub(super) fn in_tiny_units(
    ratio: Ratio,
    unit: Unit,
    rounding: Rounding,
    text: &str,
) -> Result<i128, QuantityFault> {
    let (numerator, denominator) = unit.size();
    let over = ratio.denominator.checked_mul(denominator);
    let count = over.and_then(|over| scale_up(ratio.numerator, numerator, over, rounding));
    let whole_days = unit.dimension() != Dimension::Days
        || ratio.numerator.checked_rem(ratio.denominator) == Some(0);
    if !whole_days {
        return Err(QuantityFault::new(
            format!("`{text}` is not a whole number of days or weeks"),
            "Write whole days",
        ));
    }
    count
        .and_then(|count| i128::try_from(count).ok())
        .ok_or_else(|| too_large(text))
}

/// A date, if the text looks like one; a fault if the calendar has no such day.
pub(super) fn read_date(text: &str) -> Option<Result<i128, QuantityFault>> {
    if text.as_bytes().get(4) != Some(&b'-') {
        return None;
    }
    let mut parts = text.splitn(3, '-');
    let mut next = |length: usize| {
        let digits = parts.next().filter(|part| part.len() == length)?;
        let only_digits = digits.chars().all(|c| c.is_ascii_digit());
        only_digits.then(|| digits.parse::<i128>().ok())?
    };
    let date = CalendarDate {
        year: next(4)?,
        month: next(2)?,
        day: next(2)?,
    };
    Some(date.day_number().ok_or_else(|| {
        QuantityFault::new(
            format!("the calendar has no {text}"),
            "Write a day as year-month-day, such as `2026-03-01`",
        )
    }))
}

/// `1:2`, a rise over a run.
pub(super) fn read_slope(text: &str) -> Result<(i128, Unit), QuantityFault> {
    let wrong = || {
        QuantityFault::new(
            format!("`{text}` is not a slope"),
            "Write the rise and the run, such as `1:2`",
        )
    };
    let (rise, run) = text.split_once(':').ok_or_else(wrong)?;
    let (rise, after_rise) = read_number(rise.trim())?;
    let (run, after_run) = read_number(run.trim())?;
    let by = rise
        .denominator
        .checked_mul(run.numerator)
        .filter(|by| *by > 0 && after_rise.is_empty() && after_run.is_empty());
    let above = rise.numerator.checked_mul(run.denominator);
    let (numerator, denominator) = above.zip(by).ok_or_else(wrong)?;
    Ok((
        in_tiny_units(
            Ratio {
                numerator,
                denominator,
            },
            Unit::ONE,
            Rounding::Nearest,
            text,
        )?,
        Unit::ONE,
    ))
}

fn unknown_unit(name: &str, whole: &str) -> QuantityFault {
    let help = match Unit::close_to(name) {
        Some(close) => format!("Did you mean `{}`?", whole.replacen(name, close, 1)),
        None => {
            "Write a unit such as `m`, `mm`, `ft`, `in`, `m2`, `sq ft`, `gal`, `kV`, `days` or `%`"
                .to_owned()
        }
    };
    QuantityFault::new(
        format!("`{name}` in `{whole}` is not a unit that is known here"),
        help,
    )
}

pub(super) fn too_large(text: &str) -> QuantityFault {
    QuantityFault::new(
        format!("`{text}` is too large to be meant"),
        "Look at the figure and the unit again",
    )
}
