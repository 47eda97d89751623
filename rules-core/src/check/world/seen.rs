//! Looking up the values that a fact can still have in a scene, and noting that it was looked up.

use std::collections::BTreeSet;
use std::rc::Rc;
use std::sync::Arc;

use crate::check::world::dependency::{Dependency, Thresholds};
use crate::check::world::env::{Env, Referent};
use crate::check::world::facts::{FactView, all_that_is_possible};
use crate::check::world::scene::Scene;
use crate::check::{Missing, Truth};
use crate::plan::{Looked, Possible, Words};
use crate::quantity::Interval;
use crate::vocabulary::{FactId, Number};

/// An uncertain fact of a thing, as a whole or at the place that is judged.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Key {
    pub(crate) referent: Referent,
    pub(crate) fact: FactId,
    /// Its value at the place that is judged is meant, where it changes along the thing.
    pub(crate) at_place: bool,
}

/// The values that a fact can still have, looked up once.
pub(crate) struct Seen {
    pub(crate) view: FactView,
    certain: bool,
    /// Whether the plan says anything about it at all.
    stated: bool,
}

impl<'a> Scene<'a> {
    /// The values that a fact can still have. An uncertain fact is noted with the amounts that it is compared with.
    pub(crate) fn fact(&self, id: FactId, env: &Env<'_>, thresholds: &[i128]) -> Rc<Seen> {
        let referent = self.referent(self.rules().vocabulary.fact(id).kind, env);
        let seen = self.known(referent, id);
        self.note_fact((referent, id), &seen, thresholds, false);
        seen
    }

    /// The values that a fact can have: at the place that is judged where it changes along its thing, otherwise anywhere.
    pub(crate) fn fact_here(&self, id: FactId, env: &Env<'_>, thresholds: &[i128]) -> Rc<Seen> {
        let referent = self.referent(self.rules().vocabulary.fact(id).kind, env);
        let seen = self.known(referent, id);
        let key = Key {
            referent,
            fact: id,
            at_place: true,
        };
        let changes = seen.view.along().filter(|_| !env.is_whole());
        let Some(along) = changes else {
            self.note_fact((referent, id), &seen, thresholds, false);
            let here = self.settled(key).filter(|_| !env.is_whole());
            return here.unwrap_or(seen);
        };
        let here = self.settled(key).unwrap_or_else(|| {
            Rc::new(Seen::stated(
                seen.view.between(self.here(referent, id, along)),
            ))
        });
        self.note_fact((referent, id), &here, thresholds, true);
        here
    }

    /// The range over which a fact changes along its thing, where it is read at one place of it.
    pub(crate) fn along(&self, id: FactId, env: &Env<'_>) -> Option<Interval> {
        let referent = self.referent(self.rules().vocabulary.fact(id).kind, env);
        let seen = self.known(referent, id);
        let (least, most) = seen.view.along().filter(|_| !env.is_whole())?;
        Some(least.hull(most))
    }

    /// Whether a fact is one of these amounts somewhere along its thing. Each is between its lowest and its highest. Notes
    /// what is open.
    pub(crate) fn has_between(&self, id: FactId, env: &Env<'_>, amounts: &[i128]) -> Truth {
        let referent = self.referent(self.rules().vocabulary.fact(id).kind, env);
        let Referent::Thing(index) = referent else {
            return Truth::OPEN;
        };
        let assumed = |amount: i128| {
            let mut between = self.between.iter();
            between.find_map(|(own, has)| (*own == (referent, id, amount)).then_some(*has))
        };
        if amounts.iter().any(|amount| assumed(*amount) == Some(true)) {
            return Truth::HOLDS;
        }
        let open = amounts.iter().filter(|amount| assumed(**amount).is_none());
        let between: Thresholds = open.copied().collect();
        if between.is_empty() {
            return Truth::FAILS;
        }
        self.note(&[Dependency {
            what: Missing::Fact(index, id),
            unstated: false,
            at_place: false,
            times: 0,
            thresholds: Thresholds::new(),
            between,
        }]);
        Truth::OPEN
    }

    /// The values that a fact can have: its assumed value, if any, otherwise those the plan allows.
    fn known(&self, referent: Referent, fact: FactId) -> Rc<Seen> {
        let key = Key {
            referent,
            fact,
            at_place: false,
        };
        self.settled(key)
            .unwrap_or_else(|| self.seen(referent, fact))
    }

    /// The values at the place that is judged of a fact that changes between two amounts.
    fn here(&self, referent: Referent, fact: FactId, along: (Interval, Interval)) -> Interval {
        let kind = self.rules().vocabulary.fact(fact).kind;
        self.place.amount(referent, (kind, fact), along)
    }

