//! The height of an outline above the ground, according to its row in the vocabulary.

use crate::check::judge::Judge;
use crate::check::value::distance::End;
use crate::check::world::env::{Env, Referent};
use crate::check::world::facts::AmountView;
use crate::plan::Words;
use crate::quantity::Interval;
use crate::vocabulary::Height::{self, *};
use crate::vocabulary::{FactId, OutlineId, Role, Vocabulary};

/// The vertical extent of an outline above the ground; bottom and top may vary along it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Extent {
    pub(crate) bottom: VaryingHeight,
    pub(crate) top: VaryingHeight,
}

/// A height that may vary along a thing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct VaryingHeight {
    pub(crate) least: Interval,
    pub(crate) most: Interval,
}

impl VaryingHeight {
    pub(crate) const fn of(range: Interval) -> VaryingHeight {
        VaryingHeight {
            least: range,
            most: range,
        }
    }

    /// Something that varies within a range, and of which these are the ranges at some places: its least is no more, and its
    /// most no less, than at any of them.
    pub(crate) fn within(
        all: Interval,
        places: impl IntoIterator<Item = Interval>,
    ) -> VaryingHeight {
        let (mut least, mut most) = (all, all);
        for place in places {
            least.high = least.high.min(place.high);
            most.low = most.low.max(place.low);
        }
        VaryingHeight { least, most }
    }

    /// All heights that it may have anywhere.
    pub(crate) fn hull(self) -> Interval {
        self.least.hull(self.most)
    }

    /// Applies a function to both.
    pub(crate) fn map(self, change: impl Fn(Interval) -> Interval) -> VaryingHeight {
        VaryingHeight {
            least: change(self.least),
            most: change(self.most),
        }
    }
}

impl Extent {
    /// The vertical gap between two things, each of which takes up everything between its lowest and its highest place.
    pub(crate) fn rise(&self, other: &Extent) -> Interval {
        let over = |one: &Extent, two: &Extent| one.bottom.hull().sub(two.top.hull());
        over(self, other)
            .max(over(other, self))
            .max(Interval::exact(0))
    }

    /// The difference in height between the highest place of one and the lowest of the other, whichever way is greater.
    pub(crate) fn most_apart(&self, other: &Extent) -> Interval {
        let over = |one: &Extent, two: &Extent| one.top.most.sub(two.bottom.least);
        over(self, other)
            .max(over(other, self))
            .max(Interval::exact(0))
    }

    /// The same as levels, given the level of the ground below it.
    pub(crate) fn upon(self, ground: Interval) -> Extent {
        Extent {
            bottom: self.bottom.map(|height| height.add(ground)),
            top: self.top.map(|height| height.add(ground)),
        }
    }
}

/// The facts that say how high an outline lies: its own kind's, and the pool's where its rim is what counts.
pub(crate) fn facts_of_height(outline: OutlineId, vocabulary: &Vocabulary) -> Vec<FactId> {
    let pool = vocabulary.with_role(Role::Pool);
    let rim = pool.and_then(|pool| vocabulary.fact_named(pool, "height-above-ground"));
    let (bottom, top) = heights_of(outline, vocabulary);
    let facts = [bottom, top].into_iter().flat_map(|height| {
        let by_rim = matches!(height, Rim | UpToRim | OverRim(_) | OverGroundOrRim(_));
        height.facts().chain(rim.filter(|_| by_rim))
    });
    facts.collect()
}

fn heights_of(outline: OutlineId, vocabulary: &Vocabulary) -> (Height<FactId>, Height<FactId>) {
    let outline = vocabulary.outline(outline);
    let height = || vocabulary.fact_named(outline.kind, "height");
    let by_height = || height().map_or((Unknown, Unknown), |height| (UpTo(height), At(height)));
    outline.lie.extent.unwrap_or_else(by_height)
}

impl<'a> Judge<'a> {
    /// The vertical extent of an outline above the ground, as seen from another thing.
    pub(crate) fn extent(&self, end: &End<'_>, other: &End<'_>, env: &Env<'_>) -> Extent {
        let (bottom, top) = self.heights_of(end);
        let height = |height| match height {
            OnItsSide(inside, outside) => self.on_its_side(end, other, (inside, outside), env),
            height => self.height(height, end, env),
        };
        Extent {
            bottom: height(bottom),
            top: height(top),
        }
    }

