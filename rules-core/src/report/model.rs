//! The report: all that was found, in words and printed figures, for a person or another program.
//!
//! Every figure in it is text, printed from whole numbers, so that the report is the same to the last byte wherever it
//! is made. `docs/schema/report.json` describes it.

mod lists;
mod scope;
mod together;

use serde::{Deserialize, Serialize};

use crate::check::{Outcome, Verdict};
use crate::words::Language;
pub use lists::{CautionReport, DecisionReport, DocumentReport, DutyReport};
pub use scope::{AnsweredMatter, AskReport, HeldMatter, OnTop, OpenMatter, ScopeReport};
pub use together::{GoesWith, GovernsReport, LimitReport, ReadBySome, RuleSetReport};

/// What [`Report::schema`] says: the form of the report, to be raised when a reader of the old one would go wrong.
pub const SCHEMA: &str = "siting-report/3";

/// All that was found about a plan under a rule set.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct Report {
    /// The form of this report.
    pub schema: String,
    /// The language of its own words, and of those that the rule files have in it; what was found is told in English.
    pub language: String,
    /// The plan.
    pub plan: PlanHead,
    /// The rule set; where it has several editions, the newest that may govern the plan. Of several rule sets together, their
    /// names in a row.
    pub rule_set: RuleSetHead,
    /// Each rule set by itself, in the order in which they were named; empty where there is only one.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub rule_sets: Vec<RuleSetReport>,
    /// The rule sets that belong with these and were not named.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub goes_with: Vec<GoesWith>,
    /// What of the plan only some of several rule sets read.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub read_by_some: Vec<ReadBySome>,
    /// The editions that may govern the plan, the newest first; empty where the rule set has only one, and where there are
    /// several rule sets, each of which has its own.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub editions: Vec<EditionReport>,
    /// What the binding rules together come to.
    pub verdict: VerdictWords,
    /// Which matters the rules hold, and which are still to be asked about.
    pub scope: ScopeReport,
    /// How many binding rules have which outcome.
    pub counts: Counts,
    /// How many rules that only advise have which outcome.
    pub advice_counts: Counts,
    /// The binding rules that fail as drawn; none where no rule does.
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
    /// All that is missing, with the rules that it would help to decide; what helps most comes first.
    pub questions: Vec<Question>,
    /// What to do next, in order.
    pub next: Vec<String>,
    /// How many values of the rules are neither from the law nor from an office's page; none where none is.
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
    /// Whether it surely is in force for the plan; then no other one before it is.
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
    /// The clause that it stands for.
    pub clause: String,
    /// What it comes to.
    pub outcome: Outcome,
}

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
    /// The files that it was built from, itself first.
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
    pub(super) fn of(verdict: Verdict, language: Language) -> Self {
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

/// What was found under one rule.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct RuleReport {
    /// Its id.
    pub id: String,
    /// Its title.
    pub title: String,
    /// The clause that it stands for.
    pub clause: String,
    /// `must` or `should`.
    pub strength: String,
    /// The short name of the file that it comes from.
    pub layer: String,
    /// The line of that file, from 1; none where the file's text is not at hand.
    pub rule_line: Option<usize>,
    /// What it comes to.
    pub outcome: Outcome,
    /// What it would come to were everything exactly as drawn; none where that is open too.
    pub as_drawn: Option<Outcome>,
    /// The same in a sentence.
    pub sentence: String,
    /// What was found for each thing that the rule is judged for.
    pub parts: Vec<PartReport>,
    /// The place in `parts`, from 0, of the one that decides; none where there is none.
    pub deciding: Option<usize>,
    /// What is missing to decide it.
    pub missing: Vec<MissingReport>,
    /// What the rule file says about mending a failure.
    pub remedy: Option<String>,
    /// The ids of the papers that it calls for.
    pub documents: Vec<String>,
    /// `confirmed`, `from-memory` or `contradicted`.
    pub provenance: String,
    /// Where its figures are from, where that is neither the law nor a page of the authority that applies it: `from a
    /// restatement`, `from memory, to be checked (48 in)`.
    pub mark: Option<String>,
    /// What the rule file's writer wants the reader to know.
    pub note: Option<String>,
    /// How the authority reads its clause.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub interpretations: Vec<InterpretationReport>,
    /// The short names of the rule sets that it comes from, where there are several.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub rule_sets: Vec<String>,
}

/// How the authority reads a clause.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub struct InterpretationReport {
    /// Its id.
    pub id: String,
    /// How the clause is read.
    pub says: String,
    /// Who reads it so.
    pub by: String,
    /// From which day on: `2026-03-02`.
    pub since: String,
}

/// How many values are neither from the law nor from a page of the authority that applies it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct SecondHandReport {
    /// How many.
    pub values: usize,
    /// Of how many that name a source.
    pub of: usize,
    /// The same in a sentence, with where they are from.
    pub sentence: String,
}

