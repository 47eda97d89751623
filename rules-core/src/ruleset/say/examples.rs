//! An example on each side of a limit.

use crate::quantity::{Dimension, ONE, Unit, show_exactly};
use crate::ruleset::types::physical;
use crate::ruleset::{Bound, RuleSet, Stated, Value};

/// An eighth of an inch, in nanometres.
const EIGHTH: i128 = 3_175_000;

/// The amounts next to a stated limit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sides {
    /// The nearest amount that a person would measure and that surely keeps the limit.
    pub inside: i128,
    /// The limit itself.
    pub at: i128,
    /// The nearest one that surely does not keep it.
    pub outside: i128,
    /// The unit in which the limit is written.
    pub unit: Unit,
    least: Option<i128>,
}

impl Sides {
    /// Whether the value can be this at all: no distance is less than nothing.
    pub fn can_be(&self, amount: i128) -> bool {
        self.least.is_none_or(|least| amount >= least)
    }

    /// An amount in words.
    pub fn words(&self, amount: i128) -> String {
        shown(amount, self.unit)
    }
}

/// The amounts next to the limit of a bound; `None` where the limit is not stated.
pub fn sides(value: &Value, bound: &Bound, rules: &RuleSet) -> Option<Sides> {
    let (limit, inward) = match bound {
        Bound::AtLeast(limit) | Bound::MoreThan(limit) => (limit, 1),
        Bound::AtMost(limit) | Bound::LessThan(limit) => (limit, -1),
        Bound::Is(_) => return None,
    };
    let limit = stated(limit)?;
    let (at, step) = (limit.range.low, inward * step(value, limit));
    Some(Sides {
        inside: at.checked_add(step)?,
        at,
        outside: at.checked_sub(step)?,
        unit: limit.unit,
        least: physical(value, &rules.vocabulary).0,
    })
}

/// The nearest amounts on both sides of a stated limit, in words: the one that keeps the bound, the one that does not.
/// `None` where the limit is not stated, or nothing can be on one side of it.
pub(super) fn examples(value: &Value, bound: &Bound, rules: &RuleSet) -> Option<(String, String)> {
    let sides = sides(value, bound, rules)?;
    if counts(value) && sides.unit.dimension() == Dimension::Number && sides.at % ONE == 0 {
        return None;
    }
    let (kept, broken) = match bound {
        Bound::MoreThan(_) | Bound::LessThan(_) => (sides.inside, sides.at),
        _ => (sides.at, sides.outside),
    };
    // That nothing passes and a hair fails says no more than the limit.
    let nothing = sides.at == 0 && matches!(bound, Bound::AtLeast(_) | Bound::AtMost(_));
    let can_be = sides.can_be(kept) && sides.can_be(broken);
    (can_be && !nothing).then(|| (sides.words(kept), sides.words(broken)))
}

/// Whether it is a stated number of things, such as families: nobody has 0.99 of them.
fn counts(value: &Value) -> bool {
    match value {
        Value::Fact(_) => true,
        Value::Named { value, .. } => counts(value),
        _ => false,
    }
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
            let steps = (limit.unit.digits()..9).map(|digits| (unit / 10_i128.pow(digits)).max(1));
            // Beside `0.005` stands 0.006, not 0.015.
            let own =
                |step: &i128| limit.dimension != Dimension::Number || limit.range.low % step == 0;
            steps.into_iter().find(own).unwrap_or(1)
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