    /// The same key, turned into one for a single place where the fact may vary along its thing and nothing is stated.
    pub(crate) fn at_one_place(&self, key: Key) -> Key {
        let varies = self.rules().vocabulary.fact(key.fact).varies;
        Key {
            at_place: key.at_place || varies && !self.is_stated(key.referent, key.fact),
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
        (referent, id): (Referent, FactId),
        seen: &Seen,
        thresholds: &[i128],
        at_place: bool,
    ) {
        let what = match referent {
            Referent::Absent => return,
            Referent::Thing(index) => Missing::Fact(index, id),
            Referent::Unseen(kind) => Missing::FactOfUnseen(kind, id),
        };
        if !seen.certain || at_place {
            self.note(&[Dependency {
                what,
                unstated: !seen.stated,
                at_place,
                times: usize::from(!seen.certain),
                thresholds: Thresholds::from_slice(thresholds),
                between: Thresholds::new(),
            }]);
        }
    }

    /// Whether the plan says anything about a fact at all.
    fn is_stated(&self, referent: Referent, id: FactId) -> bool {
        let stated = match referent {
            Referent::Thing(index) => self.thing(index).and_then(|thing| thing.facts.get(&id)),
            _ => None,
        };
        let says = |stated: &Possible| FactView::of_stated(stated, false) != self.unstated(id);
        stated.is_some_and(|stated| stated.span.is_some() && says(stated))
    }

    /// The values that the plan allows for a fact, looked up once.
    fn seen(&self, referent: Referent, id: FactId) -> Rc<Seen> {
        let mut views = self.base.views.borrow_mut();
        let [known, drawn] = &mut *views;
        let views = if self.as_drawn { drawn } else { known };
        let own = self
            .base
            .place(referent)
            .and_then(|place| views.get_mut(place));
        let Some(own) = own else {
            return Rc::new(self.look_up(referent, id));
        };
        if let Some((_, seen)) = own.iter().find(|(fact, _)| *fact == id) {
            return Rc::clone(seen);
        }
        let seen = Rc::new(self.look_up(referent, id));
        own.push((id, Rc::clone(&seen)));
        seen
    }

    fn look_up(&self, referent: Referent, id: FactId) -> Seen {
        let view = self.possible(referent, id);
        let certain = view.is_certain();
        Seen {
            view,
            certain,
            stated: certain || self.is_stated(referent, id),
        }
    }

    fn possible(&self, referent: Referent, id: FactId) -> FactView {
        match referent {
            Referent::Thing(index) => {
                match self.thing(index).and_then(|thing| thing.facts.get(&id)) {
                    Some(possible) => FactView::of_stated(possible, self.as_drawn),
                    None => self.unstated(id),
                }
            }
            // A thing that may not even exist can have any value, or none at all.
            Referent::Unseen(kind) => {
                let mut view = self.unstated(id);
                view.none |= self.rules().vocabulary.kind(kind).number == Number::AtMostOne;
                match self.plan().inventory.get(&kind) {
                    Some(Looked::AllShown(Some(_))) => self.beyond_the_lot(id, view),
                    _ => view,
                }
            }
            Referent::Absent => FactView::NONE,
        }
    }

    /// What a fact can be for a thing that is not on the lot.
    fn beyond_the_lot(&self, id: FactId, mut view: FactView) -> FactView {
        let word = self.rules().vocabulary.fact(id).on_the_lot.as_ref();
        let words = view.words.as_deref();
        if let (Some(word), Some(Words::OneOf(words))) = (word, words) {
            let others = words.iter().filter(|other| *other != word);
            view.words = Some(Arc::new(Words::OneOf(others.cloned().collect())));
        }
        view
    }

    /// All values that a fact can have.
    fn unstated(&self, id: FactId) -> FactView {
        let fact = self.rules().vocabulary.fact(id);
        all_that_is_possible(&fact.answer, fact.none)
    }

    /// Splits a fact at the amounts that it is compared with, or into its possible words.
    pub(crate) fn cells(&self, key: Key, thresholds: &BTreeSet<i128>) -> Option<Vec<FactView>> {
        let seen = self.known(key.referent, key.fact);
        match seen.view.along() {
            Some(along) if key.at_place => {
                let here = self.here(key.referent, key.fact, along);
                seen.view.between(here).cells(thresholds)
            }
            _ => seen.view.cells(thresholds),
        }
    }
}

impl Seen {
    pub(super) fn settled(view: FactView) -> Seen {
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
