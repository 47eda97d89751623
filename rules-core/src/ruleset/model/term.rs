//! A defined term: what it stands for, and where it is used.

use super::Requirement;
use crate::ruleset::{Cited, Operand, Selection, Value, Zone};
use crate::text::Span;
use crate::vocabulary::KindId;

/// A defined term.
#[derive(Debug, Clone, PartialEq)]
pub struct Term {
    /// Its name.
    pub id: String,
    /// What it stands for.
    pub meaning: Meaning,
    /// Where it comes from.
    pub cited: Vec<Cited>,
    /// Where it is defined.
    pub span: Span,
}

/// A term where it is used.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TermUse {
    /// Its name.
    pub name: String,
    /// What it depends on.
    pub scope: Scope,
}

/// Everything that a text read by itself depends on. It is judged once for each thing it names, however often it is
/// used.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Scope {
    /// The kind of the one thing it is about.
    pub of: Option<KindId>,
    /// Whether it names "the pool".
    pub about_pool: bool,
}

/// What a term can stand for.
#[derive(Debug, Clone, PartialEq)]
pub enum Meaning {
    /// A limit or another value.
    Value(Value),
    /// Outlines; a distance can be taken between them.
    Outlines(Operand),
    /// Things.
    Things(Selection),
    /// A region.
    Zone(Zone),
    /// A requirement.
    Requirement(Requirement),
}
