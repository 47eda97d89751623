//! The plan as one judgement sees it: what each fact can still be, and what was touched that is not certain.

use std::cell::{Cell, OnceCell, RefCell};
use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

use crate::check::judge::alike::{Alike, alike};
use crate::check::value::Cuts;
use crate::check::value::ground::Spots;
use crate::check::value::way::{Between, Ways};
use crate::check::value::ways_out::WaysOut;
use crate::check::world::facts::{FactView, all_that_is_possible};
use crate::check::world::places::Place;
use crate::check::world::special::Special;
use crate::check::{Missing, Truth};
use crate::measure::{Doubt, Gap, Rectangle};
use crate::plan::{Figure, Looked, Plan, Possible, Thing, ThingIndex};
use crate::quantity::Interval;
use crate::ruleset::{DocumentIndex, RuleSet, Zone};
use crate::vocabulary::{FactId, KindId, Number, OutlineId};
use crate::work;

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
    /// Facts that change along a thing are meant in full, not at the place that is judged.
    whole: bool,
    outer: Option<&'e Env<'e>>,
}

impl<'e> Env<'e> {
    /// Nothing is bound.
    pub(crate) const EMPTY: Env<'static> = Env {
        kind: None,
        holder: Holder::Nobody,
        zone: None,
        whole: false,
        outer: None,
    };

    /// The same, where facts that change along a thing are meant in full.
    pub(crate) fn whole(self) -> Env<'e> {
        Env {
            whole: true,
            ..self
        }
    }

    pub(crate) fn is_whole(&self) -> bool {
        self.whole
    }

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
            whole: self.whole,
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
    /// The kind of pools.
    pool: KindId,
    /// The kind of the lot's sides.
    lot_line: KindId,
    by_kind: Vec<Vec<ThingIndex>>,
    gaps: RefCell<BTreeMap<Ends, Gap>>,
    ways: RefCell<BTreeMap<Between, Rc<Ways>>>,
    pub(crate) ways_out: WaysOut,
    strips: RefCell<BTreeMap<(ThingIndex, bool), Strips>>,
    on_the_lot: RefCell<BTreeMap<(ThingIndex, OutlineId), bool>>,
    /// What was looked up: of each thing, then of what is unseen of each kind; first as known, then as drawn.
    views: RefCell<[Views; 2]>,
    spots: OnceCell<Spots>,
    /// Around each drawn outline of each thing; `None` for one with arcs, which may reach beyond its corners.
    rectangles: OnceCell<Vec<Rectangles>>,
    alike: OnceCell<Alike>,
    /// Whether anything was looked at that may differ between pools that are alike.
    looked: Cell<bool>,
}

/// What lies around each outline of a thing.
type Rectangles = Vec<(OutlineId, Option<Around>)>;