    /// A fence's height above the ground on the side of the other thing; the outside height where that thing has no side.
    fn on_its_side(
        &self,
        end: &End<'_>,
        other: &End<'_>,
        (inside, outside): (FactId, FactId),
        env: &Env<'_>,
    ) -> VaryingHeight {
        let vocabulary = &self.scene.rules().vocabulary;
        let kind = vocabulary.outline(other.outline).kind;
        let own = |fact| self.varying_height(fact, end.referent, env);
        let Some(side) = vocabulary.fact_named(kind, "barrier-side") else {
            return own(outside);
        };
        let seen = self.scene.fact(side, &env.bind(kind, other.referent), &[]);
        let may_be = |side: &str| match seen.view.words.as_deref() {
            Some(Words::OneOf(words)) => words.iter().any(|word| word == side),
            _ => true,
        };
        match (may_be("inside"), may_be("outside")) {
            (true, false) => own(inside),
            (false, true) => own(outside),
            _ => VaryingHeight::of(own(inside).hull().hull(own(outside).hull())),
        }
    }

    fn heights_of(&self, end: &End<'_>) -> (Height<FactId>, Height<FactId>) {
        heights_of(end.outline, &self.scene.rules().vocabulary)
    }

    fn height(&self, height: Height<FactId>, end: &End<'_>, env: &Env<'_>) -> VaryingHeight {
        let ground = Interval::exact(0);
        let own = |fact| self.varying_height(fact, end.referent, env);
        let from_ground = |fact| VaryingHeight::of(own(fact).hull().hull(ground));
        match height {
            Ground => VaryingHeight::of(ground),
            At(fact) => own(fact),
            Below(fact) => own(fact).map(Interval::neg),
            UpTo(fact) => from_ground(fact),
            DownTo(fact) => from_ground(fact).map(Interval::neg),
            About(fact) => VaryingHeight::of(own(fact).hull().hull(own(fact).hull().neg())),
            Between(low, high) | OnItsSide(low, high) => {
                VaryingHeight::of(own(low).hull().hull(own(high).hull()))
            }
            Rim => self.rim(end, env),
            UpToRim => VaryingHeight::of(self.rim(end, env).hull().hull(ground)),
            OverRim(fact) => {
                let rim = self.rim(end, env).hull();
                own(fact).map(|over| over.add(rim))
            }
            OverGroundOrRim(fact) => {
                let base = self.rim(end, env).hull().hull(ground);
                own(fact).map(|over| over.add(base))
            }
            Deep => VaryingHeight::of(Interval::up_to(0)),
            High => VaryingHeight::of(Interval::from_low(0)),
            Unknown => VaryingHeight::of(Interval::any()),
        }
    }

    /// The height that a fact of a thing states.
    pub(crate) fn varying_height(
        &self,
        fact: FactId,
        referent: Referent,
        env: &Env<'_>,
    ) -> VaryingHeight {
        let kind = self.scene.rules().vocabulary.fact(fact).kind;
        let seen = self.scene.fact(fact, &env.bind(kind, referent), &[]);
        let reach = |AmountView { least, most, .. }| VaryingHeight { least, most };
        seen.view
            .amount
            .map_or(VaryingHeight::of(Interval::any()), reach)
    }

    /// The height of the pool's rim above the ground: of this pool, otherwise of any pool.
    fn rim(&self, end: &End<'_>, env: &Env<'_>) -> VaryingHeight {
        let (pool, vocabulary) = (self.special.pool, &self.scene.rules().vocabulary);
        let Some(fact) = vocabulary.fact_named(pool, "height-above-ground") else {
            return VaryingHeight::of(Interval::any());
        };
        if vocabulary.outline(end.outline).kind == pool {
            return self.varying_height(fact, end.referent, env);
        }
        let pools = self.all_of_kind(pool, env).into_iter();
        let rims = pools.map(|(pool, _)| self.varying_height(fact, pool, env));
        rims.reduce(|one, two| VaryingHeight::of(one.hull().hull(two.hull())))
            .unwrap_or(VaryingHeight::of(Interval::exact(0)))
    }
}
