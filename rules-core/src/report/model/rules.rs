//! What was found under a rule, and for each thing it is judged for.

use serde::{Deserialize, Serialize};

use super::{MarginReport, MissingReport, ReadingReport};
use crate::check::Outcome;
use crate::ruleset::{Provenance, Strength};

/// What was found under one rule.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct RuleReport {
    /// Its id.
    pub id: String,
    /// Its title.
    pub title: String,
    /// The clause it comes from.
    pub clause: String,
    /// Whether it binds.
    pub strength: Strength,
    /// The short name of the file it comes from.
    pub layer: String,
    /// The line of that file, from 1; `None` if the file's text is not at hand.
    pub rule_line: Option<usize>,
    /// What it comes to.
    pub outcome: Outcome,
    /// What it would come to were everything exactly as drawn; none where that is open too.
    pub as_drawn: Option<Outcome>,
    /// The same in a sentence.
    pub sentence: String,
    /// What was found for each thing the rule is judged for.
    pub parts: Vec<PartReport>,
    /// The place in `parts`, from 0, of the one that decides; `None` if there is none.
    pub deciding: Option<usize>,
    /// What is missing to decide it.
    pub missing: Vec<MissingReport>,
    /// What the rule file says about putting a failure right.
    pub remedy: Option<String>,
    /// The ids of the papers it calls for.
    pub documents: Vec<String>,
    /// How sure its values are.
    pub provenance: Provenance,
    /// Where its figures come from, if that is neither the law nor a page of the authority that applies it: `from a
    /// restatement`, `from memory, to be checked (48 in)`.
    pub mark: Option<String>,
    /// What the rule file's writer wants the reader to know.
    pub note: Option<String>,
    /// How the authority reads its clause.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub interpretations: Vec<InterpretationReport>,
    /// The short names of the rule sets it comes from, if there are several.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub rule_sets: Vec<String>,
}

impl RuleReport {
    /// Whether it counts for the verdict.
    pub fn binds(&self) -> bool {
        self.strength == Strength::Must
    }
}

/// How the authority reads a clause.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub struct InterpretationReport {
    /// Its id.
    pub id: String,
    /// How the clause is read.
    pub says: String,
    /// Who reads it that way.
    pub by: String,
    /// The first day: `2026-03-02`.
    pub since: String,
}

/// What was found for one subject of a rule.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct PartReport {
    /// The subject.
    pub subject: SubjectReport,
    /// The id of the pool the rule names, if it names one.
    pub pool: Option<String>,
    /// The place along the things it reads that this is for; empty if nothing it reads changes along them.
    pub at: Vec<AtReport>,
    /// What it comes to.
    pub outcome: Outcome,
    /// What it would come to were everything exactly as drawn; none where that is open too.
    pub as_drawn: Option<Outcome>,
    /// Whether it fails as drawn wherever the rule applies to it, although that is not sure. It is for whoever shows the
    /// report; in words it stands in the sentence.
    #[serde(skip)]
    pub only_fails: bool,
    /// The id of the relief that lets it pass or refers it.
    pub relief: Option<String>,
    /// The same in a sentence.
    pub sentence: String,
    /// How much room there is.
    pub margin: Option<MarginReport>,
    /// The comparisons that decide it.
    pub readings: Vec<ReadingReport>,
    /// The place in `readings`, from 0, of the one that says most; if a relief lets it pass, a reading of that relief.
    /// `None` if nothing was compared.
    pub telling: Option<usize>,
    /// The same in a few words, with the worst possible figures: ``2.6 m, at least 1.5 m asked, 1.1 m to spare, by
    /// relief `consent` ``.
    pub brief: String,
    /// What is missing to decide it.
    pub missing: Vec<MissingReport>,
    /// How it could be decided, if only the plan's accuracy leaves it open.
    pub advice: Option<String>,
}

/// What a finding is about.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct SubjectReport {
    /// The thing's id; `None` for the plan as a whole, or for things that nobody has looked for.
    pub id: Option<String>,
    /// The name of its kind.
    pub kind: Option<String>,
    /// Its name in sentences.
    pub said: String,
    /// Whether it surely is one that the rule means.
    pub sure: bool,
    /// The line of the plan's file, from 1.
    pub plan_line: Option<usize>,
}

/// A place along a thing, where something changes along it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct AtReport {
    /// The thing's id; `None` for a place along each thing of its kind.
    pub thing: Option<String>,
    /// What changes along it: `barrier-stretch.height-outside`.
    pub fact: String,
    /// `lowest` or `highest`: which place it is.
    pub end: String,
    /// The amount there; `None` if it is not known.
    pub amount: Option<String>,
    /// The whole in words: `where the height on the outside is lowest (1.22 m)`.
    pub said: String,
}
