//! How large the same shape can be where the pool as drawn fits nowhere.

use std::collections::VecDeque;

use super::judging::{Asked, Judging, View};
use super::model::{Offer, Smaller};
use super::spot::{Spot, Way};
use super::survey::{Role, Survey};
use super::{Ground, NotPlaced, Wishes};
use crate::edit::scale;
use crate::quantity::Unit;
use crate::ruleset::RuleSet;
use crate::text::Node;

/// The smallest scale that is tried, in thousandths.
const SMALLEST: i64 = 300;
/// The scale as drawn.
const WHOLE: i64 = 1000;
/// The precision to which the scale is found.
const CLOSE: i64 = 10;
/// Cells of no more than this, in millimetres, are cut no further.
const FINEST: i64 = 50;
/// The most steps to take at one scale.
const MOST_STEPS: u64 = 2_000_000;

/// The largest scale at which a place was found where each rule holds, at least as drawn. The ordinary checker has judged
/// that place too. `survey` tells how the rules come out over the lot with the pool as drawn.
pub(super) fn smaller(
    document: (&Node, &str),
    (rules, wishes, unit): (&RuleSet, &Wishes, Unit),
    (pool, survey): (&str, &Survey),
) -> Option<Smaller> {
    let fits = |thousandths: i64| -> Option<Smaller> {
        let found = offer_at(document, (rules, wishes, unit), (pool, thousandths), survey);
        let offer = found.ok()??;
        Some(Smaller { thousandths, offer })
    };
    let mut best = fits(SMALLEST)?;
    let (mut low, mut high) = (SMALLEST, WHOLE);
    while high - low > CLOSE {
        let middle = low + (high - low) / 2;
        match fits(middle) {
            Some(found) => {
                best = found;
                low = middle;
            }
            None => high = middle,
        }
    }
    Some(best)
}

fn offer_at(
    (document, text): (&Node, &str),
    (rules, wishes, unit): (&RuleSet, &Wishes, Unit),
    (pool, thousandths): (&str, i64),
    survey: &Survey,
) -> Result<Option<Offer>, NotPlaced> {
    let mut document = document.clone();
    scale(&mut document, pool, i128::from(thousandths)).map_err(|it| NotPlaced::Unclear(it.0))?;
    let mut ground = Ground::unmapped((&document, text), (rules, wishes), 0.0, Some(survey))?;
    let mut holding = [survey.of(Role::Placed), survey.of(Role::HoldsAnyway)].concat();
    holding.sort_unstable();
    let cells = ground.first_cells();
    let way = fitting(&mut ground.judging, cells, (&holding, &survey.waiting()));
    let offer = way.and_then(|way| ground.offer(vec!["another"], way, unit));
    Ok(offer.filter(|offer| offer.holds < super::Class::Open))
}

/// A place where some rules hold as drawn, and none of some others fails. The largest cells are tried first.
fn fitting(
    judging: &mut Judging<'_>,
    cells: Vec<Spot>,
    (holding, waiting): (&Asked, &Asked),
) -> Option<Way> {
    let first = judging.steps();
    let whole = |cell| (cell, holding.clone());
    let mut queue: VecDeque<(Spot, Asked)> = cells.into_iter().map(whole).collect();
    while let Some((spot, rules)) = queue.pop_front() {
        if judging.steps().saturating_sub(first) > MOST_STEPS {
            return None;
        }
        let Some(open) = judging.open_in(View::Drawn, spot, &rules) else {
            continue;
        };
        let middle = Spot::only(spot.middle());
        let hold = judging.open_in(View::Drawn, middle, &open);
        if hold.is_some_and(|open| open.is_empty())
            && judging.open_in(View::Possible, middle, waiting).is_some()
        {
            return Some(spot.middle());
        }
        if spot.size > FINEST && spot.size % 2 == 0 {
            queue.extend(spot.quarters().map(|quarter| (quarter, open.clone())));
        }
    }
    None
}
