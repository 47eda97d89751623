//! What a rule set says besides its rules: decisions, documents, duties, cautions and interpretations.

use super::Condition;
use crate::ruleset::{Cited, Selection, Stated, Table};
use crate::text::Span;

/// A document's place in [`RuleSet::documents`].
pub type DocumentIndex = usize;

/// A paper to gather.
#[derive(Debug, Clone, PartialEq)]
pub struct Document {
    /// Its id.
    pub id: String,
    /// What it is.
    pub title: String,
    /// Who supplies it.
    pub from: Option<String>,
    /// In what form.
    pub form: Option<String>,
    /// One for each of these; else one for the whole plan.
    pub each: Option<Selection>,
    /// The file says that one paper covers all the things it is asked for.
    pub one_for_all: bool,
    /// Always needed.
    pub always: bool,
    /// Needed if this holds.
    pub when: Option<Condition>,
    /// Needed if one of these rules has one of these outcomes.
    pub on: Vec<OnOutcome>,
    /// Whether the authority is free to grant or refuse it.
    pub discretion: bool,
    /// Where it comes from.
    pub cited: Vec<Cited>,
    /// Where it stands.
    pub span: Span,
}

/// A rule's outcomes that call for a document.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OnOutcome {
    /// The rule's id.
    pub rule: String,
    /// The outcomes, in the report's words.
    pub outcomes: Vec<String>,
}

/// A question whose answer is a class.
#[derive(Debug, Clone, PartialEq)]
pub struct Decision {
    /// Its id.
    pub id: String,
    /// What it decides, as a short title.
    pub title: String,
    /// The clause it comes from.
    pub clause: Option<String>,
    /// It is decided for each of these.
    pub each: Option<Selection>,
    /// Whether it names "the pool", and so is decided for each pool.
    pub about_pool: bool,
    /// The classes.
    pub table: Table<String>,
    /// Where it comes from.
    pub cited: Vec<Cited>,
    /// Where it stands.
    pub span: Span,
}

/// A duty in time.
#[derive(Debug, Clone, PartialEq)]
pub struct Duty {
    /// Its id.
    pub id: String,
    /// What is to be done.
    pub what: String,
    /// By whom.
    pub who: Option<String>,
    /// Only where this holds.
    pub when: Option<Condition>,
    /// It must be done before these.
    pub before: Vec<String>,
    /// It can start only after these.
    pub after: Vec<String>,
    /// At least this long before; or this long after, if it need not be done before something.
    pub by: Option<Stated>,
    /// No later than this long after; if it only has to be done before something, no earlier than this long before.
    pub within: Option<Stated>,
    /// How long it takes.
    pub takes: Option<Stated>,
    /// How often it recurs.
    pub every: Option<Stated>,
    /// Where it comes from.
    pub cited: Vec<Cited>,
    /// Where it stands.
    pub span: Span,
}

/// What to be careful of.
#[derive(Debug, Clone, PartialEq)]
pub struct Caution {
    /// Its id.
    pub id: String,
    /// What to be careful of, and whom to ask.
    pub says: String,
    /// Only where this holds.
    pub when: Option<Condition>,
    /// Where it stands.
    pub span: Span,
}

/// How the authority reads a clause.
#[derive(Debug, Clone, PartialEq)]
pub struct Interpretation {
    /// Its id.
    pub id: String,
    /// The ids of the rules that it is about.
    pub of: Vec<String>,
    /// How they are read.
    pub says: String,
    /// Who reads them so.
    pub by: String,
    /// The first day they are read so (days since 1970-01-01).
    pub since: i128,
    /// Where it comes from.
    pub cited: Vec<Cited>,
    /// Where it stands.
    pub span: Span,
}
