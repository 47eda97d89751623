//! Printing amounts.

use std::fmt::Write;

use super::calendar::CalendarDate;
use super::dimension::Dimension;
use super::interval::{Interval, NO_HIGH, NO_LOW};
use super::parse::read_printed;
use super::unit::Unit;
use super::wide::{Rounding, scale_up};

/// 1/64 in, the finest fraction that is printed, in nanometres.
const SIXTY_FOURTH: i128 = 396_875;
const FOOT: i128 = 304_800_000;
const INCH: i128 = 25_400_000;
/// Enough for the smallest amount in the largest unit.
const MOST_DIGITS: u32 = 30;

/// The amount in that unit, with at most `digits` digits after the point and no trailing zeros. Lengths in feet or
/// inches that are a whole number of 64ths of an inch are printed in feet, inches and fractions, and are exact.
pub fn show(amount: i128, unit: Unit, rounding: Rounding, digits: u32) -> String {
    match amount {
        NO_LOW => return "no least".to_owned(),
        NO_HIGH => return "unlimited".to_owned(),
        _ if unit == Unit::DATE => return CalendarDate::from_day_number(amount).to_string(),
        _ => {}
    }
    let unit = finer_span(amount, unit);
    let fractions = (unit == Unit::FOOT || unit == Unit::INCH) && amount % SIXTY_FOURTH == 0;
    match fractions {
        true => in_fractions(amount, unit),
        false => in_decimals(amount, unit, rounding, digits.min(MOST_DIGITS)),
    }
}

/// Weeks and years that are not whole are printed in days and months.
fn finer_span(amount: i128, unit: Unit) -> Unit {
    let (size, _) = unit.size();
    let whole = amount.unsigned_abs().checked_rem(size) == Some(0);
    if unit == Unit::WEEK && !whole {
        Unit::DAY
    } else if unit == Unit::YEAR && !whole {
        Unit::MONTH
    } else {
        unit
    }
}

/// The amount in that unit, with as many digits as it takes to read the same amount again.
pub fn show_exactly(amount: i128, unit: Unit) -> String {
    let shown = |digits| show(amount, unit, Rounding::Nearest, digits);
    let exact = (unit.digits()..MOST_DIGITS)
        .map(shown)
        .find(|text| read_again(text, unit) == Some(amount));
    exact.unwrap_or_else(|| shown(MOST_DIGITS))
}

/// A range: a single amount exactly, otherwise the low end rounded down and the high end rounded up.
pub fn show_range(range: Interval, unit: Unit, digits: u32) -> String {
    let (low, high) = ends(range, unit, digits);
    match (range.least(), range.greatest()) {
        (Some(amount), Some(same)) if amount == same => show_exactly(amount, unit),
        (Some(_), Some(_)) => format!("{low} .. {high}"),
        (Some(_), None) => format!("at least {low}"),
        (None, Some(_)) => format!("at most {high}"),
        (None, None) => "unlimited".to_owned(),
    }
}

/// The low end rounded down, the high end rounded up.
pub(super) fn ends(range: Interval, unit: Unit, digits: u32) -> (String, String) {
    (
        show(range.low, unit, Rounding::Down, digits),
        show(range.high, unit, Rounding::Up, digits),
    )
}

/// The amount that a reader of the printed figure takes from it.
pub(super) fn read_again(text: &str, unit: Unit) -> Option<i128> {
    match text {
        "no least" => Some(NO_LOW),
        "unlimited" => Some(NO_HIGH),
        _ => read_printed(text, unit.dimension()),
    }
}

fn in_decimals(amount: i128, unit: Unit, rounding: Rounding, digits: u32) -> String {
    let (numerator, denominator) = unit.size();
    let towards_zero = match (rounding, amount < 0) {
        (Rounding::Down, true) => Rounding::Up,
        (Rounding::Up, true) => Rounding::Down,
        (other, _) => other,
    };
    let by = 10_u128.pow(digits).checked_mul(denominator);
    let figures = by.and_then(|by| scale_up(amount.unsigned_abs(), by, numerator, towards_zero));
    match figures {
        Some(figures) => {
            let mut text = String::with_capacity(USUAL_LENGTH);
            text.push_str(if amount < 0 && figures > 0 { "-" } else { "" });
            push_pointed(&mut text, figures, digits);
            push_unit(&mut text, unit);
            text
        }
        // Too many digits to hold. Fewer will do: nothing that a person wrote is that large.
        None if digits > 0 => in_decimals(amount, unit, rounding, digits - 1),
        None => if amount < 0 { "no least" } else { "unlimited" }.to_owned(),
    }
}

/// Nearly every amount with its unit is shorter than this, in bytes.
const USUAL_LENGTH: usize = 24;

/// Puts the point in and takes the trailing zeros off.
fn push_pointed(text: &mut String, figures: u128, digits: u32) {
    let one = 10_u128.pow(digits);
    let width = usize::try_from(digits).unwrap_or(0);
    // 64-bit numbers print many times as fast.
    let _ = match (u64::try_from(figures), u64::try_from(one)) {
        (Ok(figures), Ok(one)) => write!(text, "{}.{:0width$}", figures / one, figures % one),
        _ => write!(text, "{}.{:0width$}", figures / one, figures % one),
    };
    let needed = text.trim_end_matches('0').trim_end_matches('.').len();
    text.truncate(needed);
}

/// Puts the unit after a figure.
fn push_unit(text: &mut String, unit: Unit) {
    let name = match unit.dimension() {
        Dimension::Number if unit == Unit::ONE => return,
        Dimension::Angle => return text.push_str(unit.symbol()),
        _ if matches!(text.as_str(), "1" | "-1") => unit.symbol(),
        _ => unit.plural(),
    };
    text.push(' ');
    text.push_str(name);
}

fn signed(negative: bool, text: String) -> String {
    if negative { format!("-{text}") } else { text }
}

/// Feet, inches and the fraction of an inch in its lowest terms.
fn in_fractions(amount: i128, unit: Unit) -> String {
    let size = i128::try_from(amount.unsigned_abs()).unwrap_or(NO_HIGH);
    let (feet, rest) = if unit == Unit::FOOT {
        (size / FOOT, size % FOOT)
    } else {
        (0, size)
    };
    let inches = in_inches(rest / INCH, (rest % INCH) / SIXTY_FOURTH);
    let text = match (feet, rest) {
        (0, 0) => format!("0 {}", unit.symbol()),
        (0, _) => inches,
        (_, 0) => format!("{feet} ft"),
        _ => format!("{feet} ft {inches}"),
    };
    signed(amount < 0, text)
}

fn in_inches(whole: i128, sixty_fourths: i128) -> String {
    let halvings = sixty_fourths.trailing_zeros().min(6);
    let (above, below) = (sixty_fourths >> halvings, 64_i128 >> halvings);
    match (whole, above) {
        (_, 0) => format!("{whole} in"),
        (0, _) => format!("{above}/{below} in"),
        _ => format!("{whole}-{above}/{below} in"),
    }
}
