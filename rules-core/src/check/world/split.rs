//! Splits an uncertain fact that one judgement names twice into its possible values, so that "soft or solid" is not
//! mistaken for "soft and solid".

use std::collections::{BTreeMap, BTreeSet};

use crate::check::world::dependency::Dependency;
use crate::check::world::env::Referent;
use crate::check::world::facts::FactView;
use crate::check::world::scene::Scene;
use crate::check::world::seen::Key;
use crate::check::{Missing, Truth};
use crate::vocabulary::Number;

/// Beyond so many combinations nothing is split: splitting only some would make a more certain plan less decided.
const MOST_CELLS: usize = 64;

/// The fact behind something that was relied on.
pub(crate) fn key(touch: &Dependency) -> Option<Key> {
    let (referent, fact) = match touch.what {
        Missing::Fact(index, fact) => (Referent::Thing(index), fact),
        Missing::FactOfUnseen(kind, fact) => (Referent::Unseen(kind), fact),
        _ => return None,
    };
    Some(Key {
        referent,
        fact,
        at_place: touch.at_place,
    })
}

/// The uncertain facts that were named, how often, and the amounts that they were compared with.
pub(crate) type Named = BTreeMap<Key, (usize, BTreeSet<i128>)>;

/// All uncertain facts that were named.
pub(crate) fn named(dependencies: &[Dependency]) -> Named {
    let mut named = Named::new();
    for touch in dependencies.iter().filter(|touch| touch.times > 0) {
        if let Some(key) = key(touch) {
            let entry = named.entry(key).or_default();
            entry.0 += touch.times;
            entry.1.extend(&touch.thresholds);
        }
    }
    named
}

/// Every scene in which all of these facts are settled; `None` where there are too many or they cannot be listed.
///
/// Of unseen things there may be many, each with a fact of its own: no one value settles it for all of them.
pub(crate) fn scenes<'s, 'a>(
    scene: &'s Scene<'a>,
    keys: &[(Key, BTreeSet<i128>)],
) -> Option<impl Iterator<Item = Scene<'a>> + use<'s, 'a>> {
    let mut cells: Vec<(Key, Vec<FactView>)> = Vec::new();
    let mut total = 1_usize;
    let vocabulary = &scene.rules().vocabulary;
    for (key, thresholds) in keys {
        if matches!(key.referent, Referent::Unseen(kind) if vocabulary.kind(kind).number == Number::Many)
        {
            continue;
        }
        let own = scene.cells(*key, thresholds)?;
        total = total
            .checked_mul(own.len())
            .filter(|total| *total <= MOST_CELLS)?;
        cells.push((*key, own));
    }
    let stride = stride(total);
    Some((0..total).map(move |number| settled(scene, &cells, number * stride % total)))
}

/// By how much to go on from each combination to the next so that each comes once, and most facts change every time: what
/// differs is found in the first few.
fn stride(total: usize) -> usize {
    let apart = |stride: &usize| gcd(*stride, total) == 1;
    (total * 5 / 8..).find(apart).unwrap_or(1)
}

fn gcd(one: usize, other: usize) -> usize {
    match one.checked_rem(other) {
        None => one,
        Some(rest) => gcd(other, rest),
    }
}

/// One of all the scenes, by its number: the pieces of the last fact change with every number.
fn settled<'a>(scene: &Scene<'a>, cells: &[(Key, Vec<FactView>)], mut number: usize) -> Scene<'a> {
    let mut chosen = Vec::new();
    for (key, views) in cells.iter().rev() {
        let view = views.get(number.checked_rem(views.len()).unwrap_or(0));
        chosen.extend(view.map(|view| (*key, view.clone())));
        number = number.checked_div(views.len()).unwrap_or(0);
    }
    chosen.reverse();
    scene.settling(chosen)
}

/// What is possible, once facts that were named twice are split.
pub(crate) fn refined<'a>(
    scene: &Scene<'a>,
    truth: Truth,
    dependencies: &[Dependency],
    judge: impl Fn(Scene<'a>) -> Truth,
) -> Truth {
    if !truth.is_open() {
        return truth;
    }
    let twice: Vec<(Key, BTreeSet<i128>)> = named(dependencies)
        .into_iter()
        .filter(|(_, (times, _))| *times > 1)
        .map(|(key, (_, thresholds))| (scene.at_one_place(key), thresholds))
        .collect();
    if twice.is_empty() {
        return truth;
    }
    let Some(scenes) = scenes(scene, &twice) else {
        return truth;
    };
    let mut found = Truth::NONE;
    for scene in scenes {
        found = found.or_else(judge(scene));
        // Each scene has some of what was possible before; once all of it is found, there is no more.
        if found == truth {
            break;
        }
    }
    found
}
