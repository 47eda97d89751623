//! What the table is made of.

use std::collections::BTreeMap;

use super::Matter;
use crate::quantity::{Dimension, Interval, NO_HIGH, NO_LOW};

/// A kind of thing: its place in the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct KindId(pub u16);
/// An outline of a kind: its place in the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct OutlineId(pub u16);
/// A fact of a kind: its place in the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct FactId(pub u16);

/// How many of a kind a plan can have.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Number {
    /// Just one, and it is always there (the lot, the applicant, the works).
    One,
    /// One or none; a rule may speak of it without `each` (a cover, an alarm).
    AtMostOne,
    /// Any number; a rule speaks of them with `each`, or of the set.
    Many,
}

/// A kind of thing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Kind {
    /// Its name in files, in kebab-case: `septic-part`.
    pub name: String,
    /// Its name in sentences, with the article: `a septic tank or field`.
    pub said: String,
    /// How many there can be.
    pub number: Number,
    /// Its outlines, in the order of the table.
    pub outlines: Vec<OutlineId>,
    /// Its facts, in the order of the table.
    pub facts: Vec<FactId>,
    /// The question that finds out whether there is any: `Is there a septic tank or field within 30 m?`
    pub ask: String,
    /// The matter to which it belongs; `None` for what rules on many matters speak of.
    pub matter: Option<Matter>,
}

/// What an outline is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shape {
    /// A single place.
    Point,
    /// A line.
    Line,
    /// An area.
    Area,
}

/// An outline that a kind can have.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Outline {
    /// Whose it is.
    pub kind: KindId,
    /// Its name in files: `water`.
    pub name: String,
    /// Its name in sentences: `the water's edge`.
    pub said: String,
    /// What is drawn.
    pub shape: Shape,
    /// Whether a thing may be without it (a pool without a deck), so that `none` can be said of it.
    pub none: bool,
}

/// What a fact can be.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Answer {
    /// An amount. Figures beyond its two ends are too far off to be meant.
    Amount {
        /// Of what.
        dimension: Dimension,
        /// No less than this is read.
        least: Option<i128>,
        /// No more than this is read.
        most: Option<i128>,
    },
    /// One of these words; `open` where a rule file or a plan may use another word as well.
    Word {
        /// The words.
        words: Vec<String>,
        /// Whether other words are possible.
        open: bool,
    },
    /// `yes` or `no`.
    YesNo,
}

impl Answer {
    /// What an amount can be where nobody states it. Of the ends in the table only those count that no amount can pass: a
    /// depth is never below 0, and angles, shares and counts end somewhere. The others only tell a slip from a figure that
    /// is meant; nobody has measured them.
    pub fn possible(&self) -> Interval {
        let Answer::Amount {
            dimension,
            least,
            most,
        } = self
        else {
            return Interval::any();
        };
        let ends = matches!(dimension, Dimension::Angle | Dimension::Number);
        Interval {
            low: least.filter(|least| *least >= 0).unwrap_or(NO_LOW),
            high: most.filter(|_| ends).unwrap_or(NO_HIGH),
        }
    }
}

/// A fact that a kind can have.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fact {
    /// Whose it is.
    pub kind: KindId,
    /// Its name in files: `latch-height`.
    pub name: String,
    /// Its name in sentences: `height of the latch`.
    pub said: String,
    /// What it can be.
    pub answer: Answer,
    /// Whether it may change along the thing, so that "from 46 to 50 in" makes sense.
    pub varies: bool,
    /// Whether `none` is a value (a gate without a latch).
    pub none: bool,
    /// The question that asks for it.
    pub ask: String,
    /// How it is measured in the field.
    pub how: String,
    /// The matter to which it belongs, where that is not its kind's.
    pub matter: Option<Matter>,
}

/// The table, whole: what the program knows, and what a rule set added.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Vocabulary {
    kinds: Vec<Kind>,
    outlines: Vec<Outline>,
    facts: Vec<Fact>,
    kinds_by_name: BTreeMap<String, KindId>,
}

impl Vocabulary {
    /// All kinds, in the order of the table.
    pub fn kinds(&self) -> impl Iterator<Item = (KindId, &Kind)> {
        (0..).map(KindId).zip(&self.kinds)
    }

    /// The kind of that name.
    pub fn kind_named(&self, name: &str) -> Option<KindId> {
        self.kinds_by_name.get(name).copied()
    }

