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

/// The least margin of any length as drawn over a cell, in nanometres.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Least {
    low: i128,
    high: i128,
    /// The rules whose margin may be the least one anywhere in the cell.
    by: Asked,
}

/// The least margin over a cell; `None` where no rule has a margin of length.
fn least_margin(judging: &mut Judging<'_>, spot: Spot, asked: &Asked) -> Option<Least> {
    let found = judging.find(View::Drawn, spot, asked);
    let margins = found
        .iter()
        .map(|(rule, finding)| (*rule, of_rule(finding)));
    let margins: Vec<(usize, Has)> = margins.collect();
    let amounts = margins.iter().filter_map(|(_, has)| match has {
        Has::Amount(low, high) => Some((*low, *high)),
        _ => None,
    });
    let (low, high) = amounts.reduce(|one, other| (one.0.min(other.0), one.1.min(other.1)))?;
    let may_be_least = |has: &Has| match has {
        Has::Amount(low, _) => *low <= high,
        Has::Perhaps => true,
        Has::None => false,
    };
    let by = margins.iter().filter(|(_, has)| may_be_least(has));
    Some(Least {
        low,
        high,
        by: by.map(|(rule, _)| *rule).collect(),
    })
}

/// The least margin of any length at a place, as drawn, in millimetres.
pub(super) fn room(judging: &mut Judging<'_>, way: Way, asked: &Asked) -> Option<i64> {
    let least = least_margin(judging, Spot::only(way), asked)?;
    i64::try_from(least.low.div_euclid(i128::from(MILLIMETRE))).ok()
}

/// The margin of length that a rule has over a cell.
enum Has {
    /// Its low and its high end.
    Amount(i128, i128),
    /// None over the whole cell; in a part of it, it may have one.
    Perhaps,
    /// Its amounts are no lengths.
    None,
}

fn of_rule(finding: &Finding) -> Has {
    let parts = finding.parts.iter();
    let applies = parts.clone().filter(|part| !part.truth.may_not_apply());
    let margins = applies.filter_map(of_length);
    let least = margins.reduce(|one, other| (one.0.min(other.0), one.1.min(other.1)));
    let is_no_length = |part: &Part| {
        part.margin
            .is_some_and(|it| it.dimension != Dimension::Length)
    };
    match least {
        Some((low, high)) => Has::Amount(low, high),
        None if finding.parts.iter().all(is_no_length) && !finding.parts.is_empty() => Has::None,
        None => Has::Perhaps,
    }
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
pub(super) async fn roomiest(
    judging: &mut Judging<'_>,
    cells: impl Iterator<Item = Spot>,
    asked: &Asked,
    so_far: Option<Best>,
) -> Option<Best> {
    let mut best = so_far;
    let mut queue = BinaryHeap::new();
    let mut looked = 0;
    for cell in cells {
        judging.rest().await;
        let most = least_margin(judging, cell, asked);
        queue.extend(most.map(|it| (it.high, cell, it.by)));
    }
    while let Some((most, cell, by)) = queue.pop() {
        let enough = best.is_some_and(|best| most <= best.margin.saturating_add(CLOSE));
        if enough || looked > MOST_CELLS {
            break;
        }
        looked += 1;
        judging.rest().await;
        let way = cell.middle();
        if let Some(Least { low: margin, .. }) = least_margin(judging, Spot::only(way), &by)
            && best.is_none_or(|best| best.margin < margin)
        {
            best = Some(Best { margin, way });
        }
        for quarter in cell.quarters().into_iter().filter(|_| cell.size >= STEP) {
            let most = least_margin(judging, quarter, &by);
            queue.extend(most.map(|it| (it.high, quarter, it.by)));
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
