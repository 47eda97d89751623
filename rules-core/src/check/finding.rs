//! What is found: every rule's outcome with all that it rests on.

use std::sync::Arc;

use crate::plan::{Point, ThingIndex, Words};
use crate::quantity::{Dimension, Interval, Unit};
use crate::ruleset::{Bound, RuleSet, Value};
use crate::vocabulary::{FactId, KindId, OutlineId};

use super::{Outcome, Truth, Verdict};

/// All that was found about a plan under a rule set.
#[derive(Debug, Clone, PartialEq)]
pub struct Findings<'a> {
    /// What the binding rules together come to.
    pub verdict: Verdict,
    /// One for each rule, in the order of the rule set.
    pub rules: Vec<Finding<'a>>,
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
pub struct Finding<'a> {
    /// The rule's place in the rule set.
    pub rule: usize,
    /// What it comes to.
    pub outcome: Outcome,
    /// What is possible.
    pub truth: Truth,
    /// Whether the rule applies (its `when`): what is possible.
    pub applies: Truth,
    /// One for each thing that the rule is judged for; one without a subject where it has no `each`.
    pub parts: Vec<Part<'a>>,
    /// What is missing to decide it, where it is open; sorted, none twice.
    pub missing: Vec<Missing>,
}

/// What was found for one subject of a rule.
#[derive(Debug, Clone, PartialEq)]
pub struct Part<'a> {
    /// The subject.
    pub subject: Subject,
    /// What it comes to.
    pub outcome: Outcome,
    /// What is possible.
    pub truth: Truth,
    /// What is possible were everything exactly as drawn.
    pub as_drawn: Truth,
    /// What is possible for the requirement alone, without its reliefs.
    pub base: Truth,
    /// What is possible for each relief: whether it is open to this plan, and whether it holds.
    pub reliefs: Vec<ReliefTruth>,
    /// The relief by which it passes or is referred: a place in the rule's list.
    pub relief: Option<usize>,
    /// How much room there is: good is positive. `None` where figures of unlike dimensions were compared.
    pub margin: Option<Margin>,
    /// The readings that decide it: those that fail, or those that are open, or the one nearest to failing.
    pub readings: Vec<Reading<'a>>,
    /// What is missing to decide it, where it is open; sorted, none twice.
    pub missing: Vec<Missing>,
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

/// How much room there is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Margin {
    /// In the dimension's tiny unit; good is positive.
    pub range: Interval,
    /// Of what.
    pub dimension: Dimension,
}

/// One comparison of a value with a bound.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading<'a> {
    /// What was measured.
    pub value: &'a Value,
    /// What it must keep.
    pub bound: &'a Bound,
    /// What it may be; `None` where the value is a word or there is none.
    pub measured: Option<Interval>,
    /// What it is as drawn.
    pub drawn: Option<Interval>,
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
    /// How much room there is.
    pub margin: Option<Margin>,
    /// From where to where it was measured.
    pub witness: Option<Witness>,
    /// By how much the accuracies of both ends together blur it, in nanometres, where it is a distance.
    pub blur: Option<i64>,
}

impl Reading<'_> {
    /// The words that the value may be, in order; empty where it is no word or may be any.
    pub fn possible_words(&self) -> Vec<String> {
        match self.words.as_deref() {
            Some(Words::OneOf(words)) => words.iter().cloned().collect(),
            _ => Vec::new(),
        }
    }
}

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
    /// A document was not asked for yet: its place in the rule set's list.
    Document(usize),
}

/// What a question of class comes to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Decided<'a> {
    /// Its place in the rule set's list.
    pub decision: usize,
    /// Whom it is about.
    pub subject: Subject,
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

/// Gives the rule set's rule behind a finding.
pub fn rule_of<'r>(rules: &'r RuleSet, finding: &Finding<'_>) -> Option<&'r crate::ruleset::Rule> {
    rules.rules.get(finding.rule)
}
