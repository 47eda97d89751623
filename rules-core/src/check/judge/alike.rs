//! Pools of which the same is stated: what looks at nothing that is drawn of a pool comes to the same beside each of them,
//! and is found once.

use std::collections::BTreeMap;

use crate::check::judge::Judge;
use crate::check::judge::rule::BesidePool;
use crate::check::world::dependency::Dependency;
use crate::check::world::env::Referent;
use crate::check::{Missing, Part, Subject};
use crate::plan::{Plan, Possible, Thing, ThingIndex};
use crate::work;

/// For each pool the first of those that are like it.
pub(crate) type Alike = BTreeMap<ThingIndex, ThingIndex>;

/// Which pools are alike. One that is a part of something, or has parts, is like none.
pub(crate) fn alike(plan: &Plan, pools: &[ThingIndex]) -> Alike {
    let part_of = plan.things.iter().filter_map(|thing| thing.part_of);
    let wholes: std::collections::BTreeSet<ThingIndex> = part_of.collect();
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

/// Whether all is the same of two things but where they stand.
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

impl<'a> Judge<'a> {
    /// Does something beside each pool; where it looks at nothing that is drawn of one, once for all that are alike.
    pub(crate) fn beside_each<T: Again>(
        &self,
        about_pool: bool,
        find: impl Fn(Option<Referent>) -> T,
    ) -> Vec<T> {
        let mut known: BTreeMap<ThingIndex, (ThingIndex, T)> = BTreeMap::new();
        let mut all = Vec::new();
        for pool in self.pools(about_pool) {
            let alike = pool.and_then(|pool| self.scene.like(pool));
            let Some((index, like)) = alike else {
                all.push(find(pool));
                continue;
            };
            if let Some((of, found)) = known.get(&like) {
                all.push(found.again(*of, index));
                continue;
            }
            let (found, looked) = self.scene.base.looking(|| find(pool));
            if !looked && found.may_be_taken() {
                known.insert(like, (index, found.again(index, index)));
            }
            all.push(found);
        }
        all
    }
}

/// What can be taken over from one pool to another that is like it.
pub(crate) trait Again {
    /// Whether nothing in it depends on where the pool stands among the plan's things.
    fn may_be_taken(&self) -> bool;
    /// The same beside another pool.
    fn again(&self, of: ThingIndex, is: ThingIndex) -> Self;
}

impl Again for crate::check::Truth {
    fn may_be_taken(&self) -> bool {
        true
    }

    fn again(&self, _: ThingIndex, _: ThingIndex) -> Self {
        *self
    }
}

impl Again for BesidePool {
    fn may_be_taken(&self) -> bool {
        let at_places = self.dependencies.iter().any(|touch| touch.at_place);
        let places = self.parts.iter().flat_map(|part| &part.places);
        !at_places && { places }.all(|place| place.at.is_empty())
    }

    fn again(&self, of: ThingIndex, is: ThingIndex) -> Self {
        work::step_through(self.dependencies.len());
        let dependencies = self.dependencies.iter().map(|touch| Dependency {
            what: missing(touch.what, of, is),
            ..touch.clone()
        });
        BesidePool {
            dependencies: dependencies.collect(),
            parts: self.parts.iter().map(|it| part(it, of, is)).collect(),
            ..*self
        }
    }
}

fn part(part: &Part, of: ThingIndex, is: ThingIndex) -> Part {
    work::step_through(part.readings.len());
    let missing = part.missing.iter().map(|what| missing(*what, of, is));
    let mut missing: Vec<Missing> = missing.collect();
    missing.sort();
    Part {
        subject: match part.subject {
            Subject::Thing { index, sure } => Subject::Thing {
                index: other(index, of, is),
                sure,
            },
            ref subject => subject.clone(),
        },
        pool: part.pool.map(|pool| other(pool, of, is)),
        missing,
        ..part.clone()
    }
}

fn missing(what: Missing, of: ThingIndex, is: ThingIndex) -> Missing {
    let other = |thing| other(thing, of, is);
    match what {
        Missing::Fact(thing, fact) => Missing::Fact(other(thing), fact),
        Missing::Outline(thing, outline) => Missing::Outline(other(thing), outline),
        Missing::Accuracy(thing) => Missing::Accuracy(other(thing)),
        Missing::Document(document, thing) => Missing::Document(document, thing.map(other)),
        Missing::FactOfUnseen(..) | Missing::Inventory(_) => what,
    }
}

fn other(thing: ThingIndex, of: ThingIndex, is: ThingIndex) -> ThingIndex {
    if thing == of { is } else { thing }
}

#[cfg(test)]
#[path = "alike_tests.rs"]
mod tests;
