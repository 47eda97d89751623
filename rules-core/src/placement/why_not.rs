//! Why a pool fits nowhere: a smallest set of rules that together rule out the whole lot.
//!
//! Each set that does so has to rule out each place, so it has at least one of the rules that fail there. From the places
//! tried so far, the smallest set of rules with one for each place is found, and then the cells are gone through: either
//! the set rules out every cell, or there is a place that it leaves, which is tried next. So no smaller set would do, and
//! for each rule of the set one of the places tried is left if that rule is dropped.

use std::collections::VecDeque;

use super::Ground;
use super::judging::{Asked, Judging, View};
use super::model::{RuleNeeded, WhyNot};
use super::papers::Given;
use super::spot::{Spot, Way};
use crate::quantity::Unit;

/// The most places to try before giving up.
const MOST_PLACES: usize = 200;
/// The most rules in a set.
const MOST_RULES: usize = 8;
/// Cells of no more than this, in millimetres, are cut no further.
const SMALLEST: i64 = 20;
/// The most steps to take for one turn.
const MOST_STEPS: u64 = 5_000_000;

/// A place of the pool at one turn.
type Place = (usize, Way);

/// Rules that together rule out the lot, at all turns tried.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Conflict {
    /// The rules, without those that every rule set has.
    pub rules: Asked,
    /// For each of them, a place that none of the others rules out.
    pub places: Vec<Place>,
    /// The area of the cells for which this is not proved, in square millimetres.
    pub unproved: i64,
    /// Whether they rule out the lot however inaccurate the drawing is; otherwise they do as drawn.
    pub sure: bool,
}

/// Why nothing fits with no paper that is not in hand, and, where nothing fits even so, with all of them.
pub(super) async fn why_not(grounds: &mut [Ground<'_>], unit: Unit) -> Vec<WhyNot> {
    let many = grounds.first().map_or(0, |it| it.judging.papers().len());
    let mut given = vec![Given::NONE, Given::all(many)];
    given.dedup();
    let mut found = Vec::new();
    for given in given {
        found.extend(why_not_given(grounds, given, unit).await);
    }
    found
}

async fn why_not_given(grounds: &mut [Ground<'_>], given: Given, unit: Unit) -> Option<WhyNot> {
    let mut rules: Asked = grounds.iter().flat_map(Ground::mapped).collect();
    rules.sort_unstable();
    rules.dedup();
    let give = |grounds: &mut [Ground<'_>], given| {
        grounds.iter_mut().for_each(|it| it.judging.give(given));
    };
    give(grounds, given);
    let found = conflict(grounds, &rules).await;
    give(grounds, Given::AsStated);
    let found = found?;
    let needed = |(rule, (at, way)): (&usize, &Place)| {
        let ground = grounds.get(*at)?;
        Some(RuleNeeded {
            rule: ground.name(*rule),
            degrees: ground.degrees,
            way: *way,
            middle: ground.middle(*way, unit),
        })
    };
    Some(WhyNot {
        with: grounds.first()?.paper_names(given),
        rules: found
            .rules
            .iter()
            .zip(&found.places)
            .filter_map(needed)
            .collect(),
        sure: found.sure,
        unproved: found.unproved as f64 / 1e6,
    })
}

/// A smallest set of these rules that rules out the lot; `None` where there is a place at which none of them fails, or
/// where the search takes too long.
pub(super) async fn conflict(grounds: &mut [Ground<'_>], rules: &Asked) -> Option<Conflict> {
    let mut tried: Vec<(Place, Asked)> = Vec::new();
    while tried.len() < MOST_PLACES {
        let set = smallest(&tried)?;
        let place = match left(grounds, View::Drawn, &set).await {
            Ok(unproved) => {
                return Some(Conflict {
                    places: places(&set, &tried),
                    unproved,
                    sure: unproved == 0 && left(grounds, View::Possible, &set).await == Ok(0),
                    rules: set,
                });
            }
            Err(place) => place,
        };
        let ground = grounds.get_mut(place.0)?;
        let spot = Spot::only(place.1);
        let fails = ground.judging.left(View::Drawn, spot, rules).fail;
        if fails.is_empty() {
            return None;
        }
        tried.push((place, fails));
    }
    None
}

/// For each rule of a set, a place tried that only it rules out.
fn places(set: &Asked, tried: &[(Place, Asked)]) -> Vec<Place> {
    let only = |rule: &usize| {
        let mut tried = tried.iter();
        let found = tried.find(|(_, fails)| {
            let mut of_set = fails.iter().filter(|it| set.contains(it));
            of_set.next() == Some(rule) && of_set.next().is_none()
        });
        found.map(|(place, _)| *place)
    };
    set.iter().filter_map(only).collect()
}

/// A smallest set of rules with at least one of those that fail at each place; `None` where more rules are needed than
/// are looked for.
fn smallest(tried: &[(Place, Asked)]) -> Option<Asked> {
    (0..=MOST_RULES).find_map(|most| hitting(tried, &Asked::new(), most))
}

/// Adds up to so many rules to a set, so that it has one for each place.
fn hitting(tried: &[(Place, Asked)], set: &Asked, most: usize) -> Option<Asked> {
    let missed = tried
        .iter()
        .find(|(_, fails)| !fails.iter().any(|rule| set.contains(rule)));
    let Some((_, fails)) = missed else {
        return Some(set.clone());
    };
    let less = most.checked_sub(1)?;
    fails.iter().find_map(|rule| {
        let mut more = set.clone();
        more.push(*rule);
        more.sort_unstable();
        hitting(tried, &more, less)
    })
}

/// The area of the cells that a set, with the rules that are always there, is not proved to rule out, in square
/// millimetres.
///
/// # Errors
/// A place at which none of its rules fails.
async fn left(grounds: &mut [Ground<'_>], view: View, set: &Asked) -> Result<i64, Place> {
    let mut unproved = 0_i64;
    for (at, ground) in grounds.iter_mut().enumerate() {
        let cells = ground.first_cells();
        let judging = &mut ground.judging;
        let rules = [judging.built_in(), set.clone()].concat();
        let area = left_at(judging, cells, view, &rules)
            .await
            .map_err(|way| (at, way))?;
        unproved = unproved.saturating_add(area);
    }
    Ok(unproved)
}

async fn left_at(
    judging: &mut Judging<'_>,
    cells: Vec<Spot>,
    view: View,
    rules: &Asked,
) -> Result<i64, Way> {
    let first = judging.steps();
    let mut unproved = 0_i64;
    let mut queue: VecDeque<(Spot, Asked)> = cells
        .into_iter()
        .map(|cell| (cell, rules.clone()))
        .collect();
    while let Some((spot, rules)) = queue.pop_front() {
        judging.rest().await;
        if judging.steps().saturating_sub(first) > MOST_STEPS {
            unproved = unproved.saturating_add(spot.area());
            continue;
        }
        let Some(open) = judging.open_in(view, spot, &rules) else {
            continue;
        };
        let middle = Spot::only(spot.middle());
        if judging.open_in(view, middle, &open).is_some() {
            return Err(spot.middle());
        }
        match spot.size > SMALLEST && spot.size % 2 == 0 {
            true => queue.extend(spot.quarters().map(|quarter| (quarter, open.clone()))),
            false => unproved = unproved.saturating_add(spot.area()),
        }
    }
    Ok(unproved)
}
