//! What sort of value a rule measures, so that both sides of a bound can be compared.

use super::{Table, Value};
use crate::quantity::Dimension;
use crate::vocabulary::{Answer, FactId, Vocabulary};

/// What sort of value a [`Value`] gives.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Type {
    /// An amount.
    Amount(Dimension),
    /// One of the words of this fact.
    Word(FactId),
    /// `yes` or `no`, the answer to this fact.
    YesNo(FactId),
}

impl Type {
    /// What it is an amount of.
    pub fn dimension(self) -> Option<Dimension> {
        match self {
            Self::Amount(dimension) => Some(dimension),
            _ => None,
        }
    }
}

/// What is known of a term's value wherever it is used.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Sort {
    /// What it is.
    pub of: Option<Type>,
    /// Whether it can change along a thing.
    pub varies: bool,
}

impl Sort {
    /// Of a value.
    pub fn of(value: &Value, vocabulary: &Vocabulary) -> Self {
        Self {
            of: type_of(value, vocabulary),
            varies: varies(value, vocabulary),
        }
    }
}

/// Whether a value can change along a thing.
pub fn varies(value: &Value, vocabulary: &Vocabulary) -> bool {
    match value {
        Value::Fact(fact) => vocabulary.fact(*fact).varies,
        Value::Named { sort, .. } => sort.varies,
        Value::Largest(list)
        | Value::Smallest(list)
        | Value::Sum(list)
        | Value::Difference(list)
        | Value::Product(list) => list.iter().any(|member| varies(member, vocabulary)),
        Value::Root(of) => varies(of, vocabulary),
        Value::Level(_) => true,
        Value::Stated(_)
        | Value::Distance(_)
        | Value::Area(_)
        | Value::Length { .. }
        | Value::Count(_)
        | Value::Enclosure(_)
        | Value::Sound(_)
        | Value::Fall(_)
        | Value::Volume(_)
        | Value::Height(_)
        | Value::Margin(_)
        | Value::Width(_)
        | Value::Table(_)
        | Value::Over { .. } => false,
    }
}

/// Whether amounts of both can be compared: days and months can.
pub fn agree(one: Dimension, other: Dimension) -> bool {
    let span = |dimension| matches!(dimension, Dimension::Days | Dimension::Months);
    one == other || span(one) && span(other)
}

/// The least and the most an amount can physically be.
pub fn physical(value: &Value, vocabulary: &Vocabulary) -> (Option<i128>, Option<i128>) {
    match value {
        Value::Fact(id) => match vocabulary.fact(*id).answer {
            Answer::Amount { least, most, .. } => (least, most),
            _ => (None, None),
        },
        Value::Distance(_)
        | Value::Area(_)
        | Value::Length { .. }
        | Value::Count(_)
        | Value::Enclosure(_)
        | Value::Volume(_)
        | Value::Height(_)
        | Value::Margin(_)
        | Value::Width(_)
        | Value::Root(_) => (Some(0), None),
        Value::Named { value, .. } => physical(value, vocabulary),
        Value::Stated(_)
        | Value::Sound(_)
        | Value::Level(_)
        | Value::Fall(_)
        | Value::Table(_)
        | Value::Largest(_)
        | Value::Smallest(_)
        | Value::Sum(_)
        | Value::Difference(_)
        | Value::Product(_)
        | Value::Over { .. } => (None, None),
    }
}

/// What sort of value this gives; `None` for a combination of nothing, which is never read.
pub fn type_of(value: &Value, vocabulary: &Vocabulary) -> Option<Type> {
    let first = |values: &[Value]| values.first().and_then(|value| type_of(value, vocabulary));
    Some(Type::Amount(match value {
        Value::Stated(stated) => stated.dimension,
        Value::Fact(fact) => return Some(of_fact(*fact, vocabulary)),
        Value::Table(table) => return of_table(table, vocabulary),
        Value::Largest(values) | Value::Smallest(values) => return first(values),
        Value::Sum(values) => of_sum(values, vocabulary)?,
        Value::Difference(values) => of_difference(values, vocabulary)?,
        Value::Product(values) => of_product(values, vocabulary)?,
        Value::Root(of) => of_root(type_of(of, vocabulary)?.dimension()?)?,
        Value::Over { take, .. } => return type_of(take, vocabulary),
        Value::Named { sort, .. } => return sort.of,
        measured => measured.measured()?,
    }))
}

/// What sort of value a fact has.
pub fn of_fact(id: FactId, vocabulary: &Vocabulary) -> Type {
    match vocabulary.fact(id).answer {
        Answer::Amount { dimension, .. } => Type::Amount(dimension),
        Answer::Word { .. } => Type::Word(id),
        Answer::YesNo => Type::YesNo(id),
    }
}

fn of_table(table: &Table<Value>, vocabulary: &Vocabulary) -> Option<Type> {
    table.given().find_map(|value| type_of(value, vocabulary))
}

fn dimensions(values: &[Value], vocabulary: &Vocabulary) -> Option<Vec<Dimension>> {
    values
        .iter()
        .map(|value| type_of(value, vocabulary)?.dimension())
        .collect()
}

/// A day and some days is a day; otherwise all are of one sort.
fn of_sum(values: &[Value], vocabulary: &Vocabulary) -> Option<Dimension> {
    let all = dimensions(values, vocabulary)?;
    let date = all
        .iter()
        .copied()
        .find(|&dimension| dimension == Dimension::Date);
    date.or(all.first().copied())
}

/// From day to day there is a number of days; a day less some days is a day; otherwise all are of one sort.
fn of_difference(values: &[Value], vocabulary: &Vocabulary) -> Option<Dimension> {
    match dimensions(values, vocabulary)?[..] {
        [Dimension::Date, Dimension::Date] => Some(Dimension::Days),
        [first, ..] => Some(first),
        [] => None,
    }
}

/// What a square root is an amount of; `None` where there is none.
pub fn of_root(of: Dimension) -> Option<Dimension> {
    match of {
        Dimension::Area => Some(Dimension::Length),
        Dimension::Number => Some(Dimension::Number),
        _ => None,
    }
}

/// What a product is an amount of; `None` where it is of nothing that has a unit.
pub fn of_product(values: &[Value], vocabulary: &Vocabulary) -> Option<Dimension> {
    let mut all = dimensions(values, vocabulary)?;
    all.retain(|&dimension| dimension != Dimension::Number);
    all.sort();
    match all[..] {
        [] => Some(Dimension::Number),
        [one] => Some(one),
        [Dimension::Length, Dimension::Length] => Some(Dimension::Area),
        [Dimension::Length, Dimension::Area]
        | [Dimension::Length, Dimension::Length, Dimension::Length] => Some(Dimension::Volume),
        _ => None,
    }
}
