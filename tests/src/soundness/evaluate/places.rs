//! The pool that a rule is about, and the places along things: a rule is judged for every pool, and for every choice of
//! one piece of each varying thing.

use std::collections::BTreeSet;

use rules_core::ruleset::{Decision, Relief, Rule, RuleSet};
use rules_core::vocabulary::{FactId, KindId};

use super::{Found, Scene, Undecided};
use crate::soundness::cuts::{Reads, Speaks};
use crate::soundness::walk;
use crate::soundness::world::{Being, Held, World};

/// The most choices of pieces to go through.
const MOST: usize = 1000;

/// The facts that a rule reads.
pub(super) fn read_by_rule(rule: &Rule) -> BTreeSet<FactId> {
    let mut reads = Reads::default();
    walk::rule(rule, &mut reads);
    reads.0
}

/// The facts that a decision reads.
pub(super) fn read_by_decision(decision: &Decision) -> BTreeSet<FactId> {
    let mut reads = Reads::default();
    walk::decision(decision, &mut reads);
    reads.0
}

/// Whether one of these facts varies along a thing.
pub(super) fn changes(thing: &Being, reads: &BTreeSet<FactId>) -> bool {
    let mut along = thing
        .facts
        .iter()
        .filter(|(_, held)| matches!(held, Held::Along(_)));
    along.any(|(fact, _)| reads.contains(fact))
}

/// Whether a fact that a rule reads varies along a thing.
pub fn changes_along(world: &World, rule: &Rule) -> bool {
    let reads = read_by_rule(rule);
    world.things.iter().any(|thing| changes(thing, &reads))
}

/// Whether a relief refers to the thing that a kind's name stands for.
pub fn speaks_of(rules: &RuleSet, relief: &Relief, kind: KindId) -> bool {
    let mut speaks = Speaks::of(rules, kind);
    for requirement in relief.when.iter().chain([&relief.require]) {
        walk::requirement(requirement, &mut speaks);
    }
    speaks.found
}

/// A pool bound to the name of its kind; `None` if nothing is bound.
pub(super) type Pool = Option<(KindId, usize)>;

impl Scene<'_> {
    /// The pools for which a rule is judged, one by one.
    pub(super) fn pools(&self, about_pool: bool) -> Vec<Pool> {
        let kind = self.rules.vocabulary.kind_named("pool");
        match kind.filter(|_| about_pool) {
            None => vec![None],
            Some(kind) => self
                .world
                .of_kind(kind)
                .map(|pool| Some((kind, pool)))
                .collect(),
        }
    }

    /// Judges something for every pool, if it is about a pool, and for every choice of a piece of each thing.
    pub(super) fn everywhere<T>(
        &mut self,
        about_pool: bool,
        reads: &BTreeSet<FactId>,
        mut judge: impl FnMut(&mut Self, Option<usize>) -> Found<T>,
    ) -> Found<Vec<T>> {
        let world = self.world;
        let along: Vec<usize> = (0..world.things.len())
            .filter(|thing| changes(&world.things[*thing], reads))
            .collect();
        let choices: usize = along
            .iter()
            .map(|thing| world.things[*thing].pieces())
            .product();
        if choices > MOST {
            return Err(Undecided::NotKnown);
        }
        let mut all = Vec::new();
        for choice in 0..choices {
            let mut left = choice;
            for thing in &along {
                let pieces = world.things[*thing].pieces();
                self.places[*thing] = left % pieces;
                left /= pieces;
            }
            for pool in self.pools(about_pool) {
                self.bound.extend(pool);
                all.push(judge(self, pool.map(|(_, thing)| thing))?);
                self.bound
                    .truncate(self.bound.len() - usize::from(pool.is_some()));
            }
        }
        Ok(all)
    }
}
