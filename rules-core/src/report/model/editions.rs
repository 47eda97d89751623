//! What a plan comes to under each edition that may govern it.

use serde::{Deserialize, Serialize};

use super::VerdictWords;
use crate::check::Outcome;

/// An edition of the rule set that may govern the plan.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct EditionReport {
    /// Its short name.
    pub id: String,
    /// What it is called.
    pub title: String,
    /// Which edition.
    pub edition: String,
    /// Whether it is surely in force for the plan; then no edition before it is.
    pub sure: bool,
    /// When it is in force, in words.
    pub in_force: Option<String>,
    /// What the whole plan comes to under it.
    pub verdict: VerdictWords,
    /// The rules that come out differently under the newest of these editions, or that only this one has.
    pub otherwise: Vec<EditionRule>,
    /// The titles of papers that only this one calls for.
    pub documents: Vec<String>,
}

/// What a rule comes to under one edition.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct EditionRule {
    /// Its id.
    pub id: String,
    /// Its title.
    pub title: String,
    /// The clause it comes from.
    pub clause: String,
    /// What it comes to.
    pub outcome: Outcome,
}
