//! How large the same shape can be where the pool as drawn fits nowhere.

use std::collections::VecDeque;

use super::judging::{Asked, Judging, View};
use super::model::{Offer, Smaller};
use super::pause::Pause;
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
pub(super) async fn smaller<'r>(
    document: (&Node, &str),
    (rules, wishes, unit): (&'r RuleSet, &Wishes, Unit),
    (pool, survey): (&str, &Survey),
    pause: Pause<'r>,
) -> Option<Smaller> {
    let fits = async |thousandths: i64| -> Option<Smaller> {
        let pool = (pool, thousandths);
        let found = offer_at(document, (rules, wishes, unit), pool, survey, pause);
        let offer = found.await.ok()??;
        Some(Smaller { thousandths, offer })
    };
    let mut best = fits(SMALLEST).await?;
    let (mut low, mut high) = (SMALLEST, WHOLE);
    while high - low > CLOSE {
        let middle = low + (high - low) / 2;
        match fits(middle).await {
            Some(found) => {
                best = found;
                low = middle;
            }
            None => high = middle,
        }
    }
    Some(best)
}

async fn offer_at<'r>(
    (document, text): (&Node, &str),
    (rules, wishes, unit): (&'r RuleSet, &Wishes, Unit),
    (pool, thousandths): (&str, i64),
    survey: &Survey,
    pause: Pause<'r>,
) -> Result<Option<Offer>, NotPlaced> {
    let mut document = document.clone();
    scale(&mut document, pool, i128::from(thousandths)).map_err(|it| NotPlaced::Unclear(it.0))?;
    let known = Some(survey);
    let mut ground =
        Ground::unmapped((&document, text), (rules, wishes), 0.0, known, pause).await?;
    let mut holding = [survey.of(Role::Placed), survey.of(Role::HoldsAnyway)].concat();
    holding.sort_unstable();
    let cells = ground.first_cells();
    let way = fitting(&mut ground.judging, cells, (&holding, &survey.waiting())).await;
    let offer = way.and_then(|way| ground.offer(vec!["another"], way, unit));
    Ok(offer.filter(|offer| offer.holds < super::Class::Open))
}

/// A place where some rules hold as drawn, and none of some others fails. The largest cells are tried first.
async fn fitting(
    judging: &mut Judging<'_>,
    cells: Vec<Spot>,
    (holding, waiting): (&Asked, &Asked),
) -> Option<Way> {
    let first = judging.steps();
    let whole = |cell| (cell, holding.clone());
    let mut queue: VecDeque<(Spot, Asked)> = cells.into_iter().map(whole).collect();
    while let Some((spot, rules)) = queue.pop_front() {
        judging.rest().await;
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
