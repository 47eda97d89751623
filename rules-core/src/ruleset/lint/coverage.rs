//! Whether the rows of a table cover all that can be, and whether bounds can be kept at all.
//!
//! All possible values of what the rows go by fall into a few cells, inside which no stated limit changes anything:
//! exactly a limit, between two limits, one word, none at all.

use std::collections::BTreeSet;

use crate::faults::Code;
use crate::quantity::{Dimension, ONE, Unit, show_exactly};
use crate::ruleset::read::Reader;
use crate::ruleset::types::physical;
use crate::ruleset::types::{Type, type_of};
use crate::ruleset::{Bound, Choice, Requirement, RowTest, Stated, Table, Value};
use crate::text::{Span, capitalised};
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
        Value::Named { value, .. } => stated_in(value),
        _ => None,
    }
}

fn stated_in(value: &Value) -> Option<&Stated> {
    stated(value)
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

/// Says which values are in no row, and which rows can never apply.
/// `span` and `places` are where the table and its rows stand.
pub(crate) fn check<T>(reader: &mut Reader<'_>, table: &Table<T>, span: Span, places: &[Span]) {
    if let Some(after) = after_otherwise(table, places) {
        reader
            .fault(
                Code::RowAfterOtherwise,
                after,
                "This row can never apply: `otherwise` stands before it.",
            )
            .help("Put the `otherwise` row last.");
        return;
    }
    unreachable_conditions(reader, table, places);
    let otherwise = table.rows.iter().any(|row| row.test == RowTest::Otherwise);
    let by_bounds = table
        .rows
        .iter()
        .all(|row| !matches!(row.test, RowTest::When(_)));
    let all: Vec<_> = table
        .rows
        .iter()
        .flat_map(|row| bounds_of(&row.test))
        .collect();
    let cells = table
        .by
        .as_ref()
        .filter(|_| by_bounds)
        .and_then(|by| cells(by, &all, &reader.vocabulary));
    let Some(cells) = cells else {
        if !otherwise {
            reader
                .fault(
                    Code::NoOtherwise,
                    span,
                    "Nothing says what holds where no row applies.",
                )
                .help(
                    "Add a last row `otherwise: …`; `otherwise: refer` leaves it to the authority.",
                );
        }
        return;
    };
    let taking = rows_taking(table, &cells);
    unreachable_rows(reader, &taking, places);
    if otherwise {
        hole(reader, &taking, (&all, &cells), places);
    } else {
        gaps(reader, &taking, (&all, &cells), span);
    }
}

fn after_otherwise<T>(table: &Table<T>, places: &[Span]) -> Option<Span> {
    let mut rows = table
        .rows
        .iter()
        .zip(places)
        .skip_while(|(row, _)| row.test != RowTest::Otherwise);
    rows.next();
    rows.next().map(|(_, place)| *place)
}

pub(crate) fn bounds_of(test: &RowTest) -> &[Bound] {
    match test {
        RowTest::Bounds(bounds) => bounds,
        _ => &[],
    }
}

fn applies(test: &RowTest, cell: &Cell) -> bool {
    match test {
        RowTest::Bounds(bounds) => bounds.iter().all(|bound| keeps(cell, bound)),
        RowTest::When(_) => false,
        RowTest::Otherwise => true,
    }
}

/// Rows with a `when` that an earlier row has too, or that comes after one that always holds.
fn unreachable_conditions<T>(reader: &mut Reader<'_>, table: &Table<T>, places: &[Span]) {
    let mut before: Vec<&Requirement> = Vec::new();
    let mut taken = false;
    for (row, place) in table.rows.iter().zip(places) {
        let RowTest::When(when) = &row.test else {
            if taken {
                never_applies(reader, *place);
            }
            continue;
        };
        // That a condition can never hold is said where it stands.
        work::step_through(before.len());
        if taken || before.contains(&when) {
            never_applies(reader, *place);
        }
        before.push(when);
        taken |= reader.sight().always(when);
    }
}

fn never_applies(reader: &mut Reader<'_>, place: Span) {
    reader
        .warning(Code::RowNeverApplies, place, "This row can never apply.")
        .help("A row above takes every case of it, or there is no such case. Put the row for fewer cases first.");
}

/// Which row of a table each cell falls to, the first that takes it; the cells' amounts rise.
///
/// A row that only says up to where it goes takes nothing beyond the first cell that it does not take: it is not looked at
/// again.
pub(crate) fn rows_taking<T>(table: &Table<T>, cells: &[Cell]) -> Vec<Option<usize>> {
    let takes = |row: usize, cell: &Cell| {
        let row = table.rows.get(row);
        row.is_some_and(|row| applies(&row.test, cell))
    };
    let mut passed = 0;
    let mut taking = Vec::new();
    for cell in cells {
        let ends = |row: &usize| table.rows.get(*row).is_some_and(|row| only_ends(&row.test));
        let is_amount = matches!(cell, Cell::Amount(_));
        while is_amount && ends(&passed) && !takes(passed, cell) {
            passed += 1;
        }
        let mut left = passed..table.rows.len();
        taking.push(left.find(|row| !work::is_spent() && takes(*row, cell)));
    }
    taking
}

/// Whether a row only says up to where it goes.
fn only_ends(test: &RowTest) -> bool {
    let ends = |bound: &Bound| matches!(bound, Bound::AtMost(_) | Bound::LessThan(_));
    matches!(test, RowTest::Bounds(bounds) if bounds.iter().all(ends))
}

fn unreachable_rows(reader: &mut Reader<'_>, taking: &[Option<usize>], places: &[Span]) {
    let taking: BTreeSet<usize> = taking.iter().flatten().copied().collect();
    if work::is_spent() {
        return;
    }
    for (row, place) in places.iter().enumerate() {
        if !taking.contains(&row) {
            never_applies(reader, *place);
        }
    }
}

fn gaps(
    reader: &mut Reader<'_>,
    taking: &[Option<usize>],
    (bounds, cells): (&[&Bound], &[Cell]),
    span: Span,
) {
    let missed = taking.iter().map(|row| !work::is_spent() && row.is_none());
    let missed: Vec<bool> = missed.collect();
    let unit = bounds
        .iter()
        .find_map(|bound| Some(stated(bound.limit()?)?.unit));
    let said = gaps_said(cells, &missed, unit);
    let Some((last, rest)) = said.split_last() else {
        return;
    };
    let message = match rest {
        [] => format!("{last} is in no row of this table."),
        _ => format!(
            "{} and {last} are in no row of this table.",
            rest.join(", ")
        ),
    };
    let message = capitalised(&message);
    reader
        .fault(Code::TableGap, span, message)
        .help("Make a row for it, or add a last row `otherwise: …`.");
}

/// One amount between two rows that only the last row takes, `otherwise`.
fn hole(
    reader: &mut Reader<'_>,
    taking: &[Option<usize>],
    (bounds, cells): (&[&Bound], &[Cell]),
    places: &[Span],
) {
    let last = places.len().checked_sub(1);
    let unit = bounds
        .iter()
        .find_map(|bound| Some(stated(bound.limit()?)?.unit));
    let missed = cells.windows(3).zip(taking.windows(3));
    let mut missed = missed.filter_map(|(cells, rows)| match (cells, rows) {
        ([_, Cell::Amount(at), _], [before, here, after])
            if at % 2 == 0 && *here == last && *before != last && *after != last =>
        {
            Some(*at)
        }
        _ => None,
    });
    let (Some(at), Some(unit), Some(place)) = (missed.next(), unit, places.last()) else {
        return;
    };
    let message = format!("Just {} falls to this row.", show_exactly(at / 2, unit));
    reader
        .warning(Code::TableHole, *place, message)
        .help("Is `at-most` or `at-least` meant in one of the two rows beside it?");
}

/// The missed cells in words, those side by side together.
fn gaps_said(cells: &[Cell], missed: &[bool], unit: Option<Unit>) -> Vec<String> {
    let mut said = Vec::new();
    let mut run: Vec<i128> = Vec::new();
    let is_least = |run: &[i128]| matches!((cells.first(), run.first()), (Some(Cell::Amount(least)), Some(first)) if least == first);
    let greatest = cells.iter().rev().find_map(|cell| match cell {
        Cell::Amount(at) => Some(*at),
        _ => None,
    });
    for (cell, &missed) in cells.iter().zip(missed) {
        match cell {
            Cell::Amount(at) if missed => run.push(*at),
            Cell::Amount(_) => {
                let run = std::mem::take(&mut run);
                said.extend(run_said(&run, unit, (is_least(&run), None)));
            }
            Cell::Word(word) if missed => said.push(format!("`{word}`")),
            Cell::OtherWord if missed => said.push("any other word".to_owned()),
            Cell::None if missed => said.push("`none`".to_owned()),
            _ => {}
        }
    }
    let to_the_end = greatest.filter(|greatest| run.last() == Some(greatest));
    said.extend(run_said(&run, unit, (is_least(&run), to_the_end)));
    said
}

/// A run of missed amounts; whether it begins with the least that can be, and the greatest that can be, if it ends there.
fn run_said(
    run: &[i128],
    unit: Option<Unit>,
    (is_least, to_the_end): (bool, Option<i128>),
) -> Option<String> {
    let show = |at: i128| {
        unit.map_or_else(
            || (at / 2).to_string(),
            |unit| show_exactly(at.div_euclid(2), unit),
        )
    };
    let (first, last) = (*run.first()?, *run.last()?);
    if unit.is_none() {
        return Some("any amount".to_owned());
    }
    let exact = |at: i128| at % 2 == 0;
    // An odd number stands next to the limit that it lies beyond.
    Some(match (exact(first), exact(last)) {
        _ if first == last && exact(first) => format!("exactly {}", show(first)),
        (true, true) => format!("from {} to {}", show(first), show(last)),
        (true, false) => format!("{} and more", show(first)),
        (false, true) if !is_least && to_the_end.is_some() => format!("more than {}", show(first)),
        (false, true) if !is_least => format!("more than {} and up to {}", show(first), show(last)),
        (false, true) => format!("up to {}", show(last)),
        (false, false) => format!("between {} and the next row", show(first)),
    })
}
