//! The cells into which all possible values of something fall: inside each, no stated limit changes anything. A cell is
//! exactly a limit, between two limits, one word, or none at all.

use std::collections::BTreeSet;

use crate::quantity::{Dimension, ONE};
use crate::ruleset::types::{Type, physical, type_of};
use crate::ruleset::{Bound, Choice, Stated, Value};
use crate::vocabulary::{Answer, Vocabulary};
use crate::work;

/// A set of values that all rows treat alike.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Cell {
    /// Twice an amount; odd numbers stand for what lies between two limits.
    Amount(i128),
    Word(String),
    /// A word that nobody names.
    OtherWord,
    /// There is none.
    None,
}

/// The cells of a value, cut at all stated limits; `None` where a limit is not a stated amount.
pub(crate) fn cells(
    value: &Value,
    bounds: &[&Bound],
    vocabulary: &Vocabulary,
) -> Option<Vec<Cell>> {
    match type_of(value, vocabulary)? {
        Type::Amount(_) => amount_cells(value, bounds, vocabulary),
        Type::Word(fact) => {
            let fact = vocabulary.fact(fact);
            let Answer::Word { words, open } = &fact.answer else {
                return None;
            };
            let mut all: Vec<_> = words.iter().cloned().map(Cell::Word).collect();
            if *open {
                all.extend(
                    bounds
                        .iter()
                        .flat_map(|bound| named_words(bound))
                        .map(Cell::Word),
                );
                all.push(Cell::OtherWord);
            }
            all.extend(fact.none.then_some(Cell::None));
            Some(all)
        }
        Type::YesNo(fact) => {
            let answers = ["yes", "no"].map(|word| Cell::Word(word.to_owned()));
            let none = vocabulary.fact(fact).none.then_some(Cell::None);
            Some(answers.into_iter().chain(none).collect())
        }
    }
}

fn named_words(bound: &Bound) -> Vec<String> {
    let Bound::Is(choices) = bound else {
        return Vec::new();
    };
    let word = |choice: &Choice| match choice {
        Choice::Word(word) => Some(word.clone()),
        _ => None,
    };
    choices.iter().filter_map(word).collect()
}

fn amount_cells(value: &Value, bounds: &[&Bound], vocabulary: &Vocabulary) -> Option<Vec<Cell>> {
    let limits: Vec<_> = bounds
        .iter()
        .map(|bound| limits_of(bound))
        .collect::<Option<Vec<_>>>()?
        .concat();
    let mut dimensions = limits.iter().filter_map(|limit| limit.1);
    let first = dimensions.next();
    if dimensions.any(|dimension| Some(dimension) != first) {
        return None;
    }
    let (least, most) = physical(value, vocabulary);
    let mut points: BTreeSet<_> = limits.iter().map(|limit| limit.0).collect();
    points.extend(least);
    points.extend(most);
    work::step_through(points.len());
    let twice: BTreeSet<_> = points
        .iter()
        .map(|&point| point.saturating_mul(2))
        .collect();
    let mut all: BTreeSet<_> = twice
        .iter()
        .flat_map(|&point| [point - 1, point, point + 1])
        .collect();
    let ends = |at: i128| {
        least.is_none_or(|least| at >= 2 * least) && most.is_none_or(|most| at <= 2 * most)
    };
    all.retain(|&at| ends(at) && !same_gap(at, &twice));
    if points.is_empty() {
        // No limit divides the amounts: one stands for all.
        all.insert(1);
    }
    if matches!(value, Value::Count(_)) {
        all.retain(|&at| match at % 2 == 0 {
            true => at % (2 * ONE) == 0,
            false => has_whole_number(at, &twice),
        });
    }
    let none = matches!(value, Value::Fact(id) if vocabulary.fact(*id).none).then_some(Cell::None);
    Some(all.into_iter().map(Cell::Amount).chain(none).collect())
}

/// Of the two odd numbers that stand for one gap, the upper is not needed.
fn same_gap(at: i128, twice: &BTreeSet<i128>) -> bool {
    at % 2 != 0
        && twice.contains(&(at + 1))
        && twice.first().is_some_and(|first| *first < at)
        && !twice.contains(&(at - 1))
}

