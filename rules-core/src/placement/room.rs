//! How much room a place has, which place has the most, and how far the pool can slide from a place.

use std::collections::BinaryHeap;

use super::judging::{Asked, Judging, View};
use super::spot::{MILLIMETRE, Spot, Way};
use crate::check::{Finding, Part};
use crate::quantity::Dimension;

/// The search ends when no other place can have this much more room than the best one, in nanometres.
const CLOSE: i128 = 10 * MILLIMETRE as i128;
/// The most cells to look at in that search.
const MOST_CELLS: usize = 4000;
/// The precision to which the end of a slide is found, in millimetres.
const STEP: i64 = 10;
/// The longest slide, 41 m: the precision doubled 12 times.
pub(super) const LONGEST: i64 = STEP << 12;

/// The least margin of any length as drawn, in nanometres: its low and its high end over a cell. `None` where no rule has
/// such a margin.
fn margin(judging: &mut Judging<'_>, spot: Spot, asked: &Asked) -> Option<(i128, i128)> {
    let found = judging.find(View::Drawn, spot, asked);
    let parts = found
        .iter()
        .flat_map(|(_, finding): &(usize, Finding)| &finding.parts);
    let margins = parts
        .filter(|part| !part.truth.may_not_apply())
        .filter_map(of_length);
    margins.reduce(|one, other| (one.0.min(other.0), one.1.min(other.1)))
}

fn of_length(part: &Part) -> Option<(i128, i128)> {
    let margin = part.margin.filter(|it| it.dimension == Dimension::Length)?;
    let (low, high) = (margin.range.least(), margin.range.greatest());
    Some((low.unwrap_or(i128::MIN), high.unwrap_or(i128::MAX)))
}

/// A place and the least margin there, as drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Best {
    pub margin: i128,
    pub way: Way,
}

/// The place in some cells whose least margin is the greatest, if it is greater than at the best place so far.
pub(super) fn roomiest(
    judging: &mut Judging<'_>,
    cells: impl Iterator<Item = Spot>,
    asked: &Asked,
    so_far: Option<Best>,
) -> Option<Best> {
    let mut best = so_far;
    let mut queue = BinaryHeap::new();
    let mut looked = 0;
    for cell in cells {
        let most = margin(judging, cell, asked);
        queue.extend(most.map(|(_, high)| (high, cell)));
    }
    while let Some((most, cell)) = queue.pop() {
        let enough = best.is_some_and(|best| most <= best.margin.saturating_add(CLOSE));
        if enough || looked > MOST_CELLS {
            break;
        }
        looked += 1;
        let way = cell.middle();
        if let Some((margin, _)) = margin(judging, Spot::only(way), asked)
            && best.is_none_or(|best| best.margin < margin)
        {
            best = Some(Best { margin, way });
        }
        for quarter in cell.quarters().into_iter().filter(|_| cell.size >= STEP) {
            let most = margin(judging, quarter, asked);
            queue.extend(most.map(|(_, high)| (high, quarter)));
        }
    }
    best.filter(|best| so_far.is_none_or(|it| it.way != best.way))
}

/// How far the pool can slide from a place in one direction, and what stops it there.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Stop {
    /// How far, in millimetres, rounded down to 10 mm.
    pub after: i64,
    /// The rules that no longer hold.
    pub rules: Asked,
}

/// Slides the pool from a place in one direction, such as east (1, 0); `None` where nothing stops it within 41 m.
pub(super) fn slide(
    judging: &mut Judging<'_>,
    (from, to): (Way, (i64, i64)),
    view: View,
    asked: &Asked,
) -> Option<Stop> {
    stop_in(judging, (from, to), (0, LONGEST), view, asked)
}

/// Where along a slide one of these rules begins to fail; `None` where none does.
pub(super) fn failing(
    judging: &mut Judging<'_>,
    (from, to): (Way, (i64, i64)),
    end: i64,
    asked: &Asked,
) -> Option<Stop> {
    if asked.is_empty() {
        return None;
    }
    (1..=(end / (STEP * 5) + 1)).find_map(|many| {
        let after = many * STEP * 5;
        let way = Way {
            x: from.x + to.0 * after,
            y: from.y + to.1 * after,
        };
        let rules = judging.left_near(View::Possible, (way, 0), asked).fail;
        (!rules.is_empty()).then_some(Stop {
            after: after - STEP * 5,
            rules,
        })
    })
}

fn stop_in(
    judging: &mut Judging<'_>,
    (from, to): (Way, (i64, i64)),
    (low, high): (i64, i64),
    view: View,
    asked: &Asked,
) -> Option<Stop> {
    let half = (high - low) / 2;
    let middle = Way {
        x: from.x + to.0 * (low + half),
        y: from.y + to.1 * (low + half),
    };
    let left = judging.left_near(view, (middle, half.saturating_mul(MILLIMETRE)), asked);
    let rules = [left.fail, left.open].concat();
    if rules.is_empty() {
        return None;
    }
    if high - low <= STEP {
        return Some(Stop { after: low, rules });
    }
    let first = stop_in(judging, (from, to), (low, low + half), view, &rules);
    first.or_else(|| stop_in(judging, (from, to), (low + half, high), view, &rules))
}
