//! What the report lists beside the rules: classes, papers, duties and cautions.

use serde::{Deserialize, Serialize};

use super::{AtReport, MissingReport, SubjectReport};
use crate::check::Need;
use crate::plan::DocumentState;

/// What a question of class comes to.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct DecisionReport {
    /// Its id.
    pub id: String,
    /// What it decides.
    pub title: String,
    /// The clause that it stands for.
    pub clause: Option<String>,
    /// Whom it is about.
    pub subject: SubjectReport,
    /// The id of the pool that it speaks of, where it speaks of one.
    pub pool: Option<String>,
    /// The place along the things that it reads, where the class is not the same all along them.
    pub at: Vec<AtReport>,
    /// The classes still possible.
    pub classes: Vec<String>,
    /// Whether it may be the authority's to decide.
    pub refer: bool,
    /// The same in a sentence.
    pub sentence: String,
    /// Where its figures are from, as of a rule.
    pub mark: Option<String>,
    /// What is missing to decide it.
    pub missing: Vec<MissingReport>,
    /// The short names of the rule sets that it comes from, where there are several.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub rule_sets: Vec<String>,
}

/// A paper, and whether it is needed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct DocumentReport {
    /// Its id.
    pub id: String,
    /// What it is.
    pub title: String,
    /// What it is for: a thing, where there is one for each, else the plan as a whole.
    pub subject: SubjectReport,
    /// Whether it is needed.
    pub need: Need,
    /// Whether it is there.
    pub state: DocumentState,
    /// Who supplies it.
    pub from: Option<String>,
    /// In what form.
    pub form: Option<String>,
    /// Whether whoever gives it is free to refuse.
    pub discretion: bool,
    /// The ids of the rules that call for it.
    pub rules: Vec<String>,
    /// The whole in a sentence.
    pub sentence: String,
    /// Where what it says is from, as of a rule.
    pub mark: Option<String>,
    /// The short names of the rule sets that it comes from, where there are several.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub rule_sets: Vec<String>,
}

/// A duty in time.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct DutyReport {
    /// Its id.
    pub id: String,
    /// Whether it surely applies.
    pub sure: bool,
    /// The whole in a sentence.
    pub sentence: String,
    /// Where its figures are from, as of a rule.
    pub mark: Option<String>,
    /// What is to be done.
    pub what: String,
    /// By whom.
    pub who: Option<String>,
    /// What it must be done before.
    pub before: Vec<String>,
    /// What must be done before it.
    pub after: Vec<String>,
    /// The short names of the rule sets that it comes from, where there are several.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub rule_sets: Vec<String>,
}

/// Who says what to be careful of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum CautionBy {
    /// The rule set.
    RuleSet,
    /// The program, in every report.
    Program,
}

/// What to be careful of.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct CautionReport {
    /// Its id.
    pub id: String,
    /// Who says so.
    pub by: CautionBy,
    /// What to be careful of, and who is to be asked.
    pub says: String,
    /// The short names of the rule sets that it comes from, where there are several.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub rule_sets: Vec<String>,
}
