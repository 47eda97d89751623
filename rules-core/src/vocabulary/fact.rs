//! A fact of a kind: what it can be, and how it is named, asked for and measured.

use super::{KindId, Matter};
use crate::quantity::{Dimension, Interval, NO_HIGH, NO_LOW};

/// A fact of a kind, as its place in the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct FactId(pub u16);

/// The start of the name of a yes-or-no fact.
pub(super) const WHETHER: &str = "whether ";

/// What a fact can be.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Answer {
    /// An amount. A figure beyond its limits cannot be meant.
    Amount {
        /// Of what.
        dimension: Dimension,
        /// The reader refuses less.
        least: Option<i128>,
        /// The reader refuses more.
        most: Option<i128>,
    },
    /// One of these words, or, if `open`, another word from a rule file or a plan.
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
    /// What an amount can be if nobody states it. Only the limits of the table that no amount can pass count here: a
    /// depth is never below 0, and angles, shares and counts have an end. The other limits only catch slips; nobody has
    /// measured them.
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

/// How the name of a fact stands in a sentence.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Phrase {
    /// After `the`: `height of the latch`.
    Noun,
    /// Unchanged; the words after `whether` are true or not: `whether the gate closes by itself`.
    Whether,
    /// Unchanged: `who owns the fence`.
    Clause,
}

impl Phrase {
    /// How a name that begins with these words stands in a sentence.
    pub fn of(said: &str) -> Self {
        const CLAUSES: [&str; 7] = ["who ", "whom ", "whose ", "what ", "how ", "which ", "the "];
        match said {
            _ if said.starts_with(WHETHER) => Self::Whether,
            _ if CLAUSES.iter().any(|start| said.starts_with(start)) => Self::Clause,
            _ => Self::Noun,
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
    /// How its name stands in a sentence.
    pub phrase: Phrase,
    /// What it can be.
    pub answer: Answer,
    /// Whether it may vary along the thing, so that "from 46 to 50 in" makes sense.
    pub varies: bool,
    /// Whether `none` is a value (a gate without a latch).
    pub none: bool,
    /// The question that asks for it.
    pub ask: String,
    /// How it is measured in the field.
    pub how: String,
    /// The matter it belongs to, if it differs from its kind's.
    pub matter: Option<Matter>,
    /// The word that puts its thing on the lot. If everything within some distance of the lot is drawn, no undrawn
    /// thing can have this word.
    pub on_the_lot: Option<String>,
}
