//! What the report says of the matters that the rules hold, and of those that they leave to others.

use serde::{Deserialize, Serialize};

/// Which matters the rules hold, which somebody has answered, and which are still to be asked about.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct ScopeReport {
    /// The matters that a rule set in use holds.
    pub held: Vec<HeldMatter>,
    /// The matters that no rule set in use holds, and of which the plan says what somebody who knows has said.
    pub answered: Vec<AnsweredMatter>,
    /// The matters of which nobody has said anything yet.
    pub open: Vec<OpenMatter>,
    /// What always comes on top of the rules.
    pub on_top: Vec<OnTop>,
}

/// A matter that a rule set in use holds.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct HeldMatter {
    /// Its name in files: `house-doors`.
    pub matter: String,
    /// What it is called.
    pub said: String,
    /// The short names of the rule sets that hold it.
    pub by: Vec<String>,
}

/// A matter that somebody has answered.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct AnsweredMatter {
    /// Its name in files.
    pub matter: String,
    /// What it is called.
    pub said: String,
    /// What was answered, where the plan says it.
    pub says: Option<String>,
    /// Who said so.
    pub by: String,
    /// On which day: `2026-03-02`.
    pub on: String,
}

/// A matter that is still to be asked about.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct OpenMatter {
    /// Its name in files.
    pub matter: String,
    /// What it is called.
    pub said: String,
    /// What to ask.
    pub question: String,
    /// Whom.
    pub ask: Vec<AskReport>,
}

/// Who knows a matter.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct AskReport {
    /// Who.
    pub who: String,
    /// Why the rule set leaves it out.
    pub why: Option<String>,
    /// The short name of the rule set that says so; none where this is who usually knows.
    pub rule_set: Option<String>,
}

/// Something that always comes on top of a rule set.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct OnTop {
    /// The short name of the rule set.
    pub rule_set: String,
    /// What comes on top.
    pub says: String,
}
