//! Pools with the same statements: a result that reads nothing drawn of a pool is the same for each of them, and is found
//! once.

use std::collections::BTreeMap;

use crate::check::judge::Judge;
use crate::check::rule::finding::PoolFinding;
use crate::check::world::dependency::Dependency;
use crate::check::world::env::Referent;
use crate::check::{Missing, Part, Subject};
use crate::plan::ThingIndex;
use crate::work;

impl<'a> Judge<'a> {
    /// Finds something for each pool; once for all pools that are alike, where it reads nothing drawn of them.
    pub(crate) fn for_each_pool<T: Reusable>(
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
                all.push(found.moved(*of, index));
                continue;
            }
            let (found, pool_specific) = self.scene.base.watching_pools(|| find(pool));
            if !pool_specific && found.is_reusable() {
                known.insert(like, (index, found.moved(index, index)));
            }
            all.push(found);
        }
        all
    }
}

/// A result for one pool that can be reused for another that is like it.
pub(crate) trait Reusable {
    /// Whether nothing in it depends on the pool's index among the plan's things.
    fn is_reusable(&self) -> bool;
    /// The same for pool `to` in place of pool `from`.
    fn moved(&self, from: ThingIndex, to: ThingIndex) -> Self;
}

impl Reusable for crate::check::Truth {
    fn is_reusable(&self) -> bool {
        true
    }

    fn moved(&self, _: ThingIndex, _: ThingIndex) -> Self {
        *self
    }
}

impl Reusable for PoolFinding {
    fn is_reusable(&self) -> bool {
        let at_places = self.dependencies.iter().any(|it| it.at_place);
        let places = self.parts.iter().flat_map(|part| &part.places);
        !at_places && { places }.all(|place| place.at.is_empty())
    }

    fn moved(&self, from: ThingIndex, to: ThingIndex) -> Self {
        work::step_through(self.dependencies.len());
        let dependencies = self.dependencies.iter().map(|it| Dependency {
            what: missing(it.what, from, to),
            ..it.clone()
        });
        PoolFinding {
            dependencies: dependencies.collect(),
            parts: self.parts.iter().map(|it| part(it, from, to)).collect(),
            ..*self
        }
    }
}

fn part(part: &Part, from: ThingIndex, to: ThingIndex) -> Part {
    work::step_through(part.readings.len());
    let missing = part.missing.iter().map(|what| missing(*what, from, to));
    let mut missing: Vec<Missing> = missing.collect();
    missing.sort();
    Part {
        subject: match part.subject {
            Subject::Thing { index, sure } => Subject::Thing {
                index: replaced(index, from, to),
                sure,
            },
            ref subject => subject.clone(),
        },
        pool: part.pool.map(|pool| replaced(pool, from, to)),
        missing,
        ..part.clone()
    }
}

fn missing(what: Missing, from: ThingIndex, to: ThingIndex) -> Missing {
    let replaced = |thing| replaced(thing, from, to);
    match what {
        Missing::Fact(thing, fact) => Missing::Fact(replaced(thing), fact),
        Missing::Outline(thing, outline) => Missing::Outline(replaced(thing), outline),
        Missing::Accuracy(thing) => Missing::Accuracy(replaced(thing)),
        Missing::Whole(thing, kind) => Missing::Whole(replaced(thing), kind),
        Missing::Document(document, thing) => Missing::Document(document, thing.map(replaced)),
        Missing::FactOfUnseen(..) | Missing::Inventory(_) => what,
    }
}

fn replaced(thing: ThingIndex, from: ThingIndex, to: ThingIndex) -> ThingIndex {
    if thing == from { to } else { thing }
}

#[cfg(test)]
#[path = "alike_tests.rs"]
mod tests;
