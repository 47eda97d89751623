//! The findings: every rule's outcome with everything behind it.

pub(super) mod outcome;
pub(super) mod truth;

use std::sync::Arc;

use serde::{Deserialize, Serialize};

use super::{Outcome, Truth, Verdict};
use crate::plan::{Point, ThingIndex, Words};
use crate::quantity::{Dimension, Interval, Unit};
use crate::ruleset::{Bound, Test, Value};
use crate::vocabulary::{FactId, KindId, OutlineId};

/// All findings about a plan under a rule set.
#[derive(Debug, Clone, PartialEq)]
pub struct Findings<'a> {
    /// The verdict of all binding rules together.
    pub verdict: Verdict,
    /// One for each rule, in the order of the rule set.
    pub rules: Vec<Finding>,
    /// The answer to each question of class.
    pub decisions: Vec<Decided<'a>>,
    /// Which documents to gather, in the order of the rule set.
    pub documents: Vec<DocumentNeed>,
    /// Which cautions apply or may apply: indices into the rule set's list.
    pub cautions: Vec<usize>,
    /// Which duties apply or may apply: indices into the rule set's list, each with whether it surely applies.
    pub duties: Vec<(usize, bool)>,
}

/// The finding under one rule.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// The index of the rule in the rule set.
    pub rule: usize,
    /// Its outcome.
    pub outcome: Outcome,
    /// Its truth: what is possible.
    pub truth: Truth,
    /// Its truth if everything is exactly as drawn.
    pub as_drawn: Truth,
    /// Whether the rule applies (its `when`); where it is about a pool, whether it applies to any.
    pub applies: Truth,
    /// One for each thing that the rule is judged for; one for the plan where it has no `each`.
    pub parts: Vec<Part>,
    /// What is missing to decide it, where it is open; sorted, without repeats.
    pub missing: Vec<Missing>,
}

/// The finding for one subject of a rule.
#[derive(Debug, Clone, PartialEq)]
pub struct Part {
    /// The subject.
    pub subject: Subject,
    /// The pool that the rule is about, if it is about one.
    pub pool: Option<ThingIndex>,
    /// Its outcome.
    pub outcome: Outcome,
    /// Its truth: what is possible.
    pub truth: Truth,
    /// Its truth if everything is exactly as drawn.
    pub as_drawn: Truth,
    /// The places along the things that it reads, each judged by itself; just one where nothing changes along them.
    pub places: Vec<PlaceTruth>,
    /// The index in `places` of the place that decides.
    pub deciding: usize,
    /// The index in the rule's list of the relief by which it passes or is referred.
    pub relief: Option<usize>,
    /// How much slack there is; positive is good. `None` where amounts of different dimensions were compared.
    pub margin: Option<Margin>,
    /// The readings that decide it: those that fail, or those that are open, or the one nearest to failing.
    pub readings: Vec<Reading>,
    /// What is missing to decide it, where it is open; sorted, without repeats.
    pub missing: Vec<Missing>,
}

/// The truth at one place along the things that a rule reads.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlaceTruth {
    /// Where it is; empty where nothing changes along the things.
    pub at: Vec<At>,
    /// Whether there surely is such a place.
    pub sure: bool,
    /// Whether the rule applies there.
    pub applies: Truth,
    /// The truth of the requirement alone, without its reliefs.
    pub base: Truth,
    /// For each relief, whether this plan may use it, and whether its requirement holds.
    pub reliefs: Vec<ReliefTruth>,
}

/// A place along a thing, or along each thing of a kind.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct At {
    /// The thing; `None`: each of its kind.
    pub thing: Option<ThingIndex>,
    /// The fact that changes along it.
    pub fact: FactId,
    /// Whether the place is where that is highest; otherwise where it is lowest.
    pub highest: bool,
}

/// The truth of one relief.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ReliefTruth {
    /// Whether its `when` holds.
    pub open: Truth,
    /// Whether all of it holds: `when`, what it requires, and the authority's leave where it needs one.
    pub holds: Truth,
}

/// What a part of a finding is about.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Subject {
    /// The plan as a whole.
    Plan,
    /// There is nothing that the rule is about.
    NoneOf(KindId),
    /// A thing on the plan.
    Thing {
        /// Which thing.
        index: ThingIndex,
        /// Whether the rule is surely about it.
        sure: bool,
    },
    /// Things of this kind that nobody has looked for.
    Unseen(KindId),
}

