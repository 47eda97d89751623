//! What the head of a report says: what was checked, against what, and what it comes to.

use serde::{Deserialize, Serialize};

use crate::check::Verdict;
use crate::words::Language;

/// The plan's names.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct PlanHead {
    /// Its short name.
    pub id: String,
    /// What it is called.
    pub title: String,
}

/// The rule set's names.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct RuleSetHead {
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
    /// The files it was built from, itself first.
    pub layers: Vec<LayerHead>,
}

/// One file of a rule set.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct LayerHead {
    /// Its short name.
    pub id: String,
    /// What it is called.
    pub title: String,
    /// Which edition.
    pub edition: String,
}

/// The verdict as a word and as a sentence.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct VerdictWords {
    /// The word.
    pub word: Verdict,
    /// The sentence.
    pub sentence: String,
}

impl VerdictWords {
    pub(crate) fn of(verdict: Verdict, language: Language) -> Self {
        Self {
            word: verdict,
            sentence: verdict.said().in_language(language).to_owned(),
        }
    }
}

/// How many rules have which outcome.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct Counts {
    /// Fail.
    pub fail: u32,
    /// Open, because something is not known.
    pub unknown: u32,
    /// Open, because of the plan's accuracy.
    pub marginal: u32,
    /// The authority decides.
    pub refer: u32,
    /// Pass.
    pub pass: u32,
    /// Do not apply.
    pub not_applicable: u32,
}

/// The binding rules that fail as drawn, for sure or not.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct AsDrawnReport {
    /// How many, and which are not sure.
    pub sentence: String,
    /// The ids of all of them.
    pub fail: Vec<String>,
    /// The ids of those that are not sure.
    pub not_sure: Vec<String>,
}

/// How many values come neither from the law nor from a page of the authority that applies it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct SecondHandReport {
    /// How many.
    pub values: usize,
    /// Out of how many that name a source.
    pub of: usize,
    /// The same in a sentence, with their sources.
    pub sentence: String,
}
