//! What a plan says: things, each with what it is known to be.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use serde::{Deserialize, Serialize};

use super::Figure;
use crate::quantity::Interval;
use crate::text::Span;
use crate::vocabulary::{FactId, KindId, Matter, OutlineId};

/// A thing's place in [`Plan::things`].
pub type ThingIndex = usize;
/// A source's place in [`Plan::sources`].
pub type SourceIndex = usize;

/// A plan, read and found valid.
#[derive(Debug, Clone, PartialEq)]
pub struct Plan {
    /// A short name.
    pub id: String,
    /// What the plan is called in reports.
    pub title: String,
    /// Where north lies, if that is stated: the angle from the file's y axis to it, with the clock, in billionths of a degree.
    pub north: Option<i128>,
    /// Where positions come from.
    pub sources: Vec<Source>,
    /// All things: those that are always there (the lot, the applicant, the works, the days on which something
    /// happened, the answers to the rule set's own questions), then the lot's sides, then all others in the order of
    /// the file. Every kind of number `One` has just one thing here.
    pub things: Vec<Thing>,
    /// What was looked for. A kind that is not here was not checked.
    pub inventory: BTreeMap<KindId, Looked>,
    /// Tape readings between two things.
    pub measured: Vec<Taped>,
    /// Documents, by id. One that is not here was not asked for yet.
    pub documents: BTreeMap<String, Papers>,
    /// The matters of which somebody who knows has said how they stand here.
    pub answered: BTreeMap<Matter, Answered>,
    /// Where the plan's own origin lies in the file's coordinates, in nanometres.
    pub origin: (i128, i128),
    /// The unit of its coordinates and of bare numbers; `None` if each number has its own.
    pub unit: Option<crate::quantity::Unit>,
}

impl Plan {
    /// How far all that a thing's source drew may be shifted; `None` where nobody knows. What has no source may come from
    /// any, also from one that nobody listed.
    pub fn shift_of(&self, thing: &Thing) -> Option<i64> {
        self.sources.get(thing.source?)?.shift
    }

    /// Whether two things shift together: they are one, or of one source.
    pub fn shift_together(&self, one: ThingIndex, other: ThingIndex) -> bool {
        let source = |index: ThingIndex| self.things.get(index)?.source;
        one == other || source(one).is_some() && source(one) == source(other)
    }
}

/// Where positions come from: things of one source shift together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Source {
    /// Its id in the plan.
    pub id: String,
    /// `survey`, `plat`, `deed`, `map`, `fence`, `guess`, `design`, `tape`, `designated`.
    pub by: String,
    /// How far off a thing may be inside it.
    pub accuracy: Option<i64>,
    /// How far the whole may be shifted against other sources.
    pub shift: Option<i64>,
}

/// One thing on the plan.
#[derive(Debug, Clone, PartialEq)]
pub struct Thing {
    /// Its id in the plan.
    pub id: String,
    /// What people call it, where that is written.
    pub name: Option<String>,
    /// What kind of thing.
    pub kind: KindId,
    /// The thing that it is part of (a side of its lot, a window of its wall, a gate of its run).
    pub part_of: Option<ThingIndex>,
    /// The plan says that it is part of nothing (`part-of: none`).
    pub stands_alone: bool,
    /// Where its position comes from.
    pub source: Option<SourceIndex>,
    /// What is drawn of it. An outline that is missing here is somewhere, nobody said where.
    pub outlines: BTreeMap<OutlineId, Figure>,
    /// The outlines that it surely is without (a pool without a deck).
    pub lacks: BTreeSet<OutlineId>,
    /// What is stated of it. A fact that is missing here was not stated.
    pub facts: BTreeMap<FactId, Possible>,
    /// Where the plan's file speaks of it.
    pub span: Span,
}

impl Thing {
    /// What it is called: its name, or else its id.
    pub fn called(&self) -> &str {
        self.name.as_deref().unwrap_or(&self.id)
    }
}

/// What was looked for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Looked {
    /// There is none.
    None,
    /// All of them within this distance of the lot are drawn; `None`: all that there are.
    AllShown(Option<i64>),
}

/// A distance that was taped.
#[derive(Debug, Clone, PartialEq)]
pub struct Taped {
    /// From this thing's outline.
    pub from: (ThingIndex, OutlineId),
    /// To this one's.
    pub to: (ThingIndex, OutlineId),
    /// What the tape said, in nanometres.
    pub range: Interval,
    /// What it said without its ±.
    pub drawn: Option<i128>,
    /// Where the plan's file says so.
    pub span: Span,
}

/// Where a document stands: as a whole, or for each thing of which the plan says so.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Papers {
    /// As a whole.
    pub whole: Option<DocumentState>,
    /// For each thing.
    pub of: BTreeMap<ThingIndex, DocumentState>,
    /// Where the plan's file says so.
    pub span: Span,
}

impl From<DocumentState> for Papers {
    fn from(state: DocumentState) -> Self {
        Papers {
            whole: Some(state),
            ..Papers::default()
        }
    }
}

/// What somebody who knows has said of a matter.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Answered {
    /// What they said.
    pub says: Option<String>,
    /// Who said it.
    pub by: String,
    /// On which day (days since 1970-01-01).
    pub on: i128,
    /// Where the plan's file says so.
    pub span: Span,
}

impl Plan {
    /// Where a document stands that is one for the whole plan.
    pub fn paper(&self, id: &str) -> Option<DocumentState> {
        self.documents.get(id)?.whole
    }

    /// Where the document for a thing stands.
    pub fn paper_of(&self, id: &str, thing: ThingIndex) -> Option<DocumentState> {
        self.documents.get(id)?.of.get(&thing).copied()
    }
}

/// Where a document stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum DocumentState {
    /// The applicant has it.
    InHand,
    /// It was asked for and refused.
    Refused,
    /// It has still to be got.
    NotYet,
}

/// What a fact can still be.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Possible {
    /// Whether it may be that there is none (a gate without a latch).
    pub none: bool,
    /// The amount, where the fact is an amount and may be something other than none.
    pub amount: Option<Amount>,
    /// The words that it may be, where the fact is a word.
    pub words: Option<Arc<Words>>,
    /// Where the plan's file says so; `None` where nobody stated it.
    pub span: Option<Span>,
}

/// What an amount can still be.
///
/// Along a thing it may change: then `least` and `most` are what it reaches at its lowest and its highest place.
/// Where it does not change, both are the same unknown number.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Amount {
    /// What it can be (at its lowest place, where it varies).
    pub least: Interval,
    /// What it can be at its highest place, where it varies along the thing.
    pub most: Option<Interval>,
    /// What was written without its ±, for "as drawn"; `None` where a range or nothing was stated.
    pub drawn: Option<(i128, i128)>,
    /// Of what: a span may be in days or in months, whatever the vocabulary calls it.
    pub dimension: crate::quantity::Dimension,
    /// The unit as written, for printing.
    pub unit: Option<crate::quantity::Unit>,
}

/// The words that are still possible.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Words {
    /// Any word at all.
    Any,
    /// One of these.
    OneOf(BTreeSet<String>),
}
