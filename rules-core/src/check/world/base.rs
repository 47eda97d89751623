//! What stays the same in every scene, and a store of what has been measured.

use std::cell::{Cell, OnceCell, RefCell};
use std::collections::BTreeMap;
use std::rc::Rc;

use crate::check::world::alike::{Alike, alike};
use crate::check::world::env::Referent;
use crate::check::world::seen::Seen;
use crate::check::world::special::Special;
use crate::check::world::spots::Spots;
use crate::check::world::ways::{Between, Ways};
use crate::check::world::ways_out::WaysOut;
use crate::measure::{Gap, Rectangle, Tolerance};
use crate::plan::{Figure, Plan, Thing, ThingIndex};
use crate::ruleset::RuleSet;
use crate::vocabulary::{FactId, KindId, OutlineId};

/// What stays the same in every scene.
pub(crate) struct Base<'a> {
    pub(crate) plan: &'a Plan,
    pub(crate) rules: &'a RuleSet,
    /// The kind of pools.
    pub(super) pool: KindId,
    /// The kind of the lot's sides.
    lot_line: KindId,
    by_kind: Vec<Vec<ThingIndex>>,
    gaps: RefCell<BTreeMap<Ends, Gap>>,
    ways: RefCell<BTreeMap<Between, Rc<Ways>>>,
    pub(crate) ways_out: WaysOut,
    strips: RefCell<BTreeMap<(ThingIndex, bool), Strips>>,
    on_the_lot: RefCell<BTreeMap<(ThingIndex, OutlineId), bool>>,
    /// The facts looked up so far: for each thing, then for the unseen things of each kind; first as known, then as drawn.
    pub(super) views: RefCell<[Views; 2]>,
    spots: OnceCell<Spots>,
    /// The boxes around each drawn outline of each thing; `None` for one with arcs, which may bulge beyond its corners.
    rectangles: OnceCell<Vec<Rectangles>>,
    alike: OnceCell<Alike>,
    /// Whether anything was read that may differ between pools that are alike.
    pool_specific: Cell<bool>,
}

/// The boxes around each outline of a thing.
type Rectangles = Vec<(OutlineId, Option<OutlineBoxes>)>;

/// The boxes around an outline.
#[derive(Clone, Copy)]
pub(crate) struct OutlineBoxes {
    /// The box around it as drawn.
    pub(crate) drawn: Rectangle,
    /// A box that holds it wherever its tolerance allows it to be; `None` if the tolerance is unknown.
    pub(crate) known: Option<Rectangle>,
}

/// The facts looked up, one referent after another.
type Views = Vec<Vec<(FactId, Rc<Seen>)>>;

/// The most distances to remember.
const MOST_GAPS: usize = 200_000;

/// Lines, each with its tolerance.
pub(crate) type Strips = Rc<[(Figure, Tolerance)]>;

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
            pool_specific: Cell::new(false),
        }
    }

    /// The index of a referent in the store of facts.
    pub(super) fn place(&self, referent: Referent) -> Option<usize> {
        match referent {
            Referent::Thing(index) => Some(index),
            Referent::Unseen(kind) => Some(self.plan.things.len() + usize::from(kind.0)),
            Referent::Absent => None,
        }
    }

    /// All pools, for judging each by itself.
    pub(crate) fn pools(&self) -> &[ThingIndex] {
        self.drawn_of(self.pool)
    }

    /// The first of the pools that are the same as this one in all that is stated.
    pub(super) fn like(&self, pool: ThingIndex) -> ThingIndex {
        let alike = self.alike.get_or_init(|| alike(self.plan, self.pools()));
        alike.get(&pool).copied().unwrap_or(pool)
    }

    /// Sets which pools are alike.
    #[cfg(test)]
    pub(crate) fn set_alike(&self, alike: Alike) {
        self.alike.set(alike).unwrap();
    }

    /// Notes that a thing's outline or documents are read: for a pool, these may differ even from a pool that is alike.
    pub(crate) fn note_read(&self, thing: ThingIndex) {
        let thing = self.plan.things.get(thing);
        if thing.is_some_and(|thing| thing.kind == self.pool) {
            self.pool_specific.set(true);
        }
    }

    /// Notes that a result was reused that may differ between pools that are alike.
    pub(crate) fn note_pool_specific(&self) {
        self.pool_specific.set(true);
    }

    /// Runs a function, and says whether it read anything that may differ between pools that are alike.
    pub(crate) fn watching_pools<T>(&self, act: impl FnOnce() -> T) -> (T, bool) {
        let before = self.pool_specific.replace(false);
        let done = act();
        let pool_specific = self.pool_specific.get();
        self.pool_specific.set(before || pool_specific);
        (done, pool_specific)
    }

    /// The things of a kind, in the order of the plan. The list of all pools counts as pool-specific, since a caller may stop
    /// at one of them.
    pub(crate) fn of_kind(&self, kind: KindId) -> &[ThingIndex] {
        if kind == self.pool {
            self.pool_specific.set(true);
        }
        self.drawn_of(kind)
    }

    fn drawn_of(&self, kind: KindId) -> &[ThingIndex] {
        self.by_kind
            .get(usize::from(kind.0))
            .map_or(&[], Vec::as_slice)
    }

    /// The ground surface between the spots of that kind, computed once.
    pub(crate) fn spots(&self, kind: KindId) -> &Spots {
        self.spots
            .get_or_init(|| Spots::of(self, self.of_kind(kind)))
    }

    /// The distance between two outlines as drawn, computed once; when the store is full, computed each time.
    pub(crate) fn gap(&self, ends: Ends, compute: impl FnOnce() -> Gap) -> Gap {
        let mut gaps = self.gaps.borrow_mut();
        match gaps.len() < MOST_GAPS {
            true => *gaps.entry(ends).or_insert_with(compute),
            false => gaps.get(&ends).copied().unwrap_or_else(compute),
        }
    }

    /// The boxes around an outline; `None` where it is not drawn, has arcs, or is a side of the lot, to which distances are
    /// not always the drawn ones.
    pub(crate) fn rectangle(&self, thing: ThingIndex, outline: OutlineId) -> Option<OutlineBoxes> {
        let around = |thing: &Thing, figure: &Figure| {
            let drawn = Rectangle::around(figure).filter(|_| thing.kind != self.lot_line)?;
            let off = figure.accuracy.zip(self.plan.shift_of(thing));
            let known = off.map(|(accuracy, shift)| drawn.wider(accuracy.saturating_add(shift)));
            Some(OutlineBoxes { drawn, known })
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

    /// Whether an outline as drawn lies on the lot, computed once.
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

    /// The strips beyond a lot line, as known or as drawn, computed once.
    pub(crate) fn strips(&self, line: (ThingIndex, bool), find: impl FnOnce() -> Strips) -> Strips {
        let mut strips = self.strips.borrow_mut();
        Rc::clone(strips.entry(line).or_insert_with(find))
    }

    /// The walking routes between two outlines, searched for once.
    pub(crate) fn ways(&self, between: Between, search: impl FnOnce() -> Ways) -> Rc<Ways> {
        let mut ways = self.ways.borrow_mut();
        let found = ways.entry(between).or_insert_with(|| Rc::new(search()));
        Rc::clone(found)
    }
}
