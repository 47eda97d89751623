//! What is found: every rule's outcome with all that it rests on.

pub(super) mod classes;
pub(super) mod editions;
pub(super) mod outcome;
pub(super) mod papers;

use std::sync::Arc;

use crate::plan::{Point, ThingIndex, Words};
use crate::quantity::{Dimension, Interval, Unit};
use crate::ruleset::{Bound, Test, Value};
use crate::vocabulary::{FactId, KindId, OutlineId};

use super::{Outcome, Truth, Verdict};

/// All that was found about a plan under a rule set.
#[derive(Debug, Clone, PartialEq)]
pub struct Findings<'a> {
    /// What the binding rules together come to.
    pub verdict: Verdict,
    /// One for each rule, in the order of the rule set.
    pub rules: Vec<Finding>,
    /// What each question of class comes to.
    pub decisions: Vec<Decided<'a>>,
    /// Which papers to gather, in the order of the rule set.
    pub documents: Vec<DocumentNeed>,
    /// Which cautions apply or may apply: places in the rule set's list.
    pub cautions: Vec<usize>,
    /// Which duties apply or may apply: places in the rule set's list, and whether surely.
    pub duties: Vec<(usize, bool)>,
}

/// What was found under one rule.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// The rule's place in the rule set.
    pub rule: usize,
    /// What it comes to.
    pub outcome: Outcome,
    /// What is possible.
    pub truth: Truth,
    /// What is possible were everything exactly as drawn.
    pub as_drawn: Truth,
    /// Whether the rule applies (its `when`), to any pool where it speaks of one: what is possible.
    pub applies: Truth,
    /// One for each thing that the rule is judged for; one without a subject where it has no `each`.
    pub parts: Vec<Part>,
    /// What is missing to decide it, where it is open; sorted, none twice.
    pub missing: Vec<Missing>,
}

/// What was found for one subject of a rule.
#[derive(Debug, Clone, PartialEq)]
pub struct Part {
    /// The subject.
    pub subject: Subject,
    /// The pool that the rule speaks of, where it speaks of one.
    pub pool: Option<ThingIndex>,
    /// What it comes to.
    pub outcome: Outcome,
    /// What is possible.
    pub truth: Truth,
    /// What is possible were everything exactly as drawn.
    pub as_drawn: Truth,
    /// The places along the things that it reads, each judged by itself; just one where nothing changes along them.
    pub places: Vec<PlaceTruth>,
    /// The place that decides: a place in that list.
    pub deciding: usize,
    /// The relief by which it passes or is referred: a place in the rule's list.
    pub relief: Option<usize>,
    /// How much slack there is: good is positive. `None` where figures of unlike dimensions were compared.
    pub margin: Option<Margin>,
    /// The readings that decide it: those that fail, or those that are open, or the one nearest to failing.
    pub readings: Vec<Reading>,
    /// What is missing to decide it, where it is open; sorted, none twice.
    pub missing: Vec<Missing>,
}

/// What is possible at one place along the things that a rule reads.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlaceTruth {
    /// Where it is; empty where nothing changes along the things.
    pub at: Vec<At>,
    /// Whether there surely is such a place.
    pub sure: bool,
    /// Whether the rule applies there.
    pub applies: Truth,
    /// What is possible for the requirement alone, without its reliefs.
    pub base: Truth,
    /// For each relief, whether this plan may use it, and whether its requirement holds.
    pub reliefs: Vec<ReliefTruth>,
}

/// A place along a thing, or along each thing of a kind.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct At {
    /// The thing; `None`: each of its kind.
    pub thing: Option<ThingIndex>,
    /// What changes along it.
    pub fact: FactId,
    /// Whether it is where that is highest; else where it is lowest.
    pub highest: bool,
}

/// What is possible for one relief.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ReliefTruth {
    /// Whether its `when` holds.
    pub open: Truth,
    /// Whether all of it holds: `when`, what it requires, and the authority's leave where it needs one.
    pub holds: Truth,
}

/// Whom a part of a finding is about.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Subject {
    /// The plan as a whole.
    Plan,
    /// There is none of the things that the rule speaks of.
    NoneOf(KindId),
    /// A thing on it, and whether it surely is one of those that the rule speaks of.
    Thing {
        /// Which.
        index: ThingIndex,
        /// Whether surely.
        sure: bool,
    },
    /// Things of this kind that nobody has looked for.
    Unseen(KindId),
}

