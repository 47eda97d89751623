//! What a report says where several rule sets were used on one plan.

use serde::{Deserialize, Serialize};

use super::{Counts, EditionReport, VerdictWords};

/// One of several rule sets.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct RuleSetReport {
    /// Its short name.
    pub id: String,
    /// What it is called.
    pub title: String,
    /// Which edition.
    pub edition: String,
    /// Who decides.
    pub authority: String,
    /// What every report under these rules must say.
    pub notice: Option<String>,
    /// The editions that may govern the plan, the newest first; empty where it has only one.
    pub editions: Vec<EditionReport>,
    /// What its binding rules come to, whatever the others say and whatever is left to ask.
    pub verdict: VerdictWords,
    /// How many of its binding rules have which outcome.
    pub counts: Counts,
}

/// Of two rules that limit the same measure between the same ends, the one that governs: what keeps it keeps the other.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct GovernsReport {
    /// What both limit.
    pub what: String,
    /// For what it was compared, where that is not all that both rules speak of.
    pub subjects: Vec<String>,
    /// The limit that governs.
    pub governs: LimitReport,
    /// The other.
    pub over: LimitReport,
    /// The same in a sentence.
    pub sentence: String,
}

/// A limit that a rule sets.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct LimitReport {
    /// The rule's id.
    pub rule: String,
    /// The clause that it stands for.
    pub clause: String,
    /// The short name of its rule set.
    pub rule_set: String,
    /// The limit in words: `at least 3 m`.
    pub bound: String,
}

/// Rule sets that belong with one that was named.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct GoesWith {
    /// The short names of those that say so.
    pub rule_sets: Vec<String>,
    /// The names of those that were not named.
    pub with: Vec<String>,
}

/// What of the plan only some of the rule sets read.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct ReadBySome {
    /// The short names of those that do.
    pub rule_sets: Vec<String>,
    /// What they read, by where it stands in the plan: `answers.counts-on-barrier`, `things.moon-gate`.
    pub parts: Vec<String>,
}
