//! Whether two rules of different rule sets measure the same.

use crate::ruleset::pieces::{Piece, of_value};
use crate::ruleset::{Area, Distance, Operand, Part, Requirement, Selection, Test, Value, Which};
use crate::vocabulary::Vocabulary;

/// The tests all of which must hold for a requirement to hold.
pub(super) fn required(requirement: &Requirement) -> Vec<&Test> {
    match requirement {
        Requirement::Test(test) => vec![test],
        Requirement::All(list) => list.iter().flat_map(required).collect(),
        Requirement::Meets { requirement, .. } => required(requirement),
        _ => Vec::new(),
    }
}

/// A value without the names of terms around it.
pub(super) fn bare(value: &Value) -> &Value {
    match value {
        Value::Named { value, .. } => bare(value),
        other => other,
    }
}

/// Whether two values are the same measure between the same ends, whatever their terms are called.
pub(super) fn alike(one: &Value, other: &Value) -> bool {
    match (bare(one), bare(other)) {
        (Value::Distance(one), Value::Distance(other)) => same_distance(one, other),
        (Value::Area(one), Value::Area(other)) => same_area(one, other),
        (Value::Count(one), Value::Count(other)) => all_alike(one, other),
        (one, other) => one == other,
    }
}

fn same_distance(one: &Distance, other: &Distance) -> bool {
    (one.how, one.places) == (other.how, other.places)
        && same_ends(&one.from, &other.from)
        && same_ends(&one.to, &other.to)
}

fn same_area(one: &Area, other: &Area) -> bool {
    same_ends(&one.of, &other.of) && one.within == other.within && one.share_of == other.share_of
}

fn same_ends(one: &Operand, other: &Operand) -> bool {
    let mut pairs = one.parts.iter().zip(other.parts.iter());
    one.parts.len() == other.parts.len() && pairs.all(|(one, other)| same_part(one, other))
}

fn same_part(one: &Part, other: &Part) -> bool {
    let which = match (&one.which, &other.which) {
        (Which::All(one), Which::All(other)) | (Which::Meant(one), Which::Meant(other)) => {
            all_alike(one, other)
        }
        (one, other) => one == other,
    };
    let rest = |part: &Part| (part.outline, part.counted, part.if_drawn);
    which && rest(one) == rest(other)
}

/// Whether two selections are of the same things.
pub(super) fn all_alike(one: &Selection, other: &Selection) -> bool {
    one.kind == other.kind
        && one.part_of == other.part_of
        && one.filter == other.filter
        && one.zone == other.zone
        && one.if_none == other.if_none
}

/// Whether a value, and the things for each of which it is measured, are told in words of the program's own table: under
/// these all rule sets mean the same.
pub(super) fn is_common(each: Option<&Selection>, value: &Value) -> bool {
    let [kinds, outlines, facts] = Vocabulary::standard().counts();
    let each = each.map(|each| Value::Count(each.clone()));
    let mut common = true;
    let mut see = |piece: Piece<'_>| {
        common &= match piece {
            Piece::Fact(fact) => usize::from(fact.0) < facts,
            Piece::Outline(part) => usize::from(part.outline.0) < outlines,
            Piece::Selection(selection) => usize::from(selection.kind.0) < kinds,
            Piece::Paper(_) => false,
            Piece::Test | Piece::Enclosure(_) => true,
        };
    };
    each.iter().for_each(|each| of_value(each, &mut see));
    of_value(value, &mut see);
    common
}
