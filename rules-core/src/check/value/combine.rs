//! Sums, products and the like, over all alternatives of their members.

use crate::check::judge::possible::{Alternative, Alternatives, PossibleValue};
use crate::check::value::heights::VaryingHeight;
use crate::quantity::{Dimension, Interval, in_one_dimension};
use crate::ruleset::types::of_root;

/// Combines the alternatives of several values with an operation that is monotone in each. What is not there is skipped.
pub(crate) fn fold(
    list: Vec<PossibleValue>,
    operation: fn(Interval, Interval) -> Interval,
) -> PossibleValue {
    let skipped = |way: &Alternative| {
        matches!(
            way,
            Alternative::Nothing
                | Alternative::Empty(_)
                | Alternative::Far
                | Alternative::Least
                | Alternative::Bare
        )
    };
    combine(list, |one, two, own, others| match (one, two) {
        // Where both are absent, the first says what that means.
        _ if skipped(one) && !skipped(two) => (two.clone(), others),
        _ if skipped(two) => (one.clone(), own),
        _ => joined((one, own), (two, others), operation),
    })
}

/// The first minus the others; the largest of no things takes nothing away. A date minus a date is a number of days.
pub(crate) fn difference(list: Vec<PossibleValue>) -> PossibleValue {
    combine(list, |one, two, own, others| {
        if *two == Alternative::Least {
            return (one.clone(), own);
        }
        let (way, dimension) = joined((one, own), (two, others), Interval::sub);
        match (own, others) {
            (Dimension::Date, Dimension::Date) => (way, Dimension::Days),
            _ => (way, dimension),
        }
    })
}

fn joined(
    (one, own): (&Alternative, Dimension),
    (two, others): (&Alternative, Dimension),
    operation: fn(Interval, Interval) -> Interval,
) -> (Alternative, Dimension) {
    let (Some(a), Some(b)) = (one.range(), two.range()) else {
        return (missing(one, two), own);
    };
    match in_one_dimension((a, own), (b, others)) {
        Some((a, b, dimension)) if own == others => {
            (along(one, two, operation(a, b), operation), dimension)
        }
        Some((a, b, dimension)) => (Alternative::amount(operation(a, b)), dimension),
        None => dated(a, own, b, others, operation).unwrap_or((Alternative::Refer, own)),
    }
}

/// Of two values that may vary along their things, the combined one, from its least to its most.
///
/// Where one of the two is at its least, the other is somewhere between its own least and most, and so on for all four ends:
/// so the combined one surely goes at least as low, and as high, as the sure ends of each of these.
fn along(
    one: &Alternative,
    two: &Alternative,
    all: Interval,
    operation: fn(Interval, Interval) -> Interval,
) -> Alternative {
    let (Alternative::Amount { least: a, most: b }, Alternative::Amount { least: c, most: d }) =
        (one, two)
    else {
        return Alternative::amount(all);
    };
    if a == b && c == d {
        return Alternative::amount(all);
    }
    let (first, second) = (a.hull(*b), c.hull(*d));
    let ends = [
        operation(*a, second),
        operation(*b, second),
        operation(first, *c),
        operation(first, *d),
    ];
    let VaryingHeight { least, most } = VaryingHeight::within(all, ends);
    Alternative::Amount { least, most }
}

/// A date and a number of days: the date that many days later or earlier.
fn dated(
    a: Interval,
    own: Dimension,
    b: Interval,
    others: Dimension,
    operation: fn(Interval, Interval) -> Interval,
) -> Option<(Alternative, Dimension)> {
    let days = match others {
        Dimension::Days => b,
        Dimension::Months => b.days_of_months(),
        _ => return None,
    };
    (own == Dimension::Date).then(|| (Alternative::amount(operation(a, days)), Dimension::Date))
}

pub(crate) fn product(list: Vec<PossibleValue>) -> PossibleValue {
    combine(list, |one, two, own, others| {
        match (one.range(), two.range()) {
            (Some(a), Some(b)) => match a.times(own, b, others) {
                Some((range, dimension)) => (Alternative::amount(range), dimension),
                None => (Alternative::Refer, own),
            },
            _ => (missing(one, two), own),
        }
    })
}

/// The square root of a number or an area.
pub(crate) fn root(of: PossibleValue) -> PossibleValue {
    let dimension = of_root(of.dimension).unwrap_or(of.dimension);
    let each = of.ways.iter().map(|way| match way {
        Alternative::Amount { least, most } => Alternative::Amount {
            least: least.root(of.dimension),
            most: most.root(of.dimension),
        },
        Alternative::Words(_) => Alternative::Nothing,
        other => other.clone(),
    });
    PossibleValue {
        ways: each.collect(),
        dimension,
        unit: of.unit.filter(|unit| unit.dimension() == dimension),
        ..of
    }
}

/// The result where one of two is not an amount.
fn missing(one: &Alternative, two: &Alternative) -> Alternative {
    let rank = |way: &Alternative| match way {
        Alternative::Refer => 0,
        Alternative::Nothing => 1,
        _ => 2,
    };
    let other = if one.range().is_some() || rank(two) < rank(one) {
        two
    } else {
        one
    };
    match other {
        Alternative::Words(_) => Alternative::Nothing,
        way => way.clone(),
    }
}

fn combine(
    list: Vec<PossibleValue>,
    join: impl Fn(&Alternative, &Alternative, Dimension, Dimension) -> (Alternative, Dimension),
) -> PossibleValue {
    let mut members = list.into_iter();
    let Some(first) = members.next() else {
        return PossibleValue::of(vec![Alternative::Nothing], Dimension::Number);
    };
    members.fold(first, |so_far, next| {
        let mut dimension = so_far.dimension;
        let mut ways = Alternatives::new();
        for one in &so_far.ways {
            for two in &next.ways {
                let (way, own) = join(one, two, so_far.dimension, next.dimension);
                if way.range().is_some() {
                    dimension = own;
                }
                ways.push(way);
            }
        }
        let unit = so_far
            .unit
            .or(next.unit)
            .filter(|unit| unit.dimension() == dimension);
        let unit = unit.or(next.unit.filter(|unit| unit.dimension() == dimension));
        let witness = so_far.witness.or(next.witness);
        PossibleValue {
            ways,
            dimension,
            unit,
            witness,
            tolerance: so_far.tolerance.or(next.tolerance),
        }
        .limited()
    })
}
