//! Whether the rows of a table cover all that can be.

use std::collections::BTreeSet;

use crate::faults::Code;
use crate::quantity::{Unit, show_exactly};
use crate::ruleset::lint::cells::*;
use crate::ruleset::read::Reader;
use crate::ruleset::{Bound, Requirement, RowTest, Table};
use crate::text::{Span, capitalised};
use crate::work;

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