/// How much slack there is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Margin {
    /// In the dimension's tiny unit; positive is good.
    pub range: Interval,
    /// Its dimension.
    pub dimension: Dimension,
}

/// One comparison of a value with a bound.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// The test that was made.
    pub test: Arc<Test>,
    /// Which of the test's bounds, by index.
    pub bound: usize,
    /// Whether it is under a `not`. The bound here is then the opposite of the rule's own; words are then those not allowed.
    pub negated: bool,
    /// The possible amounts; `None` where the value is a word or there is none.
    pub measured: Option<Interval>,
    /// The amount as drawn.
    pub drawn: Option<Interval>,
    /// The range over which it changes along its thing, where it was read at one place of it.
    pub along: Option<Interval>,
    /// The possible words, where the value is a word.
    pub words: Option<Arc<Words>>,
    /// Whether there may be none.
    pub may_be_none: bool,
    /// The possible limits; `None` for words.
    pub limit: Option<Interval>,
    /// The dimension of the amounts.
    pub dimension: Dimension,
    /// The limit's unit, otherwise the value's.
    pub unit: Option<Unit>,
    /// The truth of the comparison: what is possible.
    pub truth: Truth,
    /// How much slack there is.
    pub margin: Option<Margin>,
    /// From where to where it was measured.
    pub witness: Option<Witness>,
    /// The tolerance of both ends together, in nanometres, where it is a distance.
    pub tolerance: Option<i64>,
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

    /// The bound that it must meet.
    pub fn bound(&self) -> &Bound {
        self.test.bounds.get(self.bound).unwrap_or(&NO_BOUND)
    }

    /// The possible words, in order; empty where the value is not a word or may be any word.
    pub fn possible_words(&self) -> Vec<String> {
        match self.words.as_deref() {
            Some(Words::OneOf(words)) => words.iter().cloned().collect(),
            _ => Vec::new(),
        }
    }
}

/// A bound that nothing meets, for a reading without a bound.
static NO_BOUND: Bound = Bound::Is(Vec::new());

/// The two places between which a distance was taken.
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

/// Something that nobody has stated or looked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Missing {
    /// A fact of a thing.
    Fact(ThingIndex, FactId),
    /// A fact of an unseen thing.
    FactOfUnseen(KindId, FactId),
    /// An outline of a thing was not drawn.
    Outline(ThingIndex, OutlineId),
    /// Nobody has looked for things of this kind, or not far enough.
    Inventory(KindId),
    /// The accuracy of this thing's position is unknown.
    Accuracy(ThingIndex),
    /// Nobody says which thing of this kind this thing is part of.
    Whole(ThingIndex, KindId),
    /// A document has not been requested yet: its index in the rule set's list, and the thing that it is for where there is
    /// one for each.
    Document(usize, Option<ThingIndex>),
}

/// The answer to a question of class.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Decided<'a> {
    /// The index of the question in the rule set's list.
    pub decision: usize,
    /// What it is about.
    pub subject: Subject,
    /// The pool that it is about, if it is about one.
    pub pool: Option<ThingIndex>,
    /// The place along the things that it reads, where the class is not the same all along.
    pub at: Vec<At>,
    /// The classes still possible, in the order of the table. If there is one, it is decided.
    pub classes: Vec<&'a str>,
    /// Whether the authority may have to decide.
    pub refer: bool,
    /// What is missing to decide it.
    pub missing: Vec<Missing>,
}

/// Whether a document is needed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DocumentNeed {
    /// The index of the document in the rule set's list.
    pub document: usize,
    /// The thing that it is for, where there is one for each.
    pub thing: Option<ThingIndex>,
    /// Whether it is needed.
    pub need: Need,
    /// The rules that call for it, by index in the rule set.
    pub rules: Vec<usize>,
    /// Whether the applicant has it already.
    pub state: crate::plan::DocumentState,
}

/// Whether something is needed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Need {
    /// Surely.
    Needed,
    /// It depends on something that is not known yet.
    Perhaps,
    /// Not for this plan.
    NotNeeded,
}