/// What lies around an outline.
#[derive(Clone, Copy)]
pub(crate) struct Around {
    /// The box around it as drawn.
    pub(crate) drawn: Rectangle,
    /// A box that holds it even if it is drawn a little off; `None` if nobody knows how far off it may be.
    pub(crate) known: Option<Rectangle>,
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

/// No more distances than this are remembered.
const MOST_GAPS: usize = 200_000;

/// Lines, and how far off each may be.
pub(crate) type Strips = Rc<[(Figure, Doubt)]>;

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
        let special = Special::of(&rules.vocabulary);
        Base {
            plan,
            rules,
            pool: special.pool,
            lot_line: special.lot_line,
            by_kind,
            gaps: RefCell::default(),
            ways: RefCell::default(),
            ways_out: WaysOut::default(),
            strips: RefCell::default(),
            on_the_lot: RefCell::default(),
            views: RefCell::new([holders.clone(), holders]),
            spots: OnceCell::new(),
            rectangles: OnceCell::new(),
            alike: OnceCell::new(),
            looked: Cell::new(false),
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

    /// All pools, where each is taken by itself.
    pub(crate) fn pools(&self) -> &[ThingIndex] {
        self.drawn_of(self.pool)
    }

    /// The first of the pools that are like this one.
    fn like(&self, pool: ThingIndex) -> ThingIndex {
        let alike = self.alike.get_or_init(|| alike(self.plan, self.pools()));
        alike.get(&pool).copied().unwrap_or(pool)
    }

    /// Takes these as alike.
    #[cfg(test)]
    pub(crate) fn taking_as_alike(&self, alike: Alike) {
        self.alike.set(alike).unwrap();
    }

    /// Notes that what is drawn or filed of a thing is looked at: it may differ between pools that are alike.
    pub(crate) fn look_at(&self, thing: ThingIndex) {
        let thing = self.plan.things.get(thing);
        if thing.is_some_and(|thing| thing.kind == self.pool) {
            self.looked.set(true);
        }
    }

    /// Notes that something was looked at again that may differ between pools that are alike.
    pub(crate) fn looked_again(&self) {
        self.looked.set(true);
    }

    /// Does something, and says whether anything was looked at in it that may differ between pools that are alike.
    pub(crate) fn looking<T>(&self, act: impl FnOnce() -> T) -> (T, bool) {
        let before = self.looked.replace(false);
        let done = act();
        let looked = self.looked.get();
        self.looked.set(before || looked);
        (done, looked)
    }

    /// The things of a kind, in the order of the plan. Whoever asks for all pools may find one before another.
    pub(crate) fn of_kind(&self, kind: KindId) -> &[ThingIndex] {
        if kind == self.pool {
            self.looked.set(true);
        }
        self.drawn_of(kind)
    }

    fn drawn_of(&self, kind: KindId) -> &[ThingIndex] {
        self.by_kind
            .get(usize::from(kind.0))
            .map_or(&[], Vec::as_slice)
    }

    /// The spots of that kind joined to ground, once.
    pub(crate) fn spots(&self, kind: KindId) -> &Spots {
        self.spots
            .get_or_init(|| Spots::of(self, self.of_kind(kind)))
    }

    /// The distance between two outlines as drawn, computed once; of very many pairs the last ones again and again.
    pub(crate) fn gap(&self, ends: Ends, compute: impl FnOnce() -> Gap) -> Gap {
        let mut gaps = self.gaps.borrow_mut();
        match gaps.len() < MOST_GAPS {
            true => *gaps.entry(ends).or_insert_with(compute),
            false => gaps.get(&ends).copied().unwrap_or_else(compute),
        }
    }

    /// Around all that is drawn of an outline; `None` where it is not drawn, has arcs, or is a side of the lot, which is not
    /// measured as it is drawn.
    pub(crate) fn rectangle(&self, thing: ThingIndex, outline: OutlineId) -> Option<Around> {
        let around = |thing: &Thing, figure: &Figure| {
            let drawn = Rectangle::around(figure).filter(|_| thing.kind != self.lot_line)?;
            let off = figure.accuracy.zip(self.plan.shift_of(thing));
            let known = off.map(|(accuracy, shift)| drawn.wider(accuracy.saturating_add(shift)));
            Some(Around { drawn, known })
        };
        let of_thing = |thing: &Thing| {
            let outlines = thing.outlines.iter();
            let each = outlines.map(|(id, figure)| (*id, around(thing, figure)));
            each.collect()
        };
        let all = self
            .rectangles
            .get_or_init(|| self.plan.things.iter().map(of_thing).collect());
        let own = all.get(thing)?.iter().find(|(id, _)| *id == outline);
        own.and_then(|(_, rectangle)| *rectangle)
    }

    /// Whether what is drawn of an outline lies on the lot, found once.
    pub(crate) fn on_the_lot(
        &self,
        outline: (ThingIndex, OutlineId),
        find: impl FnOnce() -> bool,
    ) -> bool {
        *self
            .on_the_lot
            .borrow_mut()
            .entry(outline)
            .or_insert_with(find)
    }

    /// The strips beyond a lot line, as known or as drawn, found once.
    pub(crate) fn strips(&self, line: (ThingIndex, bool), find: impl FnOnce() -> Strips) -> Strips {
        let mut strips = self.strips.borrow_mut();
        Rc::clone(strips.entry(line).or_insert_with(find))
    }

    /// The ways on foot between two outlines, looked for once.
    pub(crate) fn ways(&self, between: Between, search: impl FnOnce() -> Ways) -> Rc<Ways> {
        let mut ways = self.ways.borrow_mut();
        let found = ways.entry(between).or_insert_with(|| Rc::new(search()));
        Rc::clone(found)
    }
}

/// The plan, seen in one way: as it is known, as drawn, with one thing taken as settled, or at one place along its things.
#[derive(Clone)]
pub(crate) struct Scene<'a> {
    pub(crate) base: Rc<Base<'a>>,
    /// Every ± and every accuracy is taken as 0.
    pub(crate) as_drawn: bool,
    /// Facts taken as settled.
    settled: Vec<(Key, Rc<Seen>)>,
    /// The place that is judged, along the things that change.
    place: Rc<Place>,
    /// Kinds of which nothing unseen is taken to be there.
    all_seen: Vec<KindId>,
    /// Kinds of which something unseen is taken to be there.
    some_unseen: Vec<KindId>,
    /// Whether the rule that is judged is taken to apply, where that is settled.
    pub(crate) applies: Option<Truth>,
    /// The authority has not yet said anything that it is free to say.
    pub(crate) leave_open: bool,
    /// Documents taken as in hand or refused, each with the thing that it is for.
    papers: Vec<(DocumentIndex, Option<ThingIndex>, bool)>,
    log: RefCell<Vec<Touch>>,
}

