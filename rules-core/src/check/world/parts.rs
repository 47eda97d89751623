//! What is part of what.

use std::iter::successors;

use crate::check::world::env::Referent;
use crate::check::world::scene::Scene;
use crate::check::{Missing, Truth};
use crate::plan::ThingIndex;
use crate::vocabulary::KindId;

impl Scene<'_> {
    /// Whether a thing is part of one of a kind, itself or by way of others. What says nothing may be part of anything;
    /// only two of the same kind are two, unless the plan says that one is part of the other.
    pub(crate) fn is_part(&self, part: Referent, whole: Referent, kind: KindId) -> Truth {
        let index = match (part, whole) {
            (Referent::Absent, _) | (_, Referent::Absent) => return Truth::FAILS,
            (Referent::Unseen(_), _) => return Truth::OPEN,
            (Referent::Thing(index), _) => index,
        };
        let next = |at: &ThingIndex| self.thing(*at)?.part_of;
        if successors(next(&index), next).any(|at| Referent::Thing(at) == whole) {
            return Truth::HOLDS;
        }
        let last = successors(Some(index), next).last().unwrap_or(index);
        let alone = self.thing(last).is_some_and(|thing| thing.stands_alone);
        let last_kind = self.thing(last).map(|thing| thing.kind);
        if alone || last_kind == Some(kind) {
            return Truth::FAILS;
        }
        if last_kind.is_some_and(|last| self.is_of_the_only_pool(last, kind)) {
            return Truth::HOLDS;
        }
        self.depends_on(Missing::Whole(last, kind), true, &[]);
        Truth::OPEN
    }

    /// Whether things of one kind belong to one of another: to the pool, of which the plan has only one.
    fn is_of_the_only_pool(&self, part: KindId, whole: KindId) -> bool {
        let of_a_pool = self.rules().vocabulary.kind(part).of_a_pool;
        of_a_pool && whole == self.base.pool && self.base.pools().len() == 1
    }
}
