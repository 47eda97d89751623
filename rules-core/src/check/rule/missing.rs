//! Finds what is missing to decide something: only what would help if it were known.

use std::collections::BTreeSet;

use crate::check::judge::Judge;
use crate::check::rule::target::Target;
use crate::check::world::dependency::Dependency;
use crate::check::world::env::Referent;
use crate::check::world::scene::Scene;
use crate::check::world::seen::Key;
use crate::check::world::split;
use crate::check::{Missing, Truth};
use crate::ruleset::Rule;

/// With more unstated things than this, all are named and none is tried by itself. To try one, the whole rule is judged again,
/// and it may be about just as many things.
const MOST_TRIED: usize = 64;

/// What is missing to decide a rule for one subject.
pub(crate) fn for_part<'a>(
    judge: &Judge<'a>,
    (rule, target): (&'a Rule, Target),
    truth: Truth,
    dependencies: &[Dependency],
    decided_as_drawn: bool,
) -> Vec<Missing> {
    let helps = |scene: Scene<'a>| {
        let known = judge.in_scene(scene).truth_of(rule, target);
        known != truth && known.within(truth)
    };
    among(&judge.scene, dependencies, decided_as_drawn, helps)
}

/// The unstated dependencies that help if known; where none helps alone, all of them.
pub(crate) fn among<'a>(
    scene: &Scene<'a>,
    dependencies: &[Dependency],
    decided_as_drawn: bool,
    helps: impl Fn(Scene<'a>) -> bool,
) -> Vec<Missing> {
    let candidates: BTreeSet<Missing> = dependencies
        .iter()
        .filter(|dependency| dependency.unstated)
        .map(|dependency| dependency.what)
        .collect();
    let candidates: Vec<Missing> = candidates
        .iter()
        .copied()
        .filter(|what| !is_of_unseen(*what, &candidates))
        .collect();
    if candidates.len() > MOST_TRIED {
        return candidates;
    }
    let named = split::named(dependencies);
    let useful: Vec<Missing> = candidates
        .iter()
        .copied()
        .filter(|what| {
            settled(scene, *what, &named).is_none_or(|scenes| scenes.into_iter().any(&helps))
        })
        .collect();
    match useful.is_empty() && !decided_as_drawn {
        true => candidates,
        false => useful,
    }
}

/// There is no point in asking about an unseen thing before asking whether there is one.
fn is_of_unseen(what: Missing, all: &BTreeSet<Missing>) -> bool {
    match what {
        Missing::FactOfUnseen(kind, _) => all.contains(&Missing::Inventory(kind)),
        _ => false,
    }
}

/// The scenes in which something missing is known, one for each way it may come out; `None` where they cannot be listed.
fn settled<'a>(scene: &Scene<'a>, what: Missing, named: &split::Named) -> Option<Vec<Scene<'a>>> {
    let fact = |referent, fact| {
        let key = Key {
            referent,
            fact,
            at_place: false,
        };
        let thresholds = named.get(&key).map(|(_, thresholds)| thresholds.clone());
        split::scenes(scene, &[(key, thresholds.unwrap_or_default())]).map(Iterator::collect)
    };
    match what {
        Missing::Fact(index, id) => fact(Referent::Thing(index), id),
        Missing::FactOfUnseen(kind, id) => fact(Referent::Unseen(kind), id),
        Missing::Inventory(kind) => Some(vec![scene.seeing_all(kind)]),
        Missing::Document(document, thing) => Some(vec![
            scene.with_paper((document, thing), true),
            scene.with_paper((document, thing), false),
        ]),
        Missing::Outline(..) | Missing::Accuracy(..) | Missing::Whole(..) => None,
    }
}
