//! Which pools have the same statements.

use std::collections::{BTreeMap, BTreeSet};

use crate::plan::{Plan, Possible, Thing, ThingIndex};
use crate::work;

/// For each pool, the first of the pools that are like it.
pub(crate) type Alike = BTreeMap<ThingIndex, ThingIndex>;

/// Which pools are alike. A pool that is part of something, or has parts, is like no other.
pub(crate) fn alike(plan: &Plan, pools: &[ThingIndex]) -> Alike {
    let part_of = plan.things.iter().filter_map(|thing| thing.part_of);
    let wholes: BTreeSet<ThingIndex> = part_of.collect();
    let mut first: Vec<(ThingIndex, &Thing)> = Vec::new();
    let mut alike = Alike::new();
    for &pool in pools {
        let Some(thing) = plan.things.get(pool) else {
            continue;
        };
        work::step_through(first.len());
        let by_itself = thing.part_of.is_none() && !wholes.contains(&pool);
        let known = first
            .iter()
            .find(|(_, other)| by_itself && are_alike(thing, other));
        let known = known.map_or(pool, |(known, _)| *known);
        alike.insert(pool, known);
        if known == pool && by_itself {
            first.push((pool, thing));
        }
    }
    alike
}

/// Whether two things are the same in everything but their place.
fn are_alike(one: &Thing, other: &Thing) -> bool {
    let facts = || one.facts.iter().zip(&other.facts);
    one.facts.len() == other.facts.len()
        && facts().all(|((fact, one), (of_other, other))| fact == of_other && says_same(one, other))
        && one.lacks == other.lacks
        && one.outlines.keys().eq(other.outlines.keys())
}

fn says_same(one: &Possible, other: &Possible) -> bool {
    (one.none, &one.amount, &one.words) == (other.none, &other.amount, &other.words)
        && one.span.is_some() == other.span.is_some()
}
