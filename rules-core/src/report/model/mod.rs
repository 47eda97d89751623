//! The report: everything that was found, in words and printed figures, for a person or another program.
//!
//! Every figure in it is text, printed from whole numbers, so that the report is the same to the last byte wherever it
//! is made. `docs/schema/report.json` describes it.

mod editions;
mod heads;
mod lists;
mod missing;
mod readings;
mod rules;
mod scope;
mod together;

use serde::{Deserialize, Serialize};

use crate::words::Language;
pub use editions::{EditionReport, EditionRule};
pub use heads::{
    AsDrawnReport, Counts, LayerHead, PlanHead, RuleSetHead, SecondHandReport, VerdictWords,
};
pub use lists::{CautionBy, CautionReport, DecisionReport, DocumentReport, DutyReport};
pub use missing::{MissingReport, Question};
pub use readings::{MarginReport, RangeReport, ReadingReport, WitnessReport};
pub use rules::{AtReport, InterpretationReport, PartReport, RuleReport, SubjectReport};
pub use scope::{AnsweredMatter, AskReport, HeldMatter, OnTop, OpenMatter, ScopeReport};
pub use together::{GoesWith, GovernsReport, LimitReport, ReadBySome, RuleSetReport};

/// What [`Report::schema`] says: the form of the report, to be raised when a reader of the old one would go wrong.
pub const SCHEMA: &str = "siting-report/3";

/// Everything that was found about a plan under a rule set.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct Report {
    /// The form of this report.
    pub schema: String,
    /// The language of its own words, and of the rule files' words that exist in it; the findings are in English.
    pub language: String,
    /// The plan.
    pub plan: PlanHead,
    /// The rule set; if it has several editions, the newest that may govern the plan. For several rule sets together,
    /// their names in a row.
    pub rule_set: RuleSetHead,
    /// Each rule set by itself, in the order they were named; empty if there is only one.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub rule_sets: Vec<RuleSetReport>,
    /// The rule sets that belong with these but were not named.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub goes_with: Vec<GoesWith>,
    /// The parts of the plan that only some of several rule sets read.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub read_by_some: Vec<ReadBySome>,
    /// The editions that may govern the plan, the newest first; empty if the rule set has only one, or if there are
    /// several rule sets, each with its own.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub editions: Vec<EditionReport>,
    /// What the binding rules together come to.
    pub verdict: VerdictWords,
    /// Which matters the rules cover, and which still have to be asked about.
    pub scope: ScopeReport,
    /// How many binding rules have which outcome.
    pub counts: Counts,
    /// How many rules that only advise have which outcome.
    pub advice_counts: Counts,
    /// The binding rules that fail as drawn; `None` if no rule does.
    pub as_drawn: Option<AsDrawnReport>,
    /// One for each rule, in the order of the rule set.
    pub rules: Vec<RuleReport>,
    /// Where rules of several rule sets limit the same measure between the same ends: which of the two governs.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub governs: Vec<GovernsReport>,
    /// Questions whose answer is a class.
    pub decisions: Vec<DecisionReport>,
    /// Papers to gather.
    pub documents: Vec<DocumentReport>,
    /// Duties in time.
    pub duties: Vec<DutyReport>,
    /// What to be careful of.
    pub cautions: Vec<CautionReport>,
    /// Everything that is missing, with the rules it would help to decide; what helps most comes first.
    pub questions: Vec<Question>,
    /// What to do next, in order.
    pub next: Vec<String>,
    /// How many values of the rules come neither from the law nor from an office's page; `None` if all do.
    pub second_hand: Option<SecondHandReport>,
    /// What this report is not.
    pub disclaimer: String,
}

impl Report {
    /// The language of its own words.
    pub(crate) fn speaks(&self) -> Language {
        Language::of(&self.language)
    }
}