/// Between two things there is no half thing.
fn has_whole_number(at: i128, twice: &BTreeSet<i128>) -> bool {
    let below = twice.range(..at).next_back();
    let above = twice.range(at + 1..).next();
    match (below, above) {
        (Some(below), Some(above)) => (below / (2 * ONE) + 1) * 2 * ONE < *above,
        _ => true,
    }
}

/// The limits that a bound states; `None` where one is not a stated amount.
fn limits_of(bound: &Bound) -> Option<Vec<(i128, Option<Dimension>)>> {
    match bound {
        Bound::AtLeast(limit)
        | Bound::AtMost(limit)
        | Bound::MoreThan(limit)
        | Bound::LessThan(limit) => {
            let stated = stated(limit)?;
            Some(vec![(stated.range.low, Some(stated.dimension))])
        }
        Bound::Is(choices) => {
            let amount = |choice: &Choice| match choice {
                Choice::Amount(amount, _) => Some((*amount, None)),
                _ => None,
            };
            Some(choices.iter().filter_map(amount).collect())
        }
    }
}

/// The amount that a value states, by itself or through a term.
pub(crate) fn stated(value: &Value) -> Option<&Stated> {
    match value {
        Value::Stated(stated) => Some(stated),
        Value::Named { value, .. } => stated(value),
        _ => None,
    }
}

/// Whether a cell keeps a bound. "None" keeps only the bound `is: none`.
pub(crate) fn keeps(cell: &Cell, bound: &Bound) -> bool {
    work::step_through(0);
    let against = |limit: &Value, test: fn(i128, i128) -> bool| match (cell, stated(limit)) {
        (Cell::Amount(at), Some(stated)) => test(*at, stated.range.low.saturating_mul(2)),
        _ => false,
    };
    match bound {
        Bound::AtLeast(limit) => against(limit, |at, limit| at >= limit),
        Bound::AtMost(limit) => against(limit, |at, limit| at <= limit),
        Bound::MoreThan(limit) => against(limit, |at, limit| at > limit),
        Bound::LessThan(limit) => against(limit, |at, limit| at < limit),
        Bound::Is(choices) => choices.iter().any(|choice| match (choice, cell) {
            (Choice::Word(word), Cell::Word(this)) => word == this,
            (Choice::Amount(amount, _), Cell::Amount(at)) => amount.saturating_mul(2) == *at,
            (Choice::None, Cell::None) => true,
            _ => false,
        }),
    }
}

/// Whether nothing that can be keeps all of these bounds.
pub(crate) fn impossible<'b>(
    value: &Value,
    bounds: impl IntoIterator<Item = &'b Bound>,
    vocabulary: &Vocabulary,
) -> bool {
    let all: Vec<_> = bounds.into_iter().collect();
    let cells = cells(value, &all, vocabulary);
    cells.is_some_and(|cells| {
        !cells
            .iter()
            .any(|cell| work::is_spent() || all.iter().all(|bound| keeps(cell, bound)))
    })
}

/// Whether every possible value keeps all of these bounds.
pub(crate) fn everything_keeps(value: &Value, bounds: &[Bound], vocabulary: &Vocabulary) -> bool {
    let all: Vec<_> = bounds.iter().collect();
    let kept = |cell: &Cell| all.iter().all(|bound| keeps(cell, bound));
    cells(value, &all, vocabulary).is_some_and(|cells| cells.iter().all(kept))
}

/// Whether every possible amount keeps all of these bounds; having no amount is no breach. "At least 0" only says that
/// the thing exists, so lower bounds alone do not count.
pub(crate) fn every_amount_keeps(value: &Value, bounds: &[Bound], vocabulary: &Vocabulary) -> bool {
    let all: Vec<_> = bounds.iter().collect();
    let kept = |cell: &Cell| *cell == Cell::None || all.iter().all(|bound| keeps(cell, bound));
    let limited = all.iter().all(|bound| bound.limit().is_some());
    let lower = |bound: &&Bound| matches!(bound, Bound::AtLeast(_));
    limited
        && !all.iter().all(lower)
        && cells(value, &all, vocabulary).is_some_and(|cells| cells.iter().all(kept))
}
