//! A rule: what must hold, for which things, and when.

use serde::{Deserialize, Serialize};

use super::{DocumentIndex, InForce, Requirement};
use crate::ruleset::{Cited, Selection};
use crate::text::Span;

/// One rule.
#[derive(Debug, Clone, PartialEq)]
pub struct Rule {
    /// Its id in the rule set.
    pub id: String,
    /// Its title, without a full stop.
    pub title: String,
    /// The clause it comes from.
    pub clause: String,
    /// Whether it binds.
    pub strength: Strength,
    /// It is in every rule set, whatever its files say. If it applies, that says nothing about the files.
    pub built_in: bool,
    /// It applies only if this holds.
    pub when: Option<Requirement>,
    /// It does not apply if this holds.
    pub unless: Option<Requirement>,
    /// It is judged for each of these.
    pub each: Option<Selection>,
    /// Whether it names "the pool", and so is judged for each pool, whatever its `each`.
    pub about_pool: bool,
    /// What must hold.
    pub require: Requirement,
    /// What may hold instead.
    pub reliefs: Vec<Relief>,
    /// What to do if it fails.
    pub remedy: Option<String>,
    /// Papers the rule calls for whenever it applies.
    pub documents: Vec<DocumentIndex>,
    /// How sure its values are.
    pub provenance: Provenance,
    /// Where its values come from.
    pub cited: Vec<Cited>,
    /// The day after which it must be checked against its sources again, whatever their own dates.
    pub again: Option<i128>,
    /// A note for the reader: how the authority reads it, or why a contradiction was settled this way.
    pub note: Option<String>,
    /// When it is in force, if that differs from its file.
    pub in_force: Option<InForce>,
    /// The layer it comes from: a place in [`RuleSet::layers`].
    pub layer: usize,
    /// Where it stands in that layer's file.
    pub span: Span,
}

/// Whether a rule binds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Strength {
    /// It binds: it counts for the verdict on the whole plan.
    Must,
    /// It advises: it is reported separately.
    Should,
}

/// How sure the values of a rule are. A file that names its sources says only whether they agree; whether anybody
/// looked a value up follows from their grade.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Provenance {
    /// Read from the published text.
    Confirmed,
    /// From memory: to be checked.
    FromMemory,
    /// Published sources disagree.
    Contradicted,
}

/// What may hold instead of a rule's requirement.
#[derive(Debug, Clone, PartialEq)]
pub struct Relief {
    /// Its id in the rule.
    pub id: String,
    /// It is available only if this holds.
    pub when: Option<Requirement>,
    /// What must hold instead.
    pub require: Requirement,
    /// Whether the authority must agree.
    pub leave: bool,
    /// Where it stands.
    pub span: Span,
}