/// What was found for one subject of a rule.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct PartReport {
    /// The subject.
    pub subject: SubjectReport,
    /// The id of the pool that the rule speaks of, where it speaks of one.
    pub pool: Option<String>,
    /// The place along the things that it reads at which it is told; empty where nothing that it reads changes along them.
    pub at: Vec<AtReport>,
    /// What it comes to.
    pub outcome: Outcome,
    /// What it would come to were everything exactly as drawn; none where that is open too.
    pub as_drawn: Option<Outcome>,
    /// The id of the relief by which it passes or is referred.
    pub relief: Option<String>,
    /// The same in a sentence.
    pub sentence: String,
    /// How much room there is.
    pub margin: Option<MarginReport>,
    /// The comparisons that decide it.
    pub readings: Vec<ReadingReport>,
    /// The place in `readings`, from 0, of the one that tells most of it: where it passes by a relief, of what the relief
    /// asks. None where nothing was compared.
    pub telling: Option<usize>,
    /// The same in a few words, the figures as they are at worst: ``2.6 m, at least 1.5 m asked, 1.1 m to spare, by relief
    /// `consent` ``.
    pub brief: String,
    /// What is missing to decide it.
    pub missing: Vec<MissingReport>,
    /// How it could be decided, where only the plan's accuracy leaves it open.
    pub advice: Option<String>,
}

/// Whom a finding is about.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct SubjectReport {
    /// The thing's id; none where it is the plan as a whole, or things that nobody has looked for.
    pub id: Option<String>,
    /// The name of its kind.
    pub kind: Option<String>,
    /// What it is called in sentences.
    pub said: String,
    /// Whether it surely is one of those that the rule speaks of.
    pub sure: bool,
    /// The line of the plan's file, from 1.
    pub plan_line: Option<usize>,
}

/// A place along a thing of which something changes along it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct AtReport {
    /// The thing's id; none where it is a place along each thing of its kind.
    pub thing: Option<String>,
    /// What changes along it: `barrier-stretch.height-outside`.
    pub fact: String,
    /// `lowest` or `highest`: the place where that is so.
    pub end: String,
    /// How much it is there; none where that is not known.
    pub amount: Option<String>,
    /// The whole in words: `where the height on the outside is lowest (1.22 m)`.
    pub said: String,
}

/// A range, printed: its low end rounded down, its high end up.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct RangeReport {
    /// The low end with its unit; none where there is none.
    pub low: Option<String>,
    /// The high end with its unit; none where there is none.
    pub high: Option<String>,
    /// The unit.
    pub unit: String,
    /// The whole in words.
    pub text: String,
}

/// How much room there is: good is positive.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct MarginReport {
    /// The least room, with its unit; less than nothing where it is short. None where there is no end.
    pub low: Option<String>,
    /// The most room.
    pub high: Option<String>,
    /// The whole in words: `between 0.02 m short and 0.03 m to spare`.
    pub text: String,
    /// The low end in words: `0.02 m short`.
    pub at_worst: String,
}

/// One comparison of a value with a bound.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct ReadingReport {
    /// What was measured.
    pub what: String,
    /// What it may be; none where it is a word, or nothing is known of it.
    pub measured: Option<RangeReport>,
    /// What it is as drawn, where that is not all that it may be.
    pub drawn: Option<String>,
    /// From what to what it changes along its thing, where it was read at one place of it.
    pub along: Option<String>,
    /// At which place that was, in words: `where it is lowest`.
    pub place: Option<String>,
    /// The words that it may be.
    pub words: Vec<String>,
    /// Whether it may be that there is none.
    pub may_be_none: bool,
    /// What the limit may be; none where it is a word.
    pub limit: Option<RangeReport>,
    /// What it must keep, in words: `at least 3 m`.
    pub bound: String,
    /// `holds`, `fails`, `authority` or `open`.
    pub holds: String,
    /// How much room there is.
    pub margin: Option<MarginReport>,
    /// From where to where it was measured.
    pub witness: Option<WitnessReport>,
    /// The same in a sentence.
    pub sentence: String,
    /// The same in a few words, the figures as they are at worst: `2.6 m, at least 3 m asked, 0.4 m short`.
    pub brief: String,
}

/// From where to where a distance was taken, in the plan file's own coordinates, in metres.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct WitnessReport {
    /// East and north of one end.
    pub from: [String; 2],
    /// East and north of the other end.
    pub to: [String; 2],
    /// The id of the thing at one end.
    pub from_thing: String,
    /// The outline of it.
    pub from_outline: String,
    /// The id of the thing at the other end.
    pub to_thing: String,
    /// The outline of it.
    pub to_outline: String,
    /// The whole in words.
    pub text: String,
}

/// Something that nobody stated or looked for.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct MissingReport {
    /// `fact`, `outline`, `inventory`, `accuracy` or `document`; `inexact` where a fact is stated, but not exactly enough.
    pub kind: String,
    /// What the plan's file would name: `gate.latch-height`, `well`, `consent-letter`.
    pub name: String,
    /// The id of the thing that it is missing for.
    pub subject: Option<String>,
    /// The question that a person can answer.
    pub question: String,
    /// How the answer is found.
    pub how: Option<String>,
}

/// Something missing, and what it would help to decide.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct Question {
    /// What is missing.
    pub missing: MissingReport,
    /// The ids of the rules that are open for want of it.
    pub rules: Vec<String>,
    /// The short names of the rule sets that ask for it, where there are several.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub rule_sets: Vec<String>,
}