    /// The outline of that name.
    pub fn outline_named(&self, kind: KindId, name: &str) -> Option<OutlineId> {
        self.kind(kind)
            .outlines
            .iter()
            .copied()
            .find(|id| self.outline(*id).name == name)
    }

    /// The fact of that name.
    pub fn fact_named(&self, kind: KindId, name: &str) -> Option<FactId> {
        self.kind(kind)
            .facts
            .iter()
            .copied()
            .find(|id| self.fact(*id).name == name)
    }

    /// What the table says of a kind.
    #[expect(
        clippy::indexing_slicing,
        reason = "an id is only ever made by the table that holds it"
    )]
    pub fn kind(&self, id: KindId) -> &Kind {
        &self.kinds[usize::from(id.0)]
    }

    /// What the table says of an outline.
    #[expect(
        clippy::indexing_slicing,
        reason = "an id is only ever made by the table that holds it"
    )]
    pub fn outline(&self, id: OutlineId) -> &Outline {
        &self.outlines[usize::from(id.0)]
    }

    /// What the table says of a fact.
    #[expect(
        clippy::indexing_slicing,
        reason = "an id is only ever made by the table that holds it"
    )]
    pub fn fact(&self, id: FactId) -> &Fact {
        &self.facts[usize::from(id.0)]
    }

    /// `gate.latch-height`.
    pub fn fact_path(&self, id: FactId) -> String {
        let fact = self.fact(id);
        format!("{}.{}", self.kind(fact.kind).name, fact.name)
    }

    /// `pool.water`.
    pub fn outline_path(&self, id: OutlineId) -> String {
        let outline = self.outline(id);
        format!("{}.{}", self.kind(outline.kind).name, outline.name)
    }

    /// Adds a kind without outlines or facts; gives back the one that is there already under that name.
    pub fn add_kind(&mut self, name: &str, said: &str, number: Number, ask: &str) -> KindId {
        if let Some(id) = self.kind_named(name) {
            return id;
        }
        let id = KindId(next(self.kinds.len()));
        self.kinds.push(Kind {
            name: name.to_owned(),
            said: said.to_owned(),
            number,
            outlines: Vec::new(),
            facts: Vec::new(),
            ask: ask.to_owned(),
            matter: None,
        });
        self.kinds_by_name.insert(name.to_owned(), id);
        id
    }

    /// Says to which matter a kind belongs.
    #[expect(
        clippy::indexing_slicing,
        reason = "an id is only ever made by the table that holds it"
    )]
    pub fn set_matter(&mut self, kind: KindId, matter: Option<Matter>) {
        self.kinds[usize::from(kind.0)].matter = matter;
    }

    /// The matter to which a fact belongs: its own, else its kind's.
    pub fn matter_of(&self, fact: FactId) -> Option<Matter> {
        let fact = self.fact(fact);
        fact.matter.or(self.kind(fact.kind).matter)
    }

    /// How many kinds, outlines and facts there are.
    pub fn counts(&self) -> [usize; 3] {
        [self.kinds.len(), self.outlines.len(), self.facts.len()]
    }

    /// Puts a fact in the place of one that it says in other words.
    #[expect(
        clippy::indexing_slicing,
        reason = "an id is only ever made by the table that holds it"
    )]
    pub fn reword_fact(&mut self, id: FactId, fact: Fact) {
        self.facts[usize::from(id.0)] = fact;
    }

    /// Adds an outline to its kind.
    #[expect(
        clippy::indexing_slicing,
        reason = "an id is only ever made by the table that holds it"
    )]
    pub fn add_outline(&mut self, outline: Outline) -> OutlineId {
        let id = OutlineId(next(self.outlines.len()));
        self.kinds[usize::from(outline.kind.0)].outlines.push(id);
        self.outlines.push(outline);
        id
    }

    /// Adds a fact to its kind.
    #[expect(
        clippy::indexing_slicing,
        reason = "an id is only ever made by the table that holds it"
    )]
    pub fn add_fact(&mut self, fact: Fact) -> FactId {
        let id = FactId(next(self.facts.len()));
        self.kinds[usize::from(fact.kind.0)].facts.push(id);
        self.facts.push(fact);
        id
    }
}

/// The next place in a list of the table. A rule set cannot fill it: the reader refuses files that large long before.
fn next(length: usize) -> u16 {
    u16::try_from(length).unwrap_or(u16::MAX)
}