/// How much slack there is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Margin {
    /// In the dimension's tiny unit; good is positive.
    pub range: Interval,
    /// Of what.
    pub dimension: Dimension,
}

/// One comparison of a value with a bound.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// The test that was made.
    pub test: Arc<Test>,
    /// Which of its bounds: a place in its list.
    pub bound: usize,
    /// It stands under a `not`: the bound here is the contrary of the rule's own; of words, those that must not be.
    pub negated: bool,
    /// What it may be; `None` where the value is a word or there is none.
    pub measured: Option<Interval>,
    /// What it is as drawn.
    pub drawn: Option<Interval>,
    /// From what to what it changes along its thing, where it was read at one place of it.
    pub along: Option<Interval>,
    /// The words that it may be, where the value is a word.
    pub words: Option<Arc<Words>>,
    /// Whether it may be that there is none.
    pub may_be_none: bool,
    /// What the limit may be; `None` for words.
    pub limit: Option<Interval>,
    /// Of what.
    pub dimension: Dimension,
    /// The limit's unit, else the value's.
    pub unit: Option<Unit>,
    /// What is possible.
    pub truth: Truth,
    /// How much slack there is.
    pub margin: Option<Margin>,
    /// From where to where it was measured.
    pub witness: Option<Witness>,
    /// By how much the accuracies of both ends together blur it, in nanometres, where it is a distance.
    pub blur: Option<i64>,
}

impl Part {
    /// The place that decides it.
    pub fn place(&self) -> Option<&PlaceTruth> {
        self.places.get(self.deciding)
    }
}

impl Reading {
    /// What was measured.
    pub fn value(&self) -> &Value {
        &self.test.value
    }

    /// What it must keep.
    pub fn bound(&self) -> &Bound {
        self.test.bounds.get(self.bound).unwrap_or(&NO_BOUND)
    }

    /// The words that the value may be, in order; empty where it is no word or may be any.
    pub fn possible_words(&self) -> Vec<String> {
        match self.words.as_deref() {
            Some(Words::OneOf(words)) => words.iter().cloned().collect(),
            _ => Vec::new(),
        }
    }
}

/// A bound that nothing keeps, for a reading that was taken of none.
static NO_BOUND: Bound = Bound::Is(Vec::new());

/// From where to where a distance was taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Witness {
    /// From this place.
    pub from: Point,
    /// To this place.
    pub to: Point,
    /// From this thing.
    pub from_thing: ThingIndex,
    /// Its outline.
    pub from_outline: OutlineId,
    /// To this thing.
    pub to_thing: ThingIndex,
    /// Its outline.
    pub to_outline: OutlineId,
}

/// Something that nobody stated or looked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Missing {
    /// A fact of a thing.
    Fact(ThingIndex, FactId),
    /// A fact of a thing that may be there, unseen.
    FactOfUnseen(KindId, FactId),
    /// An outline of a thing was not drawn.
    Outline(ThingIndex, OutlineId),
    /// Nobody has looked for things of this kind, or not far enough.
    Inventory(KindId),
    /// Nobody knows how far off this thing's position is.
    Accuracy(ThingIndex),
    /// A document was not asked for yet: its place in the rule set's list, and the thing that it is for where there is one
    /// for each.
    Document(usize, Option<ThingIndex>),
}

/// What a question of class comes to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Decided<'a> {
    /// Its place in the rule set's list.
    pub decision: usize,
    /// Whom it is about.
    pub subject: Subject,
    /// The pool that it speaks of, where it speaks of one.
    pub pool: Option<ThingIndex>,
    /// The place along the things that it reads, where the class is not the same all along.
    pub at: Vec<At>,
    /// The classes still possible, in the order of the table. One: decided.
    pub classes: Vec<&'a str>,
    /// Whether it may be the authority's to decide.
    pub refer: bool,
    /// What is missing to decide it.
    pub missing: Vec<Missing>,
}

/// Whether a paper is needed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DocumentNeed {
    /// Its place in the rule set's list.
    pub document: usize,
    /// The thing that it is for, where there is one for each.
    pub thing: Option<ThingIndex>,
    /// Whether it is.
    pub need: Need,
    /// The rules that call for it: their places in the rule set.
    pub rules: Vec<usize>,
    /// Whether the applicant has it already.
    pub state: crate::plan::DocumentState,
}

/// Whether something is needed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Need {
    /// Surely.
    Needed,
    /// It depends on something that is not known yet.
    Perhaps,
    /// Not for this plan.
    NotNeeded,
}
