//! The plan as one judgement sees it: as it is known, as drawn, with something assumed, or at one place.

use std::cell::RefCell;
use std::rc::Rc;

use crate::check::Truth;
use crate::check::world::base::Base;
use crate::check::world::dependency::Dependency;
use crate::check::world::env::{Env, Referent};
use crate::check::world::facts::FactView;
use crate::check::world::places::Place;
use crate::check::world::seen::{Key, Seen};
use crate::plan::{Looked, Plan, Thing, ThingIndex};
use crate::ruleset::{DocumentIndex, RuleSet};
use crate::vocabulary::{FactId, KindId, Number};

/// An amount between the lowest and the highest of a fact that changes along its thing.
pub(crate) type Between = (Referent, FactId, i128);

/// The plan, seen in one way: as it is known, as drawn, with something assumed, or at one place along its things.
#[derive(Clone)]
pub(crate) struct Scene<'a> {
    pub(crate) base: Rc<Base<'a>>,
    /// Every ± and every accuracy is taken as 0.
    pub(crate) as_drawn: bool,
    /// Facts whose value is assumed.
    pub(super) settled: Vec<(Key, Rc<Seen>)>,
    /// Amounts between a fact's lowest and its highest, each with whether some place along the thing is assumed to have it.
    pub(super) between: Vec<(Between, bool)>,
    /// The place that is judged, along the things that change.
    pub(super) place: Rc<Place>,
    /// Kinds assumed to have nothing unseen.
    all_seen: Vec<KindId>,
    /// Kinds assumed to have something unseen.
    some_unseen: Vec<KindId>,
    /// Whether the rule that is judged is assumed to apply; `None` where that is not assumed.
    pub(crate) applies: Option<Truth>,
    /// The authority has not yet said anything that it is free to say.
    pub(crate) leave_open: bool,
    /// Documents assumed to be in hand or refused, each with the thing that it is for.
    papers: Vec<(DocumentIndex, Option<ThingIndex>, bool)>,
    pub(super) log: RefCell<Vec<Dependency>>,
}

impl<'a> Scene<'a> {
    pub(crate) fn new(base: Base<'a>) -> Self {
        Scene {
            base: Rc::new(base),
            as_drawn: false,
            settled: Vec::new(),
            between: Vec::new(),
            place: Rc::default(),
            all_seen: Vec::new(),
            some_unseen: Vec::new(),
            applies: None,
            leave_open: false,
            papers: Vec::new(),
            log: RefCell::default(),
        }
    }

    fn again(&self) -> Self {
        Scene {
            log: RefCell::default(),
            ..self.clone()
        }
    }

    /// The same with every ± and every accuracy taken as 0.
    pub(crate) fn drawn_exactly(&self) -> Self {
        Scene {
            as_drawn: true,
            ..self.again()
        }
    }

    /// The same with the values of facts assumed.
    pub(crate) fn settling(&self, facts: Vec<(Key, FactView)>) -> Self {
        let mut scene = self.again();
        let facts = facts.into_iter();
        let settled = facts.map(|(key, view)| (key, Rc::new(Seen::settled(view))));
        scene.settled.extend(settled);
        scene
    }

    /// The same, with an assumption for each amount: some place has it, or none does.
    pub(crate) fn having_between(&self, between: impl Iterator<Item = (Between, bool)>) -> Self {
        let mut scene = self.again();
        scene.between.extend(between);
        scene
    }

    /// The facts that are settled here but not in an earlier scene; `None` where the scenes differ in anything else.
    pub(crate) fn settled_since(&self, before: &Self) -> Option<Vec<(Referent, FactId)>> {
        let (first, since) = self.settled.split_at_checked(before.settled.len())?;
        let first = first.iter().zip(&before.settled);
        let same = self.as_drawn == before.as_drawn
            && self.leave_open == before.leave_open
            && self.between == before.between
            && Rc::ptr_eq(&self.place, &before.place)
            && self.all_seen == before.all_seen
            && self.some_unseen == before.some_unseen
            && self.applies == before.applies
            && self.papers == before.papers
            && first
                .into_iter()
                .all(|(one, other)| Rc::ptr_eq(&one.1, &other.1));
        let since = since.iter().map(|(key, _)| (key.referent, key.fact));
        same.then(|| since.collect())
    }

    /// The same at one place along the things that change.
    pub(crate) fn at(&self, place: Place) -> Self {
        Scene {
            place: Rc::new(place),
            ..self.again()
        }
    }

    /// The same with nothing unseen of this kind.
    pub(crate) fn seeing_all(&self, kind: KindId) -> Self {
        let mut scene = self.again();
        scene.all_seen.push(kind);
        scene
    }

