//! What a rule is judged for: each thing that it names, with each pool that it is about.

use crate::check::judge::Judge;
use crate::check::world::env::{Env, Referent, thing_of};
use crate::check::{Subject, Truth};
use crate::ruleset::{Rule, Selection};
use crate::vocabulary::KindId;

/// One subject of a rule, and the pool that the rule is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Target {
    pub(crate) subject: TargetSubject,
    pub(crate) pool: Option<Referent>,
}

/// A subject of a rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum TargetSubject {
    /// The plan: the rule has no `each`.
    Plan,
    /// The thing under `each`.
    Thing(Referent),
    /// There is nothing that `each` selects: anywhere, or (`somewhere`) at some place along what changes.
    None { kind: KindId, somewhere: bool },
}

impl Target {
    /// The things that a rule is about one by one.
    pub(crate) fn subjects(self) -> Vec<Referent> {
        let thing = match self.subject {
            TargetSubject::Thing(referent) => Some(referent),
            _ => None,
        };
        thing.into_iter().chain(self.pool).collect()
    }

    /// The subject as a finding reports it; `member` is whether the rule is about it.
    pub(crate) fn reported(self, member: Truth) -> Subject {
        let of_thing = |referent| match referent {
            Referent::Thing(index) => Subject::Thing {
                index,
                sure: member == Truth::HOLDS,
            },
            Referent::Unseen(kind) => Subject::Unseen(kind),
            Referent::Absent => Subject::Plan,
        };
        match self.subject {
            TargetSubject::Thing(referent) => of_thing(referent),
            TargetSubject::None { kind, .. } => Subject::NoneOf(kind),
            TargetSubject::Plan => self.pool.map_or(Subject::Plan, of_thing),
        }
    }

    /// The pool's index among the things of the plan.
    pub(crate) fn pool_index(self) -> Option<usize> {
        self.pool.and_then(thing_of)
    }
}

impl<'a> Judge<'a> {
    /// The pools for which a rule about one pool is judged in turn; a single `None` if it is not about one pool.
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

    /// The subjects of a rule for one pool: everything of its kind, seen or unseen, or the plan where it has no `each`.
    pub(crate) fn targets(&self, rule: &'a Rule, pool: Option<Referent>) -> Vec<Target> {
        let all = match &rule.each {
            None => vec![TargetSubject::Plan],
            Some(each) => {
                let things = self.all_of_kind(each.kind, &self.of_pool(pool)).into_iter();
                things
                    .map(|(referent, _)| TargetSubject::Thing(referent))
                    .collect()
            }
        };
        let target = |subject| Target { subject, pool };
        all.into_iter().map(target).collect()
    }

    /// Where "the pool" stands for this one.
    fn of_pool(&self, pool: Option<Referent>) -> Env<'static> {
        match pool {
            Some(pool) => Env::EMPTY.bind(self.special.pool, pool),
            None => Env::EMPTY,
        }
    }

    /// Runs a function where names stand for a target's things; `each` is the selection that the target came from.
    pub(crate) fn about<T>(
        &self,
        target: Target,
        each: Option<&Selection>,
        act: impl FnOnce(&Env<'_>) -> T,
    ) -> T {
        let with_pool = self.of_pool(target.pool);
        match (target.subject, each) {
            (TargetSubject::Thing(referent), Some(each)) => {
                act(&with_pool.bind_in(each.kind, referent, each.zone.as_deref()))
            }
            (TargetSubject::None { kind, .. }, _) => act(&with_pool.bind(kind, Referent::Absent)),
            _ => act(&with_pool),
        }
    }
}