/// An uncertain fact of a thing, or what it is at the place that is judged.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Key {
    pub(crate) holder: Holder,
    pub(crate) fact: FactId,
    /// What it is at the place that is judged, where it changes along the thing.
    pub(crate) at_place: bool,
}

/// Something uncertain that a judgement rests on, and the amounts that it was compared with.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Touch {
    pub(crate) what: Missing,
    /// Nobody stated it, so a person can be asked; else it was stated, but not exactly.
    pub(crate) unstated: bool,
    /// It was read at the place that is judged, as it changes along its thing.
    pub(crate) at_place: bool,
    /// How often; more than twice is as good as twice.
    pub(crate) times: usize,
    pub(crate) cuts: Cuts,
}

impl<'a> Scene<'a> {
    pub(crate) fn new(base: Base<'a>) -> Self {
        Scene {
            base: Rc::new(base),
            as_drawn: false,
            settled: Vec::new(),
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

    /// The same with facts taken as settled.
    pub(crate) fn settling(&self, facts: Vec<(Key, FactView)>) -> Self {
        let mut scene = self.again();
        let facts = facts.into_iter();
        let settled = facts.map(|(key, view)| (key, Rc::new(Seen::settled(view))));
        scene.settled.extend(settled);
        scene
    }

    /// The facts that are settled here and were not in another scene; `None` where more is otherwise.
    pub(crate) fn settled_since(&self, before: &Self) -> Option<Vec<(Holder, FactId)>> {
        let (first, since) = self.settled.split_at_checked(before.settled.len())?;
        let first = first.iter().zip(&before.settled);
        let same = self.as_drawn == before.as_drawn
            && self.leave_open == before.leave_open
            && Rc::ptr_eq(&self.place, &before.place)
            && self.all_seen == before.all_seen
            && self.some_unseen == before.some_unseen
            && self.applies == before.applies
            && self.papers == before.papers
            && first
                .into_iter()
                .all(|(one, other)| Rc::ptr_eq(&one.1, &other.1));
        let since = since.iter().map(|(key, _)| (key.holder, key.fact));
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

    /// A pool, and the first of those that are like it; `None` where something is taken as settled of it alone.
    pub(crate) fn like(&self, pool: Holder) -> Option<(ThingIndex, ThingIndex)> {
        let settled = self.settled.iter().any(|(key, _)| key.holder == pool);
        match pool {
            Holder::Thing(index) if !settled => Some((index, self.base.like(index))),
            _ => None,
        }
    }

    /// Whether every thing of this kind is taken to be seen.
    pub(crate) fn sees_all(&self, kind: KindId) -> bool {
        self.all_seen.contains(&kind)
    }

    /// Whether some of what a holder stands for surely is there.
    pub(crate) fn is_there(&self, holder: Holder) -> bool {
        match holder {
            Holder::Thing(_) => true,
            Holder::Unseen(kind) => self.some_unseen.contains(&kind),
            Holder::Nobody => false,
        }
    }

    /// Notes that a judgement rests on something uncertain.
    pub(crate) fn touch(&self, what: Missing, unstated: bool, cuts: &[i128]) {
        self.note(&[Touch {
            what,
            unstated,
            at_place: false,
            times: 1,
            cuts: Cuts::from_slice(cuts),
        }]);
    }

    /// Notes all that a judgement rests on.
    pub(crate) fn note(&self, touched: &[Touch]) {
        work::corners(NOTED * touched.len());
        self.log.borrow_mut().extend_from_slice(touched);
    }

    /// Does something, and gives what was touched in it, each thing once.
    pub(crate) fn logging<T>(&self, act: impl FnOnce() -> T) -> (T, Vec<Touch>) {
        let before = self.log.take();
        let done = act();
        let touched = self.log.replace(before);
        (done, each_once(touched))
    }

    /// Does something, and counts whatever is touched in it as touched twice.
    pub(crate) fn counting_twice<T>(&self, act: impl FnOnce() -> T) -> T {
        let before = self.log.borrow().len();
        let done = act();
        for touch in self.log.borrow_mut().iter_mut().skip(before) {
            touch.times += touch.times;
        }
        done
    }

    /// What was touched since the log was last taken, each thing once.
    pub(crate) fn take_log(&self) -> Vec<Touch> {
        each_once(self.log.take())
    }

    /// Whom a fact of this kind is about here: the bound thing, else the only one.
    pub(crate) fn holder(&self, kind: KindId, env: &Env<'_>) -> Holder {
        if let Some(holder) = env.bound(kind) {
            return holder;
        }
        if let Some(first) = self.base.of_kind(kind).first() {
            let first = Holder::Thing(*first);
            match self.is_of_the_pool(kind, first, env) {
                Truth::HOLDS => return first,
                Truth::FAILS => return Holder::Nobody,
                _ => return Holder::Unseen(kind),
            }
        }
        let vocabulary = &self.rules().vocabulary;
        match self.looked_for(kind) || vocabulary.kind(kind).number == Number::One {
            true => Holder::Nobody,
            false => Holder::Unseen(kind),
        }
    }

    /// Whether a thing that can only belong to one pool belongs to the one that is meant, if one is: a rule about a pool
    /// passes by no other pool's wall. Whose it is may be left out where there is one pool only.
    pub(crate) fn is_of_the_pool(&self, kind: KindId, holder: Holder, env: &Env<'_>) -> Truth {
        let pools = self.base.pools();
        let (Some(Holder::Thing(meant)), Holder::Thing(index)) =
            (env.bound(self.base.pool), holder)
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
                Truth::of_comparison(true, of_one)
            }
        }
    }

    /// Whether all things of a kind are known to be drawn, however far away.
    fn looked_for(&self, kind: KindId) -> bool {
        let looked = self.base.plan.inventory.get(&kind);
        self.sees_all(kind) || matches!(looked, Some(Looked::None | Looked::AllShown(None)))
    }

    /// What a fact can still be; uncertain ones are noted with the amounts that they are compared with.
    pub(crate) fn fact(&self, id: FactId, env: &Env<'_>, cuts: &[i128]) -> Rc<Seen> {
        let holder = self.holder(self.rules().vocabulary.fact(id).kind, env);
        let seen = self.known(holder, id);
        self.note_fact((holder, id), &seen, cuts, false);
        seen
    }

    /// What a fact can be at the place that is judged, where it changes along its thing; else what it can be at all.
    pub(crate) fn fact_here(&self, id: FactId, env: &Env<'_>, cuts: &[i128]) -> Rc<Seen> {
        let holder = self.holder(self.rules().vocabulary.fact(id).kind, env);
        let seen = self.known(holder, id);
        let key = Key {
            holder,
            fact: id,
            at_place: true,
        };
        let changes = seen.view.along().filter(|_| !env.is_whole());
        let Some(along) = changes else {
            self.note_fact((holder, id), &seen, cuts, false);
            let here = self.settled(key).filter(|_| !env.is_whole());
            return here.unwrap_or(seen);
        };
        let here = self.settled(key).unwrap_or_else(|| {
            Rc::new(Seen::stated(
                seen.view.between(self.here(holder, id, along)),
            ))
        });
        self.note_fact((holder, id), &here, cuts, true);
        here
    }

    /// From what to what a fact changes along its thing, where it is read at one place of it.
    pub(crate) fn along(&self, id: FactId, env: &Env<'_>) -> Option<Interval> {
        let holder = self.holder(self.rules().vocabulary.fact(id).kind, env);
        let seen = self.known(holder, id);
        let (least, most) = seen.view.along().filter(|_| !env.is_whole())?;
        Some(least.hull(most))
    }

    /// What a fact can be, where it is settled or not.
    fn known(&self, holder: Holder, fact: FactId) -> Rc<Seen> {
        let key = Key {
            holder,
            fact,
            at_place: false,
        };
        self.settled(key).unwrap_or_else(|| self.seen(holder, fact))
    }

    /// What a fact that goes from one amount to another can be at the place that is judged.
    fn here(&self, holder: Holder, fact: FactId, along: (Interval, Interval)) -> Interval {
        let kind = self.rules().vocabulary.fact(fact).kind;
        self.place.amount(holder, (kind, fact), along)
    }

    /// The same fact, where nobody said that it is the same all along its thing: at one place of it only.
    pub(crate) fn at_one_place(&self, key: Key) -> Key {
        let varies = self.rules().vocabulary.fact(key.fact).varies;
        Key {
            at_place: key.at_place || varies && !self.is_stated(key.holder, key.fact),
            ..key
        }
    }

    fn settled(&self, key: Key) -> Option<Rc<Seen>> {
        let mut settled = self.settled.iter().rev();
        settled
            .find(|(own, _)| *own == key)
            .map(|(_, seen)| Rc::clone(seen))
    }

    fn note_fact(
        &self,
        (holder, id): (Holder, FactId),
        seen: &Seen,
        cuts: &[i128],
        at_place: bool,
    ) {
        let what = match holder {
            Holder::Nobody => return,
            Holder::Thing(index) => Missing::Fact(index, id),
            Holder::Unseen(kind) => Missing::FactOfUnseen(kind, id),
        };
        if !seen.certain || at_place {
            self.note(&[Touch {
                what,
                unstated: !seen.stated,
                at_place,
                times: usize::from(!seen.certain),
                cuts: Cuts::from_slice(cuts),
            }]);
        }
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
    pub(crate) fn cells(&self, key: Key, cuts: &BTreeSet<i128>) -> Option<Vec<FactView>> {
        let seen = self.known(key.holder, key.fact);
        match seen.view.along() {
            Some(along) if key.at_place => {
                let here = self.here(key.holder, key.fact, along);
                seen.view.between(here).cells(cuts)
            }
            _ => seen.view.cells(cuts),
        }
    }
}

impl Seen {
    fn settled(view: FactView) -> Seen {
        Seen {
            view,
            certain: true,
            stated: true,
        }
    }

    fn stated(view: FactView) -> Seen {
        Seen {
            certain: view.is_certain(),
            view,
            stated: true,
        }
    }
}

/// What is noted takes more room than time: a step of it is fewer corners.
const NOTED: usize = 32;

/// The same touches, each thing once, with how often it was touched in all.
fn each_once(mut touched: Vec<Touch>) -> Vec<Touch> {
    if touched.len() < 2 {
        return touched;
    }
    work::corners(2 * touched.len());
    touched.sort_by_key(|touch| (touch.what, touch.at_place));
    touched.dedup_by(|next, first| {
        let same = (next.what, next.at_place) == (first.what, first.at_place);
        if same {
            first.times += next.times;
            first.unstated |= next.unstated;
            first.cuts.extend(next.cuts.iter().copied());
        }
        same
    });
    for touch in &mut touched {
        touch.times = touch.times.min(2);
        touch.cuts.sort_unstable();
        touch.cuts.dedup();
    }
    touched
}
