//! Splits an uncertain fact that one judgement names twice into its possible values, so that "soft or solid" is not
//! mistaken for "soft and solid".

use std::collections::{BTreeMap, BTreeSet};

use super::facts::FactView;
use super::judge::Judge;
use super::rule::Target;
use super::scene::{Holder, Scene, Touch};
use super::{Missing, Truth};
use crate::ruleset::Rule;
use crate::vocabulary::{FactId, Number};

/// Beyond so many combinations nothing is split: splitting only some would make a more certain plan less decided.
const MOST_CELLS: usize = 64;

/// An uncertain fact of a thing.
pub(crate) type Key = (Holder, FactId);

/// The fact behind something that is missing.
pub(crate) fn key(what: Missing) -> Option<Key> {
    match what {
        Missing::Fact(index, fact) => Some((Holder::Thing(index), fact)),
        Missing::FactOfUnseen(kind, fact) => Some((Holder::Unseen(kind), fact)),
        _ => None,
    }
}

/// The uncertain facts that were named, how often, and the amounts that they were compared with.
pub(crate) fn named(touched: &[Touch]) -> BTreeMap<Key, (usize, BTreeSet<i128>)> {
    let mut named: BTreeMap<Key, (usize, BTreeSet<i128>)> = BTreeMap::new();
    for touch in touched {
        if let Some(key) = key(touch.what) {
            let entry = named.entry(key).or_default();
            entry.0 += 1;
            entry.1.extend(&touch.cuts);
        }
    }
    named
}

/// Every scene in which all of these facts are settled; `None` where there are too many or they cannot be listed.
///
/// Of unseen things there may be many, each with a fact of its own: no one value settles it for all of them.
pub(crate) fn scenes<'a>(
    scene: &Scene<'a>,
    keys: &[(Key, BTreeSet<i128>)],
) -> Option<Vec<Scene<'a>>> {
    let mut cells: Vec<(Key, Vec<FactView>)> = Vec::new();
    let mut total = 1_usize;
    let vocabulary = &scene.rules().vocabulary;
    for ((holder, fact), cuts) in keys {
        if matches!(holder, Holder::Unseen(kind) if vocabulary.kind(*kind).number == Number::Many) {
            continue;
        }
        let own = scene.cells(*holder, *fact, cuts)?;
        total = total.checked_mul(own.len())?;
        cells.push(((*holder, *fact), own));
    }
    if total > MOST_CELLS {
        return None;
    }
    let mut scenes = vec![scene.clone()];
    for ((holder, fact), views) in cells {
        scenes = scenes
            .iter()
            .flat_map(|scene| {
                views
                    .iter()
                    .map(|view| scene.settling(holder, fact, view.clone()))
            })
            .collect();
    }
    Some(scenes)
}

/// What is possible for a subject of a rule, once facts named twice are split.
pub(crate) fn refined<'a>(
    judge: &Judge<'a>,
    rule: &'a Rule,
    target: Target,
    truth: Truth,
    touched: &[Touch],
) -> Truth {
    if !truth.is_open() {
        return truth;
    }
    let twice: Vec<(Key, BTreeSet<i128>)> = named(touched)
        .into_iter()
        .filter(|(_, (times, _))| *times > 1)
        .map(|(key, (_, cuts))| (key, cuts))
        .collect();
    if twice.is_empty() {
        return truth;
    }
    let Some(scenes) = scenes(&judge.scene, &twice) else {
        return truth;
    };
    scenes
        .into_iter()
        .map(|scene| judge.in_scene(scene).look(rule, target).truth)
        .fold(Truth::NONE, Truth::or_else)
}

/// What is possible for a subject of a rule in a scene.
pub(crate) fn truth<'a>(judge: &Judge<'a>, rule: &'a Rule, target: Target) -> Truth {
    judge.scene.take_log();
    let look = judge.look(rule, target);
    let touched = judge.scene.take_log();
    refined(judge, rule, target, look.truth, &touched)
}
