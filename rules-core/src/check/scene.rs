//! The plan as one judgement sees it: what each fact can still be, and what was touched that is not certain.

use std::cell::{OnceCell, RefCell};
use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

use super::Missing;
use super::facts::{FactView, all_that_is_possible};
use super::ground::Spots;
use super::value::Cuts;
use super::way::{Between, Ways};
use crate::measure::Gap;
use crate::plan::{Looked, Plan, Possible, Thing, ThingIndex};
use crate::ruleset::{RuleSet, Zone};
use crate::vocabulary::{FactId, KindId, Number, OutlineId};

/// A thing of the plan, or things of a kind that may be there unseen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Holder {
    /// This thing.
    Thing(ThingIndex),
    /// Some thing of this kind that nobody has looked for.
    Unseen(KindId),
    /// There is none of this kind.
    Nobody,
}

/// Which thing each kind's own name stands for, innermost first.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Env<'e> {
    kind: Option<KindId>,
    holder: Holder,
    zone: Option<&'e Zone>,
    outer: Option<&'e Env<'e>>,
}

impl<'e> Env<'e> {
    /// Nothing is bound.
    pub(crate) const EMPTY: Env<'static> = Env {
        kind: None,
        holder: Holder::Nobody,
        zone: None,
        outer: None,
    };

    /// The same, and this kind's name stands for this thing.
    pub(crate) fn bind(&'e self, kind: KindId, holder: Holder) -> Env<'e> {
        self.bind_in(kind, holder, None)
    }

    /// The same, where only the thing's part in a zone is meant.
    pub(crate) fn bind_in(
        &'e self,
        kind: KindId,
        holder: Holder,
        zone: Option<&'e Zone>,
    ) -> Env<'e> {
        Env {
            kind: Some(kind),
            holder,
            zone,
            outer: Some(self),
        }
    }

    /// The zone to which the thing that this kind's name stands for is clipped.
    pub(crate) fn zone(&self, kind: KindId) -> Option<&'e Zone> {
        match self.kind {
            Some(own) if own == kind => self.zone,
            _ => self.outer.and_then(|outer| outer.zone(kind)),
        }
    }

    /// What this kind's name stands for.
    pub(crate) fn bound(&self, kind: KindId) -> Option<Holder> {
        match self.kind {
            Some(own) if own == kind => Some(self.holder),
            _ => self.outer.and_then(|outer| outer.bound(kind)),
        }
    }
}

/// What stays the same however the plan is seen.
pub(crate) struct Base<'a> {
    pub(crate) plan: &'a Plan,
    pub(crate) rules: &'a RuleSet,
    by_kind: Vec<Vec<ThingIndex>>,
    gaps: RefCell<BTreeMap<Ends, Gap>>,
    ways: RefCell<BTreeMap<Between, Rc<Ways>>>,
    /// What was looked up: of each thing, then of what is unseen of each kind; first as known, then as drawn.
    views: RefCell<[Views; 2]>,
    spots: OnceCell<Spots>,
}

/// What was looked up, of one holder after another.
type Views = Vec<Vec<(FactId, Rc<Seen>)>>;

/// What a fact can still be, looked up once.
pub(crate) struct Seen {
    pub(crate) view: FactView,
    certain: bool,
    /// Whether the plan says anything about it at all.
    stated: bool,
}

/// Two outlines of two things.
pub(crate) type Ends = (ThingIndex, OutlineId, ThingIndex, OutlineId);

impl<'a> Base<'a> {
    pub(crate) fn new(plan: &'a Plan, rules: &'a RuleSet) -> Self {
        let mut by_kind = vec![Vec::new(); rules.vocabulary.kinds().count()];
        for (index, thing) in plan.things.iter().enumerate() {
            if let Some(list) = by_kind.get_mut(usize::from(thing.kind.0)) {
                list.push(index);
            }
        }
        let holders = vec![Vec::new(); plan.things.len() + by_kind.len()];
        Base {
            plan,
            rules,
            by_kind,
            gaps: RefCell::default(),
            ways: RefCell::default(),
            views: RefCell::new([holders.clone(), holders]),
            spots: OnceCell::new(),
        }
    }

    /// The place of a holder among all of whom facts are looked up.
    fn place(&self, holder: Holder) -> Option<usize> {
        match holder {
            Holder::Thing(index) => Some(index),
            Holder::Unseen(kind) => Some(self.plan.things.len() + usize::from(kind.0)),
            Holder::Nobody => None,
        }
    }

