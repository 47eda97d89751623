//! Whether one thing that is asked surely follows from another, whatever the plan.

use super::{bare, same, things};
use crate::ruleset::stricter::Way;
use crate::ruleset::{Bound, Choice, Each, Requirement, Row, RowTest, Table, Then, Value};
use crate::work;

pub(super) fn same_rows<T>(one: &Table<T>, other: &Table<T>) -> bool {
    let by = match (&one.by, &other.by) {
        (Some(one), Some(other)) => same(one, other),
        (one, other) => one.is_none() && other.is_none(),
    };
    let alike = |(one, other): (&Row<T>, &Row<T>)| same_case(&one.test, &other.test);
    by && one.rows.len() == other.rows.len() && one.rows.iter().zip(&other.rows).all(alike)
}

fn same_case(one: &RowTest, other: &RowTest) -> bool {
    match (one, other) {
        (RowTest::Bounds(one), RowTest::Bounds(other)) => {
            all_implied(one, other) && all_implied(other, one)
        }
        (RowTest::When(one), RowTest::When(other)) => implies(one, other) && implies(other, one),
        (one, other) => one == other,
    }
}

/// A requirement without the lists and names around it that change nothing.
pub(super) fn plain(requirement: &Requirement) -> &Requirement {
    match requirement {
        Requirement::All(members) | Requirement::Any(members) => match &members[..] {
            [one] => plain(one),
            _ => requirement,
        },
        Requirement::Meets { requirement, .. } => plain(requirement),
        Requirement::Not(inner) => match plain(inner) {
            Requirement::Not(inner) => plain(inner),
            _ => requirement,
        },
        other => other,
    }
}

/// Whether the second surely holds wherever the first does.
pub(super) fn implies(one: &Requirement, other: &Requirement) -> bool {
    if work::step_is_too_many() {
        return false;
    }
    let (one, other) = (plain(one), plain(other));
    if one == other {
        return true;
    }
    match (one, other) {
        (one, Requirement::All(members)) => members.iter().all(|member| implies(one, member)),
        (Requirement::Any(members), other) => members.iter().all(|member| implies(member, other)),
        (Requirement::Test(one), Requirement::Test(other)) => {
            same(&one.value, &other.value)
                && one.holds == other.holds
                && all_implied(&one.bounds, &other.bounds)
        }
        (Requirement::Not(one), Requirement::Not(other)) => implies(other, one),
        (Requirement::Each(one), Requirement::Each(other)) => each_implies(one, other),
        (Requirement::Table(one), Requirement::Table(other)) => rows_follow(one, other, implies),
        (
            Requirement::Count { of, bounds },
            Requirement::Count {
                of: others,
                bounds: limits,
            },
        ) => of == others && all_implied(bounds, limits),
        (one, Requirement::Any(members)) => {
            members.iter().any(|member| implies(one, member)) || one_implies(one, other)
        }
        (one, other) => one_implies(one, other),
    }
}

/// Whether one of several that must all hold is enough.
fn one_implies(one: &Requirement, other: &Requirement) -> bool {
    match one {
        Requirement::All(members) => members.iter().any(|member| implies(member, other)),
        _ => false,
    }
}

/// What holds for more things holds for fewer, unless it matters that there are none.
fn each_implies(one: &Each, other: &Each) -> bool {
    let chosen = things(Some(&one.selection), Some(&other.selection));
    let covers = matches!(chosen, None | Some(Way::Laxer));
    covers && implies(&one.require, &other.require)
}

/// Whether two tables have the same rows, and each row's result follows from its counterpart's.
fn rows_follow<T: PartialEq>(
    one: &Table<T>,
    other: &Table<T>,
    follows: fn(&T, &T) -> bool,
) -> bool {
    let rows = || one.rows.iter().zip(&other.rows);
    same_rows(one, other)
        && rows().all(|(one, other)| match (&one.then, &other.then) {
            (Then::Give(one), Then::Give(other)) => follows(one, other),
            (one, other) => one == other,
        })
}

/// Whether whatever keeps the first bounds keeps each of the second.
fn all_implied(bounds: &[Bound], implied: &[Bound]) -> bool {
    let follows = |bound: &Bound| bounds.iter().any(|one| bound_implies(one, bound));
    implied.iter().all(follows)
}

fn bound_implies(one: &Bound, other: &Bound) -> bool {
    match (one, other) {
        (Bound::Is(one), Bound::Is(other)) => {
            one.iter().all(|choice: &Choice| other.contains(choice))
        }
        (Bound::AtLeast(one), Bound::AtLeast(other))
        | (Bound::MoreThan(one), Bound::AtLeast(other) | Bound::MoreThan(other)) => {
            no_more(other, one)
        }
        (Bound::AtMost(one), Bound::AtMost(other))
        | (Bound::LessThan(one), Bound::AtMost(other) | Bound::LessThan(other)) => {
            no_more(one, other)
        }
        (Bound::AtLeast(one), Bound::MoreThan(other))
        | (Bound::AtMost(other), Bound::LessThan(one)) => less(other, one),
        _ => false,
    }
}

/// Whether one value surely is less than another: of stated ones only.
fn less(one: &Value, other: &Value) -> bool {
    match (bare(one), bare(other)) {
        (Value::Stated(one), Value::Stated(other)) => {
            one.dimension == other.dimension && one.range.high < other.range.low
        }
        _ => false,
    }
}

/// Whether one value surely is no more than another, whatever the plan.
pub(super) fn no_more(one: &Value, other: &Value) -> bool {
    work::step(1);
    let each = |one: &[Value], other: &[Value]| {
        let mut pairs = one.iter().zip(other);
        one.len() == other.len() && pairs.all(|(one, other)| no_more(one, other))
    };
    match (bare(one), bare(other)) {
        (Value::Stated(one), Value::Stated(other)) => {
            one.dimension == other.dimension
                && (one.range == other.range || one.range.high <= other.range.low)
        }
        (Value::Sum(one), Value::Sum(other))
        | (Value::Largest(one), Value::Largest(other))
        | (Value::Smallest(one), Value::Smallest(other)) => each(one, other),
        (Value::Table(one), Value::Table(other)) => rows_follow(one, other, no_more),
        (one, other) => one == other,
    }
}
