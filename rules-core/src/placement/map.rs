//! The map: square cells, and for each whether the pool can go there, as far as is known.

use std::collections::VecDeque;

use serde::Serialize;

use super::judging::{Asked, Judging, View, holds};
use super::spot::{Spot, Way};
use crate::check::Outcome;

/// Whether the pool can go in a cell.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Class {
    /// Every rule that depends on the place surely holds, wherever in the cell the pool is put.
    Sure,
    /// Every such rule holds anywhere in the cell if everything is exactly as drawn.
    AsDrawn,
    /// Not known: an answer or a document is missing, or the cell straddles the edge between others.
    Open,
    /// At least one rule surely fails, wherever in the cell the pool is put.
    Never,
}

/// A cell of the map.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Patch {
    /// Where.
    pub spot: Spot,
    /// Whether the pool can go there.
    pub class: Class,
    /// The binding rules that rule it out or leave it open.
    pub(super) by: Asked,
    /// Whether it is open only because cells are cut no smaller.
    pub edge: bool,
}

/// Which rules the map shows, and how finely it is drawn.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct MapSettings {
    /// The rules that depend on the place.
    pub placed: Asked,
    /// Rules that hold nowhere, and fail in some places: only those places matter.
    pub waiting: Asked,
    /// No cell is smaller, in millimetres; an even number.
    pub finest: i64,
    /// The most steps to take; cells not judged by then stay open.
    pub most_steps: u64,
}

/// A cell of this size or less, in millimetres, that is open at five points counts as open all over.
const SMALL: i64 = 800;

/// A cell still to be judged.
struct Cell {
    spot: Spot,
    /// The rules that are not yet known to hold all over it.
    possible: Asked,
    /// Those that are not yet known to hold all over it as drawn.
    drawn: Asked,
    /// The waiting rules that may still fail in it.
    waiting: Asked,
}

/// Cuts cells until each is decided or too small to cut.
pub(super) async fn map(
    judging: &mut Judging<'_>,
    cells: Vec<Spot>,
    settings: &MapSettings,
) -> Vec<Patch> {
    let first = judging.steps();
    let whole = |spot| Cell {
        spot,
        possible: settings.placed.clone(),
        drawn: settings.placed.clone(),
        waiting: settings.waiting.clone(),
    };
    let mut queue: VecDeque<Cell> = cells.into_iter().map(whole).collect();
    let mut patches = Vec::new();
    while let Some(cell) = queue.pop_front() {
        judging.rest().await;
        if judging.steps().saturating_sub(first) > settings.most_steps {
            patches.push(cell.open(true));
            continue;
        }
        match judge_cell(judging, cell, settings.finest) {
            Ok(patch) => patches.push(patch),
            Err(cell) => queue.extend(cell.quarters()),
        }
    }
    patches
}

/// The cell's place on the map, or, where it has to be cut, the cell with the rules that are still undecided in it.
fn judge_cell(judging: &mut Judging<'_>, mut cell: Cell, finest: i64) -> Result<Patch, Cell> {
    let left = judging.left(View::Possible, cell.spot, &cell.asked());
    if !left.fail.is_empty() {
        return Ok(cell.patch(Class::Never, left.fail));
    }
    for rules in [&mut cell.possible, &mut cell.drawn, &mut cell.waiting] {
        rules.retain(|rule| left.open.contains(rule));
    }
    let (small, smallest) = (cell.spot.size <= SMALL, cell.spot.size <= finest);
    let fails_nowhere = cell.waiting.is_empty() || small && fails_nowhere(judging, &cell);
    if !fails_nowhere {
        return match smallest {
            true => Ok(cell.open(true)),
            false => Err(cell),
        };
    }
    if cell.possible.is_empty() {
        return Ok(cell.patch(Class::Sure, Asked::new()));
    }
    let drawn = judging.left(View::Drawn, cell.spot, &cell.drawn);
    cell.drawn = [drawn.fail, drawn.open].concat();
    cell.drawn.sort_unstable();
    let settled = small && stays_open(judging, &cell);
    match (cell.drawn.is_empty(), smallest || settled) {
        (_, false) => Err(cell),
        (true, true) => {
            let by = cell.possible.clone();
            Ok(cell.patch(Class::AsDrawn, by))
        }
        (false, true) => Ok(cell.open(!settled)),
    }
}

/// Whether no waiting rule fails at five points of a cell.
fn fails_nowhere(judging: &mut Judging<'_>, cell: &Cell) -> bool {
    cell.spot.five_points().into_iter().all(|way| {
        let left = judging.left(View::Possible, Spot::only(way), &cell.waiting);
        left.fail.is_empty()
    })
}

/// Whether one rule is open at all five points of a cell and none fails there: then cutting the cell gains nothing.
fn stays_open(judging: &mut Judging<'_>, cell: &Cell) -> bool {
    let drawn = cell.drawn.is_empty();
    let asked = if drawn { &cell.possible } else { &cell.drawn };
    let mut open = asked.clone();
    for way in cell.spot.five_points() {
        let outcomes = judging.outcomes(View::Possible, Spot::only(way), asked);
        let found = asked.iter().zip(&outcomes);
        let still = found.filter(|(_, outcome)| is_open(**outcome, drawn));
        let still: Asked = still.map(|(rule, _)| *rule).collect();
        open.retain(|rule| still.contains(rule));
        if outcomes.contains(&Outcome::Fail) || open.is_empty() {
            return false;
        }
    }
    true
}

/// Whether a rule is still open at a place. Where every rule holds as drawn, a rule that turns on the drawing's accuracy
/// counts as open too.
fn is_open(outcome: Outcome, holds_as_drawn: bool) -> bool {
    match outcome {
        Outcome::Unknown | Outcome::Refer => true,
        Outcome::Marginal => holds_as_drawn,
        other => !holds(other) && other != Outcome::Fail,
    }
}

impl Cell {
    fn asked(&self) -> Asked {
        let mut asked = [self.possible.clone(), self.waiting.clone()].concat();
        asked.sort_unstable();
        asked
    }

    fn patch(self, class: Class, by: Asked) -> Patch {
        Patch {
            spot: self.spot,
            class,
            by,
            edge: false,
        }
    }

    fn open(self, edge: bool) -> Patch {
        Patch {
            spot: self.spot,
            class: Class::Open,
            by: match self.drawn.is_empty() {
                true => self.possible,
                false => self.drawn,
            },
            edge,
        }
    }

    fn quarters(self) -> [Cell; 4] {
        self.spot.quarters().map(|spot| Cell {
            spot,
            possible: self.possible.clone(),
            drawn: self.drawn.clone(),
            waiting: self.waiting.clone(),
        })
    }
}

/// Squares of one size that cover a rectangle, row by row.
pub(super) fn cover(low: Way, high: Way, size: i64) -> Vec<Spot> {
    let starts = |from: i64, to: i64| {
        let step = usize::try_from(size).unwrap_or(1).max(1);
        (from..to.max(from + 1)).step_by(step)
    };
    let row = |y| {
        starts(low.x, high.x).map(move |x| Spot {
            low: Way { x, y },
            size,
        })
    };
    starts(low.y, high.y).flat_map(row).collect()
}
