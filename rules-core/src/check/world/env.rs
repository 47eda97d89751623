//! Which thing each name stands for while a rule is judged.

use crate::plan::ThingIndex;
use crate::ruleset::Zone;
use crate::vocabulary::KindId;

/// A thing of the plan, or things of a kind that may be there unseen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Referent {
    /// This thing.
    Thing(ThingIndex),
    /// Some thing of this kind that nobody has looked for.
    Unseen(KindId),
    /// There is none of this kind.
    Absent,
}

/// Which thing each kind's own name stands for, innermost first.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Env<'e> {
    kind: Option<KindId>,
    referent: Referent,
    zone: Option<&'e Zone>,
    /// Facts that change along a thing are read over its whole length, not at the place that is judged.
    whole: bool,
    outer: Option<&'e Env<'e>>,
}

impl<'e> Env<'e> {
    /// Nothing is bound.
    pub(crate) const EMPTY: Env<'static> = Env {
        kind: None,
        referent: Referent::Absent,
        zone: None,
        whole: false,
        outer: None,
    };

    /// The same, with facts that change along a thing read over its whole length.
    pub(crate) fn whole(self) -> Env<'e> {
        Env {
            whole: true,
            ..self
        }
    }

    pub(crate) fn is_whole(&self) -> bool {
        self.whole
    }

    /// The same, with this kind's name standing for this thing.
    pub(crate) fn bind(&'e self, kind: KindId, referent: Referent) -> Env<'e> {
        self.bind_in(kind, referent, None)
    }

    /// The same, where only the part of the thing in a zone is meant.
    pub(crate) fn bind_in(
        &'e self,
        kind: KindId,
        referent: Referent,
        zone: Option<&'e Zone>,
    ) -> Env<'e> {
        Env {
            kind: Some(kind),
            referent,
            zone,
            whole: self.whole,
            outer: Some(self),
        }
    }

    /// What was bound before the innermost thing was.
    pub(crate) fn outside(&self) -> &Env<'e> {
        self.outer.unwrap_or(self)
    }

    /// The zone to which this kind's thing is clipped.
    pub(crate) fn zone(&self, kind: KindId) -> Option<&'e Zone> {
        match self.kind {
            Some(own) if own == kind => self.zone,
            _ => self.outer.and_then(|outer| outer.zone(kind)),
        }
    }

    /// What this kind's name stands for.
    pub(crate) fn bound(&self, kind: KindId) -> Option<Referent> {
        match self.kind {
            Some(own) if own == kind => Some(self.referent),
            _ => self.outer.and_then(|outer| outer.bound(kind)),
        }
    }
}

/// The thing behind a referent, where there is one.
pub(crate) fn thing_of(referent: Referent) -> Option<usize> {
    match referent {
        Referent::Thing(index) => Some(index),
        _ => None,
    }
}
