//! The map: square cells, each with what is known of whether the pool can go there.

use std::collections::VecDeque;

use serde::Serialize;

use super::judging::{Asked, Judging, View, holds};
use super::spot::{Spot, Way};
use crate::check::Outcome;

/// What is known of a cell.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Class {
    /// Every rule that depends on the place surely holds, wherever in the cell the pool is put.
    Sure,
    /// Every one of them holds anywhere in the cell if everything is where it is drawn.
    AsDrawn,
    /// Neither is known: an answer or a paper is missing, or the cell lies on the edge between others.
    Open,
    /// Some rule surely fails, wherever in the cell the pool is put.
    Never,
}

/// A cell of the map.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Patch {
    /// Where.
    pub spot: Spot,
    /// What is known of it.
    pub class: Class,
    /// The binding rules that rule it out or leave it open: places in the list of them.
    pub(super) by: Asked,
    /// Whether it is open only because it is too small to be cut further.
    pub edge: bool,
}

/// What the map is of, and how finely it is drawn.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Grain {
    /// The rules that depend on the place.
    pub placed: Asked,
    /// Rules that hold nowhere. It only matters where they fail.
    pub waiting: Asked,
    /// No cell is smaller, in millimetres; an even number.
    pub finest: i64,
    /// The most steps to take; what has not been looked at by then stays open.
    pub most_steps: u64,
}

/// Cells as small as this that are open in five places are taken to be open all over, in millimetres.
const SMALL: i64 = 800;

/// A cell still to be looked at.
struct Cell {
    spot: Spot,
    /// The rules that are not yet known to hold all over it.
    possible: Asked,
    /// Those that are not yet known to hold all over it as drawn.
    drawn: Asked,
    /// Those that wait for something, and may fail in it.
    waiting: Asked,
}

/// Cuts cells until each is known, or small.
pub(super) fn map(judging: &mut Judging<'_>, cells: Vec<Spot>, grain: &Grain) -> Vec<Patch> {
    let first = judging.steps();
    let whole = |spot| Cell {
        spot,
        possible: grain.placed.clone(),
        drawn: grain.placed.clone(),
        waiting: grain.waiting.clone(),
    };
    let mut waiting: VecDeque<Cell> = cells.into_iter().map(whole).collect();
    let mut patches = Vec::new();
    while let Some(cell) = waiting.pop_front() {
        let spent = judging.steps().saturating_sub(first) > grain.most_steps;
        match spent {
            true => patches.push(cell.open(true)),
            false => match look(judging, cell, grain.finest) {
                Ok(patch) => patches.push(patch),
                Err(cell) => waiting.extend(cell.quarters()),
            },
        }
    }
    patches
}

/// What is known of a cell, or the cell with the rules that are left if it is to be cut.
fn look(judging: &mut Judging<'_>, mut cell: Cell, finest: i64) -> Result<Patch, Cell> {
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

/// Whether none of the rules that wait for something fails in five places of a cell.
fn fails_nowhere(judging: &mut Judging<'_>, cell: &Cell) -> bool {
    cell.spot.five().into_iter().all(|way| {
        let left = judging.left(View::Possible, Spot::only(way), &cell.waiting);
        left.fail.is_empty()
    })
}

/// Whether in five places of a cell the same rule is open and none fails, so that nothing is gained by cutting it.
fn stays_open(judging: &mut Judging<'_>, cell: &Cell) -> bool {
    let drawn = cell.drawn.is_empty();
    let asked = if drawn { &cell.possible } else { &cell.drawn };
    let mut open = asked.clone();
    for way in cell.spot.five() {
        let found = judging.find(View::Possible, Spot::only(way), asked);
        let outcome = |rule: &usize| {
            let finding = found.iter().find(|(at, _)| at == rule);
            finding.map(|(_, finding)| finding.outcome)
        };
        open.retain(|rule| outcome(rule).is_some_and(|outcome| is_open(outcome, drawn)));
        let fails = asked
            .iter()
            .any(|rule| outcome(rule) == Some(Outcome::Fail));
        if fails || open.is_empty() {
            return false;
        }
    }
    true
}

/// Whether a rule is still open at a place. Where every rule holds as drawn, one that only the accuracy leaves open counts too.
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
