//! What nobody stated or looked for, as questions.

use serde::{Deserialize, Serialize};

/// Something that nobody stated or looked for.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct MissingReport {
    /// `fact`, `outline`, `inventory`, `accuracy` or `document`; `inexact` if a fact is stated, but not exactly enough.
    pub kind: String,
    /// Its name in a plan's file: `gate.latch-height`, `well`, `consent-letter`.
    pub name: String,
    /// The id of the thing it is missing for.
    pub subject: Option<String>,
    /// A question a person can answer.
    pub question: String,
    /// How to find the answer.
    pub how: Option<String>,
}

/// Something missing, and what it would help to decide.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct Question {
    /// What is missing.
    pub missing: MissingReport,
    /// The ids of the rules that are open without it.
    pub rules: Vec<String>,
    /// The short names of the rule sets that ask for it, if there are several.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub rule_sets: Vec<String>,
}