    /// The things of a kind, in the order of the plan.
    pub(crate) fn of_kind(&self, kind: KindId) -> &[ThingIndex] {
        self.by_kind
            .get(usize::from(kind.0))
            .map_or(&[], Vec::as_slice)
    }

    /// The spots of that kind joined to ground, once.
    pub(crate) fn spots(&self, kind: KindId) -> &Spots {
        self.spots
            .get_or_init(|| Spots::of(self, self.of_kind(kind)))
    }

    /// The distance between two outlines as drawn, computed once.
    pub(crate) fn gap(&self, ends: Ends, compute: impl FnOnce() -> Gap) -> Gap {
        *self.gaps.borrow_mut().entry(ends).or_insert_with(compute)
    }

    /// The ways on foot between two outlines, looked for once.
    pub(crate) fn ways(&self, between: Between, search: impl FnOnce() -> Ways) -> Rc<Ways> {
        let mut ways = self.ways.borrow_mut();
        let found = ways.entry(between).or_insert_with(|| Rc::new(search()));
        Rc::clone(found)
    }
}

/// The plan, seen in one way: as it is known, as drawn, or with one thing taken as settled.
#[derive(Clone)]
pub(crate) struct Scene<'a> {
    pub(crate) base: Rc<Base<'a>>,
    /// Every ± and every accuracy is taken as 0.
    pub(crate) as_drawn: bool,
    /// Facts taken as settled.
    settled: Vec<(Holder, FactId, Rc<Seen>)>,
    /// Kinds of which nothing unseen is taken to be there.
    all_seen: Vec<KindId>,
    /// Documents taken as in hand or refused.
    papers: Vec<(usize, bool)>,
    log: RefCell<Vec<Touch>>,
}

/// Something uncertain that a judgement rests on, and the amounts that it was compared with.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Touch {
    pub(crate) what: Missing,
    /// Nobody stated it, so a person can be asked; else it was stated, but not exactly.
    pub(crate) unstated: bool,
    pub(crate) cuts: Cuts,
}

