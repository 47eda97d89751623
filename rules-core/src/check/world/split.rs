//! Splits an uncertain fact that one judgement uses twice into its possible values, so that "soft or solid" is not
//! mistaken for "soft and solid".

use std::collections::{BTreeMap, BTreeSet};

use crate::check::world::dependency::Dependency;
use crate::check::world::env::Referent;
use crate::check::world::facts::FactView;
use crate::check::world::scene::{Between, Scene};
use crate::check::world::seen::Key;
use crate::check::{Missing, Truth};
use crate::vocabulary::Number;

/// With more combinations than this nothing is split. Splitting only some could leave more open on a more certain plan.
const MOST_CELLS: usize = 64;

/// The fact behind a dependency.
pub(crate) fn key(dependency: &Dependency) -> Option<Key> {
    let (referent, fact) = match dependency.what {
        Missing::Fact(index, fact) => (Referent::Thing(index), fact),
        Missing::FactOfUnseen(kind, fact) => (Referent::Unseen(kind), fact),
        _ => return None,
    };
    Some(Key {
        referent,
        fact,
        at_place: dependency.at_place,
    })
}

/// The uncertain facts that were used, how often, and the amounts that they were compared with.
pub(crate) type Named = BTreeMap<Key, (usize, BTreeSet<i128>)>;

/// All uncertain facts that were used.
pub(crate) fn named(dependencies: &[Dependency]) -> Named {
    let mut named = Named::new();
    for dependency in dependencies.iter().filter(|it| it.times > 0) {
        if let Some(key) = key(dependency) {
            let entry = named.entry(key).or_default();
            entry.0 += dependency.times;
            entry.1.extend(&dependency.thresholds);
        }
    }
    named
}

/// Every scene in which all of these facts have a value; `None` where there are too many or they cannot be listed.
///
/// There may be many unseen things, each with its own value, so no single value settles a fact of theirs.
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

/// The step from one combination to the next. Each combination comes once, and most facts change at each step, so that a
/// difference shows within the first few.
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

/// The scene with this number: the last fact's value changes with every number.
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

/// If there are more such amounts than this, none is split.
const MOST_BETWEEN: usize = 4;

/// The amounts between a lowest and a highest that some place may or may not have; none of them if there are too many.
fn between(dependencies: &[Dependency]) -> Vec<Between> {
    let of_fact = |dependency: &Dependency| {
        let key = key(dependency);
        let amounts = dependency.between.clone().into_iter();
        amounts.filter_map(move |amount| key.map(|key| (key.referent, key.fact, amount)))
    };
    let all: Vec<Between> = dependencies.iter().flat_map(of_fact).collect();
    match all.len() > MOST_BETWEEN {
        true => Vec::new(),
        false => all,
    }
}

/// The scene, once for each combination: for each amount, some place has it or none does.
fn having<'a>(scene: Scene<'a>, between: &[Between]) -> impl Iterator<Item = Scene<'a>> {
    (0..1_usize << between.len()).map(move |number| {
        let numbered = between.iter().enumerate();
        scene.having_between(numbered.map(|(bit, own)| (*own, number >> bit & 1 == 1)))
    })
}

/// The truth after splitting the facts that were used twice, and the amounts that a fact may have between its lowest and its
/// highest.
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
    let between = between(dependencies);
    let by_value = (!twice.is_empty()).then(|| scenes(scene, &twice)).flatten();
    if by_value.is_none() && between.is_empty() {
        return truth;
    }
    let as_it_is = by_value.is_none().then(|| scene.clone());
    let settled = by_value.into_iter().flatten().chain(as_it_is);
    let mut found = Truth::NONE;
    for scene in settled.flat_map(|scene| having(scene, &between)) {
        found = found.or_else(judge(scene));
        // No scene can add to the truth found before, so there is nothing more to find.
        if found == truth {
            break;
        }
    }
    found
}
