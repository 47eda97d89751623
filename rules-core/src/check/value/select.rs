//! Which things a selection surely contains, which it may contain, and whether any of them are unseen.

use crate::check::judge::Judge;
use crate::check::judge::members::{Listed, Members};
use crate::check::world::env::{Env, Referent};
use crate::check::{Missing, Truth};
use crate::plan::Looked;
use crate::ruleset::{Selection, Zone};
use crate::vocabulary::{KindId, Number};

impl<'a> Judge<'a> {
    /// The members of a selection.
    pub(crate) fn members(&self, selection: &'a Selection, env: &Env<'_>) -> Members {
        match selection.closed {
            Some(scope) => self.term_members((scope, selection), env),
            None => self.selected(selection, env),
        }
    }

    /// The thing that is meant here, if the selection contains it; all members, where no thing is meant.
    pub(crate) fn meant_member(&self, selection: &'a Selection, env: &Env<'_>) -> Members {
        let Some(meant) = env.bound(selection.kind) else {
            return self.members(selection, env);
        };
        let find = |inner: &Env<'_>| self.chosen(selection, [meant].into_iter(), inner);
        match selection.closed {
            Some(scope) => self.within(scope, env, find),
            None => find(env),
        }
    }

    pub(crate) fn selected(&self, selection: &'a Selection, env: &Env<'_>) -> Members {
        let kind = selection.kind;
        // With nothing to narrow it, and no pool, everything of the kind is a member.
        if selection.is_all() && env.bound(self.special.pool).is_none() {
            return Members {
                list: self.all_of_kind(kind, env),
            };
        }
        let drawn = self
            .scene
            .base
            .of_kind(kind)
            .iter()
            .map(|index| Referent::Thing(*index));
        let unseen = self
            .may_be_unseen(kind, env)
            .then_some(Referent::Unseen(kind));
        self.chosen(selection, drawn.chain(unseen), env)
    }

    /// The members of a selection among some things.
    fn chosen(
        &self,
        selection: &'a Selection,
        things: impl Iterator<Item = Referent>,
        env: &Env<'_>,
    ) -> Members {
        let kind = selection.kind;
        let mut list = Listed::new();
        for referent in things {
            let inner = env.bind(kind, referent);
            // Membership matters twice: the thing itself is judged, and the selection is then not empty.
            let within = self
                .scene
                .counting_twice(|| self.is_in(selection, referent, &inner));
            if within == Truth::FAILS {
                continue;
            }
            let sure = within == Truth::HOLDS && self.scene.is_there(referent);
            if matches!(referent, Referent::Unseen(_)) {
                self.scene.depends_on(Missing::Inventory(kind), true, &[]);
            }
            list.push((referent, sure));
        }
        Members { list }
    }

    /// Everything of a kind, seen or unseen.
    pub(crate) fn all_of_kind(&self, kind: KindId, env: &Env<'_>) -> Listed {
        let drawn = self
            .scene
            .base
            .of_kind(kind)
            .iter()
            .map(|index| (Referent::Thing(*index), true));
        let mut all: Listed = drawn.collect();
        if self.may_be_unseen(kind, env) {
            self.scene.depends_on(Missing::Inventory(kind), true, &[]);
            let unseen = Referent::Unseen(kind);
            all.push((unseen, self.scene.is_there(unseen)));
        }
        all
    }

    /// Whether there may be things of a kind that are not drawn. Of a cover there is at most one for each pool.
    pub(crate) fn may_be_unseen(&self, kind: KindId, env: &Env<'_>) -> bool {
        let number = self.scene.rules().vocabulary.kind(kind).number;
        let own = |thing: &usize| {
            self.scene
                .is_of_the_pool(kind, Referent::Thing(*thing), env)
                == Truth::HOLDS
        };
        let drawn = || self.scene.base.of_kind(kind).iter().any(own);
        if number == Number::One || (number == Number::AtMostOne && drawn()) {
            return false;
        }
        if self.scene.sees_all(kind) || self.is_always_drawn(kind) {
            return false;
        }
        match self.scene.plan().inventory.get(&kind) {
            Some(Looked::None | Looked::AllShown(None)) => false,
            Some(Looked::AllShown(Some(_))) | None => true,
        }
    }

    /// The lot's sides and the pools are what the plan is about, so all of them are drawn.
    fn is_always_drawn(&self, kind: KindId) -> bool {
        kind == self.special.lot_line || kind == self.special.pool
    }

    pub(crate) fn is_in(
        &self,
        selection: &'a Selection,
        referent: Referent,
        inner: &Env<'_>,
    ) -> Truth {
        let own = self.scene.is_of_the_pool(selection.kind, referent, inner);
        if own == Truth::FAILS {
            return own;
        }
        let part = match selection.part_of {
            Some(kind) => own.and(self.is_part(referent, kind, inner.outside())),
            None => own,
        };
        if part == Truth::FAILS {
            return part;
        }
        let zone = match &selection.zone {
            Some(zone) => part.and(self.in_zone(zone, selection.kind, referent, inner)),
            None => part,
        };
        if zone == Truth::FAILS {
            return zone;
        }
        match &selection.filter {
            Some(filter) => zone.and(self.truth(filter, inner)),
            None => zone,
        }
    }

    /// Whether a thing is part of the one for which a kind's name stands.
    fn is_part(&self, part: Referent, kind: KindId, env: &Env<'_>) -> Truth {
        let whole = self.scene.referent(kind, env);
        self.scene.is_part(part, whole, kind)
    }

    /// Whether any part of a thing lies in a zone.
    pub(crate) fn in_zone(
        &self,
        zone: &'a Zone,
        kind: KindId,
        referent: Referent,
        env: &Env<'_>,
    ) -> Truth {
        match zone {
            Zone::Named { zone, .. } => self.in_zone(zone, kind, referent, env),
            Zone::Around { of, by } => self.is_near(of, by, (kind, referent), env),
            Zone::Inside(of) => self.is_inside(of, kind, referent, env),
            Zone::Not(_) | Zone::Between(..) | Zone::Corner { .. } => {
                self.has_part_in(zone, kind, referent, env)
            }
        }
    }
}
