//! What a rule is judged for: each thing that it names, for each pool of which it speaks.

use crate::check::judge::{Judge, thing_of};
use crate::check::world::env::{Env, Referent};
use crate::check::{Subject, Truth};
use crate::ruleset::{Rule, Selection};
use crate::vocabulary::KindId;

/// One subject of a rule, and the pool of which it speaks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Target {
    pub(crate) of: Of,
    pub(crate) pool: Option<Referent>,
}

/// A subject of a rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Of {
    /// The plan: the rule has no `each`.
    Plan,
    /// The thing under `each`.
    Thing(Referent),
    /// There is nothing that `each` speaks of: everywhere, or at some place along what changes.
    None { kind: KindId, somewhere: bool },
}

impl Target {
    /// The things of which a rule speaks one by one.
    pub(crate) fn subjects(self) -> Vec<Referent> {
        let thing = match self.of {
            Of::Thing(referent) => Some(referent),
            _ => None,
        };
        thing.into_iter().chain(self.pool).collect()
    }

    /// Whom a part of a finding is about, who is one of those that the rule speaks of as far as `member` says.
    pub(crate) fn subject(self, member: Truth) -> Subject {
        let of_thing = |referent| match referent {
            Referent::Thing(index) => Subject::Thing {
                index,
                sure: member == Truth::HOLDS,
            },
            Referent::Unseen(kind) => Subject::Unseen(kind),
            Referent::Nobody => Subject::Plan,
        };
        match self.of {
            Of::Thing(referent) => of_thing(referent),
            Of::None { kind, .. } => Subject::NoneOf(kind),
            Of::Plan => self.pool.map_or(Subject::Plan, of_thing),
        }
    }

    /// The pool's place among the things of the plan.
    pub(crate) fn pool_index(self) -> Option<usize> {
        self.pool.and_then(thing_of)
    }
}

impl<'a> Judge<'a> {
    /// The pools of which something speaks: each by itself, or none at all.
    pub(crate) fn pools(&self, about_pool: bool) -> Vec<Option<Referent>> {
        let pools = self.scene.base.pools();
        match about_pool && !pools.is_empty() {
            true => pools
                .iter()
                .map(|pool| Some(Referent::Thing(*pool)))
                .collect(),
            false => vec![None],
        }
    }

    /// The subjects of a rule beside one pool: every thing of its kind, drawn or not; the plan where it has no `each`.
    pub(crate) fn targets(&self, rule: &'a Rule, pool: Option<Referent>) -> Vec<Target> {
        let all = match &rule.each {
            None => vec![Of::Plan],
            Some(each) => {
                let things = self.all_of_kind(each.kind).into_iter();
                things.map(|(referent, _)| Of::Thing(referent)).collect()
            }
        };
        all.into_iter().map(|of| Target { of, pool }).collect()
    }

    /// Does something where names stand for a target's things; `each` is what the target was chosen from.
    pub(crate) fn about<T>(
        &self,
        target: Target,
        each: Option<&Selection>,
        act: impl FnOnce(&Env<'_>) -> T,
    ) -> T {
        let outer = Env::EMPTY;
        let with_pool = match target.pool {
            Some(pool) => outer.bind(self.special.pool, pool),
            None => outer,
        };
        match (target.of, each) {
            (Of::Thing(referent), Some(each)) => {
                act(&with_pool.bind_in(each.kind, referent, each.zone.as_deref()))
            }
            (Of::None { kind, .. }, _) => act(&with_pool.bind(kind, Referent::Nobody)),
            _ => act(&with_pool),
        }
    }
}
