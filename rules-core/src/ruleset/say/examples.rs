//! An example on each side of a limit.

use crate::quantity::{Dimension, ONE, Unit, show_exactly};
use crate::ruleset::{Bound, RuleSet, Stated, Value};
use crate::vocabulary::Answer;

/// An eighth of an inch, in nanometres.
const EIGHTH: i128 = 3_175_000;

/// The nearest amounts on both sides of a stated limit, in words: the one that keeps the bound, the one that does not.
/// `None` where the limit is not stated, or nothing can be on one side of it.
pub(super) fn sides(value: &Value, bound: &Bound, rules: &RuleSet) -> Option<(String, String)> {
    let (limit, inner, outer) = match bound {
        Bound::AtLeast(limit) => (limit, 0, -1),
        Bound::MoreThan(limit) => (limit, 1, 0),
        Bound::AtMost(limit) => (limit, 0, 1),
        Bound::LessThan(limit) => (limit, -1, 0),
        Bound::Is(_) => return None,
    };
    let limit = stated(limit)?;
    let step = step(value, limit);
    let kept = limit.range.low.checked_add(inner * step)?;
    let broken = limit.range.low.checked_add(outer * step)?;
    let can_be = |amount| least(value, rules).is_none_or(|least| amount >= least);
    (can_be(kept) && can_be(broken)).then(|| (shown(kept, limit.unit), shown(broken, limit.unit)))
}

fn stated(value: &Value) -> Option<&Stated> {
    match value {
        Value::Stated(stated) => Some(stated),
        Value::Named { value, .. } => stated(value),
        _ => None,
    }
}

/// A small step in the unit of the limit, such as a person would measure.
fn step(value: &Value, limit: &Stated) -> i128 {
    match limit.dimension {
        Dimension::Months => 1000,
        Dimension::Days | Dimension::Date => 1,
        Dimension::Number if matches!(value, Value::Count(_)) => ONE,
        Dimension::Length if limit.unit == Unit::INCH || limit.unit == Unit::FOOT => EIGHTH,
        _ => {
            let (numerator, denominator) = limit.unit.size();
            let unit = i128::try_from(numerator / denominator).unwrap_or(i128::MAX);
            (unit / 10_i128.pow(limit.unit.digits())).max(1)
        }
    }
}

/// Half a year is not said in years.
fn shown(amount: i128, unit: Unit) -> String {
    let unit = match unit.dimension() {
        Dimension::Months if unit == Unit::YEAR && amount % 12_000 != 0 => Unit::MONTH,
        Dimension::Days if unit == Unit::WEEK && amount % 7 != 0 => Unit::DAY,
        _ => unit,
    };
    show_exactly(amount, unit)
}

/// The least that a value can be.
fn least(value: &Value, rules: &RuleSet) -> Option<i128> {
    match value {
        Value::Fact(fact) => match rules.vocabulary.fact(*fact).answer {
            Answer::Amount { least, .. } => least,
            _ => None,
        },
        Value::Distance(_)
        | Value::Area(_)
        | Value::Length { .. }
        | Value::Count(_)
        | Value::Enclosure(_) => Some(0),
        Value::Named { value, .. } => least(value, rules),
        _ => None,
    }
}