    /// The same with something unseen of this kind.
    pub(crate) fn having_unseen(&self, kind: KindId) -> Self {
        let mut scene = self.again();
        scene.some_unseen.push(kind);
        scene
    }

    /// The same where the rule that is judged applies in this way.
    pub(crate) fn applying(&self, applies: Truth) -> Self {
        Scene {
            applies: Some(applies),
            ..self.again()
        }
    }

    /// The same where the authority has not yet said anything that it is free to say.
    pub(crate) fn leaving_open(&self) -> Self {
        Scene {
            leave_open: true,
            ..self.again()
        }
    }

    /// The same with a document in hand or refused.
    pub(crate) fn with_paper(
        &self,
        (document, thing): (DocumentIndex, Option<ThingIndex>),
        in_hand: bool,
    ) -> Self {
        let mut scene = self.again();
        scene.papers.push((document, thing, in_hand));
        scene
    }

    pub(crate) fn plan(&self) -> &'a Plan {
        self.base.plan
    }

    pub(crate) fn rules(&self) -> &'a RuleSet {
        self.base.rules
    }

    pub(crate) fn thing(&self, index: ThingIndex) -> Option<&'a Thing> {
        self.base.plan.things.get(index)
    }

    /// Whether a document was taken as in hand or refused here.
    pub(crate) fn paper(&self, document: DocumentIndex, thing: Option<ThingIndex>) -> Option<bool> {
        self.papers
            .iter()
            .rev()
            .find(|(own, of, _)| (*own, *of) == (document, thing))
            .map(|(_, _, in_hand)| *in_hand)
    }

    /// A pool, and the first of the pools that are like it; `None` where something is assumed of this pool alone.
    pub(crate) fn like(&self, pool: Referent) -> Option<(ThingIndex, ThingIndex)> {
        let settled = self.settled.iter().any(|(key, _)| key.referent == pool);
        let between = self.between.iter().any(|((own, ..), _)| *own == pool);
        match pool {
            Referent::Thing(index) if !settled && !between => Some((index, self.base.like(index))),
            _ => None,
        }
    }

    /// Whether every thing of this kind is assumed to be on the plan.
    pub(crate) fn sees_all(&self, kind: KindId) -> bool {
        self.all_seen.contains(&kind)
    }

    /// Whether what a referent stands for surely exists.
    pub(crate) fn is_there(&self, referent: Referent) -> bool {
        match referent {
            Referent::Thing(_) => true,
            Referent::Unseen(kind) => self.some_unseen.contains(&kind),
            Referent::Absent => false,
        }
    }

    /// The thing that a fact of this kind is about here: the bound thing, else the only one.
    pub(crate) fn referent(&self, kind: KindId, env: &Env<'_>) -> Referent {
        if let Some(referent) = env.bound(kind) {
            return referent;
        }
        let mut perhaps = false;
        for thing in self.base.of_kind(kind) {
            let thing = Referent::Thing(*thing);
            match self.is_of_the_pool(kind, thing, env) {
                Truth::HOLDS => return thing,
                Truth::FAILS => {}
                _ => perhaps = true,
            }
        }
        if perhaps {
            return Referent::Unseen(kind);
        }
        let vocabulary = &self.rules().vocabulary;
        match self.looked_for(kind) || vocabulary.kind(kind).number == Number::One {
            true => Referent::Absent,
            false => Referent::Unseen(kind),
        }
    }

    /// Whether a thing belongs to the pool that is meant, if one is. A rule about one pool must not pass because of another
    /// pool's wall. With a single pool on the plan, everything is taken to belong to it.
    pub(crate) fn is_of_the_pool(&self, kind: KindId, referent: Referent, env: &Env<'_>) -> Truth {
        let pools = self.base.pools();
        let (Some(Referent::Thing(meant)), Referent::Thing(index)) =
            (env.bound(self.base.pool), referent)
        else {
            return Truth::HOLDS;
        };
        if pools.len() < 2 {
            return Truth::HOLDS;
        }
        let whole = self.thing(index).and_then(|thing| thing.part_of);
        match whole.filter(|whole| pools.contains(whole)) {
            Some(whole) => Truth::of_comparison(whole == meant, whole != meant),
            None => {
                let of_one = self.rules().vocabulary.kind(kind).of_a_pool;
                let alone = self.thing(index).is_some_and(|thing| thing.stands_alone);
                Truth::of_comparison(!(alone && of_one), of_one)
            }
        }
    }

    /// Whether all things of a kind are known to be drawn, however far away.
    fn looked_for(&self, kind: KindId) -> bool {
        let looked = self.base.plan.inventory.get(&kind);
        self.sees_all(kind) || matches!(looked, Some(Looked::None | Looked::AllShown(None)))
    }
}
