//! Lengths and angles in a document, changed in the unit and the manner in which somebody typed them.

use crate::quantity::{Dimension, Rounding, Unit, parse, show};
use crate::text::{Content, Node, Span};

/// A millimetre, to which every change is rounded, in nanometres.
pub(crate) const MILLIMETRE: i128 = 1_000_000;
/// A micrometre, in nanometres.
pub(super) const MICROMETRE: i128 = 1000;
/// A sixteenth of an inch, to which lengths in feet and inches are rounded, in nanometres.
const SIXTEENTH: i128 = 1_587_500;

/// The length that stands here, in nanometres; a bare number takes the document's unit.
pub(crate) fn length(node: &Node, unit: Option<Unit>) -> Option<i128> {
    parse(node.text()?, Some(Dimension::Length), unit)
        .ok()?
        .drawn
}

/// Puts a length in the place of another, written as that one was.
pub(crate) fn set_length(node: &mut Node, length: i128, unit: Option<Unit>) {
    let Some(old) = node.text() else { return };
    let Ok(written) = parse(old, Some(Dimension::Length), unit) else {
        return;
    };
    let bare = parse(old, Some(Dimension::Length), None).is_err();
    let text = match bare {
        true => decimals(length, written.unit),
        false => with_unit(old, length, written.unit),
    };
    let quoted = matches!(&node.content, Content::Scalar { quoted: true, .. });
    node.content = Content::Scalar { text, quoted };
}

/// With the unit as it was spelt; feet and inches stay feet and inches.
fn with_unit(old: &str, length: i128, unit: Unit) -> String {
    let number = |c: char| c.is_ascii_digit() || matches!(c, '.' | '-' | '+' | '−');
    let spelt = old.trim().trim_start_matches(number);
    let simple = Unit::find(spelt.trim()) == Some(unit);
    match simple {
        true => format!("{}{spelt}", decimals(length, unit)),
        false => {
            let rounded = (length + SIXTEENTH / 2).div_euclid(SIXTEENTH) * SIXTEENTH;
            show(rounded, unit, Rounding::Nearest, 3)
        }
    }
}

/// So many of a unit, with as many digits as tell millimetres apart, and no needless ones.
fn decimals(length: i128, unit: Unit) -> String {
    let (numerator, denominator) = unit.size();
    let digits = digits(numerator / denominator.max(1));
    let by = 10_i128.pow(digits);
    let size = i128::try_from(numerator).unwrap_or(i128::MAX);
    let many = length
        .saturating_mul(by)
        .saturating_mul(i128::try_from(denominator).unwrap_or(1));
    let rounded = (many.saturating_add(size / 2)).div_euclid(size);
    let (whole, behind) = (rounded.abs() / by, rounded.abs() % by);
    let sign = if rounded < 0 { "-" } else { "" };
    let width = usize::try_from(digits).unwrap_or(0);
    let text = format!("{sign}{whole}.{behind:0width$}");
    match width {
        0 => format!("{sign}{whole}"),
        _ => text.trim_end_matches('0').trim_end_matches('.').to_owned(),
    }
}

/// Digits behind the point that a unit of so many nanometres needs for a millimetre: 3 for metres and feet, 2 for inches.
fn digits(nanometres: u128) -> u32 {
    const UNITS: [(u128, u32); 5] = [
        (999_999_999_999, 6),
        (200_000_000, 3),
        (20_000_000, 2),
        (9_000_000, 1),
        (0, 0),
    ];
    let row = UNITS.iter().find(|(more_than, _)| nanometres > *more_than);
    row.map_or(3, |(_, digits)| *digits)
}

/// A length for a place where none stood before: a bare number where the document has a unit, else metres.
pub(crate) fn new_length(length: i128, unit: Option<Unit>) -> Node {
    match unit {
        Some(unit) => scalar(decimals(length, unit)),
        None => scalar(format!("{} m", decimals(length, Unit::METRE))),
    }
}

/// A scalar as it would be typed.
pub(crate) fn scalar(text: String) -> Node {
    let content = Content::Scalar {
        text,
        quoted: false,
    };
    Node {
        span: Span::default(),
        content,
    }
}

/// The angle that stands here, in billionths of a degree.
pub(super) fn angle(node: &Node) -> Option<i128> {
    parse(node.text()?, Some(Dimension::Angle), Some(Unit::DEGREE))
        .ok()?
        .drawn
}

/// An angle between a half turn back and a half turn on, to a hundredth of a degree.
pub(super) fn angle_node(billionths: i128) -> Node {
    const TURN: i128 = 360_000_000_000;
    const HUNDREDTH: i128 = 10_000_000;
    let rounded = (billionths + HUNDREDTH / 2).div_euclid(HUNDREDTH) * HUNDREDTH;
    let turned = (rounded + TURN / 2).rem_euclid(TURN) - TURN / 2;
    let (whole, behind) = (
        turned.abs() / 1_000_000_000,
        turned.abs() % 1_000_000_000 / HUNDREDTH,
    );
    let sign = if turned < 0 { "-" } else { "" };
    let text = format!("{sign}{whole}.{behind:02}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    scalar(format!("{text} deg"))
}