impl<'a> Scene<'a> {
    pub(crate) fn new(base: Base<'a>) -> Self {
        Scene {
            base: Rc::new(base),
            as_drawn: false,
            settled: Vec::new(),
            all_seen: Vec::new(),
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

    /// The same with a fact taken as settled.
    pub(crate) fn settling(&self, holder: Holder, fact: FactId, view: FactView) -> Self {
        let mut scene = self.again();
        let settled = Seen {
            view,
            certain: true,
            stated: true,
        };
        scene.settled.push((holder, fact, Rc::new(settled)));
        scene
    }

    /// The same with nothing unseen of this kind.
    pub(crate) fn seeing_all(&self, kind: KindId) -> Self {
        let mut scene = self.again();
        scene.all_seen.push(kind);
        scene
    }

    /// The same with a document in hand or refused.
    pub(crate) fn with_paper(&self, document: usize, in_hand: bool) -> Self {
        let mut scene = self.again();
        scene.papers.push((document, in_hand));
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
    pub(crate) fn paper(&self, document: usize) -> Option<bool> {
        self.papers
            .iter()
            .rev()
            .find(|(own, _)| *own == document)
            .map(|(_, in_hand)| *in_hand)
    }

    /// Whether every thing of this kind is taken to be seen.
    pub(crate) fn sees_all(&self, kind: KindId) -> bool {
        self.all_seen.contains(&kind)
    }

    /// Notes that a judgement rests on something uncertain.
    pub(crate) fn touch(&self, what: Missing, unstated: bool, cuts: &[i128]) {
        self.log.borrow_mut().push(Touch {
            what,
            unstated,
            cuts: Cuts::from_slice(cuts),
        });
    }

    /// Does something, and counts whatever is touched in it as touched twice.
    pub(crate) fn counting_twice<T>(&self, act: impl FnOnce() -> T) -> T {
        let before = self.log.borrow().len();
        let done = act();
        let mut log = self.log.borrow_mut();
        let again: Vec<Touch> = log.iter().skip(before).cloned().collect();
        log.extend(again);
        done
    }

    /// What was touched since the log was last taken.
    pub(crate) fn take_log(&self) -> Vec<Touch> {
        std::mem::take(&mut *self.log.borrow_mut())
    }

    /// Whom a fact of this kind is about here: the bound thing, else the only one.
    pub(crate) fn holder(&self, kind: KindId, env: &Env<'_>) -> Holder {
        if let Some(holder) = env.bound(kind) {
            return holder;
        }
        if let Some(first) = self.base.of_kind(kind).first() {
            return Holder::Thing(*first);
        }
        let vocabulary = &self.rules().vocabulary;
        match self.looked_for(kind) || vocabulary.kind(kind).number == Number::One {
            true => Holder::Nobody,
            false => Holder::Unseen(kind),
        }
    }

    /// Whether all things of a kind are known to be drawn, however far away.
    fn looked_for(&self, kind: KindId) -> bool {
        let looked = self.base.plan.inventory.get(&kind);
        self.sees_all(kind) || matches!(looked, Some(Looked::None | Looked::AllShown(None)))
    }

    /// What a fact can still be; uncertain ones are noted with the amounts that they are compared with.
    pub(crate) fn fact(&self, id: FactId, env: &Env<'_>, cuts: &[i128]) -> Rc<Seen> {
        let fact = self.rules().vocabulary.fact(id);
        let holder = self.holder(fact.kind, env);
        if let Some((_, _, view)) = self
            .settled
            .iter()
            .rev()
            .find(|(who, what, _)| *who == holder && *what == id)
        {
            return view.clone();
        }
        let missing = match holder {
            Holder::Nobody => return self.seen(holder, id),
            Holder::Thing(index) => Missing::Fact(index, id),
            Holder::Unseen(kind) => Missing::FactOfUnseen(kind, id),
        };
        let seen = self.seen(holder, id);
        if !seen.certain {
            self.touch(missing, !seen.stated, cuts);
        }
        seen
    }

    /// Whether the plan says anything about a fact at all.
    fn is_stated(&self, holder: Holder, id: FactId) -> bool {
        let stated = match holder {
            Holder::Thing(index) => self.thing(index).and_then(|thing| thing.facts.get(&id)),
            _ => None,
        };
        let says = |stated: &Possible| FactView::of_stated(stated, false) != self.unstated(id);
        stated.is_some_and(|stated| stated.span.is_some() && says(stated))
    }

    /// What a fact can still be, found once.
    fn seen(&self, holder: Holder, id: FactId) -> Rc<Seen> {
        let mut views = self.base.views.borrow_mut();
        let [known, drawn] = &mut *views;
        let views = if self.as_drawn { drawn } else { known };
        let own = self
            .base
            .place(holder)
            .and_then(|place| views.get_mut(place));
        let Some(own) = own else {
            return Rc::new(self.look_up(holder, id));
        };
        if let Some((_, seen)) = own.iter().find(|(fact, _)| *fact == id) {
            return Rc::clone(seen);
        }
        let seen = Rc::new(self.look_up(holder, id));
        own.push((id, Rc::clone(&seen)));
        seen
    }

    fn look_up(&self, holder: Holder, id: FactId) -> Seen {
        let view = self.possible(holder, id);
        let certain = view.is_certain();
        Seen {
            view,
            certain,
            stated: certain || self.is_stated(holder, id),
        }
    }

    fn possible(&self, holder: Holder, id: FactId) -> FactView {
        match holder {
            Holder::Thing(index) => {
                match self.thing(index).and_then(|thing| thing.facts.get(&id)) {
                    Some(possible) => FactView::of_stated(possible, self.as_drawn),
                    None => self.unstated(id),
                }
            }
            // A thing that may not even be there can have any fact, or none at all.
            Holder::Unseen(kind) => {
                let mut view = self.unstated(id);
                view.none |= self.rules().vocabulary.kind(kind).number == Number::AtMostOne;
                view
            }
            Holder::Nobody => FactView::NONE,
        }
    }

    /// Everything that a fact can be.
    fn unstated(&self, id: FactId) -> FactView {
        let fact = self.rules().vocabulary.fact(id);
        all_that_is_possible(&fact.answer, fact.none)
    }

    /// The pieces into which a fact falls at the amounts that it is compared with, or its possible words.
    pub(crate) fn cells(
        &self,
        holder: Holder,
        id: FactId,
        cuts: &BTreeSet<i128>,
    ) -> Option<Vec<FactView>> {
        self.seen(holder, id).view.cells(cuts)
    }
}
