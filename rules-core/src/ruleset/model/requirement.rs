//! What a rule asks: values within bounds, and combinations of such tests.

use std::sync::Arc;

use super::{DocumentIndex, TermUse};
use crate::quantity::{Relation, Unit};
use crate::ruleset::{Selection, Table, Value};
use crate::text::Span;

/// What must hold.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Requirement {
    /// A value keeps its bounds.
    Test(Arc<Test>),
    /// All of these.
    All(Vec<Requirement>),
    /// Any one of these.
    Any(Vec<Requirement>),
    /// Not this.
    Not(Box<Requirement>),
    /// A certain number of these.
    Count {
        /// The members.
        of: Vec<Requirement>,
        /// How many must hold.
        bounds: Vec<Bound>,
    },
    /// For each of these things.
    Each(Box<Each>),
    /// The row that applies says what must hold.
    Table(Box<Table<Requirement>>),
    /// A defined term holds.
    Meets {
        /// The term.
        term: TermUse,
        /// What it says.
        requirement: Arc<Requirement>,
    },
    /// A document is in hand.
    Have(DocumentIndex),
    /// The authority decides.
    Refer,
}

/// A value and its bounds.
#[derive(Debug, Clone)]
pub struct Test {
    /// What is measured.
    pub value: Value,
    /// Its bounds; it must keep them all.
    pub bounds: Vec<Bound>,
    /// Where along a thing it must keep them, if the value changes along it; `None`: where the rule is judged.
    pub holds: Option<Along>,
    /// Where it stands.
    pub span: Span,
}

/// Where along a thing something holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Along {
    /// At one place or more.
    Anywhere,
    /// At every place.
    AllAlong,
}

/// What must hold for each of some things.
#[derive(Debug, Clone)]
pub struct Each {
    /// The things.
    pub selection: Selection,
    /// What must hold.
    pub require: Requirement,
    /// Where it stands.
    pub span: Span,
}

/// What a value must keep.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Bound {
    /// No less than.
    AtLeast(Value),
    /// No more than.
    AtMost(Value),
    /// More than.
    MoreThan(Value),
    /// Less than.
    LessThan(Value),
    /// One of these.
    Is(Vec<Choice>),
}

impl Bound {
    /// How it compares.
    pub fn relation(&self) -> Relation {
        match self {
            Bound::AtLeast(_) => Relation::AtLeast,
            Bound::AtMost(_) => Relation::AtMost,
            Bound::MoreThan(_) => Relation::MoreThan,
            Bound::LessThan(_) => Relation::LessThan,
            Bound::Is(_) => Relation::Is,
        }
    }

    /// The value that limits it; `None` for a word it must be.
    pub fn limit(&self) -> Option<&Value> {
        match self {
            Bound::AtLeast(value)
            | Bound::AtMost(value)
            | Bound::MoreThan(value)
            | Bound::LessThan(value) => Some(value),
            Bound::Is(_) => None,
        }
    }
}

/// One of the answers that `is` allows.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Choice {
    /// A word; `yes` and `no` among them.
    Word(String),
    /// An amount, and the unit as written: months are not days.
    Amount(i128, Unit),
    /// None.
    None,
}

/// When something other than a rule applies: if this holds, or, if it names the pool, if it holds for any pool.
#[derive(Debug, Clone, PartialEq)]
pub struct Condition {
    /// What must hold.
    pub requirement: Requirement,
    /// Whether it names "the pool".
    pub about_pool: bool,
}

// Two requirements with the same content are equal wherever they stand, so that the rules of two files can be compared.
// Everything is `Eq`, so that shared parts compare equal without being looked through.

impl PartialEq for Test {
    fn eq(&self, other: &Self) -> bool {
        (&self.value, &self.bounds, self.holds) == (&other.value, &other.bounds, other.holds)
    }
}

impl Eq for Test {}

impl PartialEq for Each {
    fn eq(&self, other: &Self) -> bool {
        self.selection == other.selection && self.require == other.require
    }
}

impl Eq for Each {}
