//! A rule set. Names are resolved: everything here is in the vocabulary and fits its place.

mod papers;
mod requirement;
mod rule;
mod term;

use super::{About, Question, Reach, Source};
use crate::quantity::WorkingDays;
use crate::vocabulary::{FactId, Vocabulary};
use crate::words::Language;
pub use papers::*;
pub use requirement::*;
pub use rule::*;
pub use term::*;

/// A rule set with all its layers.
#[derive(Debug, Clone, PartialEq)]
pub struct RuleSet {
    /// Its short name in kebab-case.
    pub id: String,
    /// What it is called in reports.
    pub title: String,
    /// Which edition, in the authority's own words.
    pub edition: String,
    /// Who decides; every report defers to them.
    pub authority: String,
    /// What every report under these rules must say (not an official text, may be out of date, …).
    pub notice: Option<String>,
    /// Who it is for, and what an applicant wants to know before the first rule.
    pub about: About,
    /// The language its texts were read in, as far as they are written in it.
    pub language: Language,
    /// Which matters it covers, and which it leaves to others.
    pub reach: Reach,
    /// Where its values were read.
    pub sources: Vec<Source>,
    /// Which days it counts as working days.
    pub working_days: WorkingDays,
    /// When it is in force.
    pub in_force: Option<InForce>,
    /// The edition before this one, which governs the plans that this one does not govern yet. It has the same
    /// vocabulary.
    pub earlier: Option<Box<RuleSet>>,
    /// The files it was built from: itself first, then those it builds on.
    pub layers: Vec<Layer>,
    /// The kinds, outlines and facts its rules can name: the program's and its own.
    pub vocabulary: Vocabulary,
    /// The defined terms, in the order of the file.
    pub terms: Vec<Term>,
    /// Its own questions; their answers are facts of the vocabulary.
    pub questions: Vec<Question>,
    /// The rules, in the order of the file.
    pub rules: Vec<Rule>,
    /// Rules that are in every rule set, whatever its files say.
    pub built_in: Vec<Rule>,
    /// Questions whose answer is a class.
    pub decisions: Vec<Decision>,
    /// The papers to gather.
    pub documents: Vec<Document>,
    /// Duties in time; they never pass or fail.
    pub duties: Vec<Duty>,
    /// What to be careful of.
    pub cautions: Vec<Caution>,
    /// How the authority reads clauses.
    pub interpretations: Vec<Interpretation>,
}

/// The language several rule sets were read in: that of the first.
pub(crate) fn language_of(rule_sets: &[&RuleSet]) -> Language {
    let first = rule_sets.first();
    first.map(|rules| rules.language).unwrap_or_default()
}

impl RuleSet {
    /// The rule at a place: first its files' rules, then those that are in every rule set.
    pub fn rule(&self, place: usize) -> Option<&Rule> {
        self.all_rules().nth(place)
    }

    /// How the authority reads a rule.
    pub fn interpretations_of(&self, rule: &str) -> impl Iterator<Item = &Interpretation> {
        let all = self.interpretations.iter();
        all.filter(move |one| one.of.iter().any(|of| of == rule))
    }

    /// The rules of its files, then those that are in every rule set.
    pub fn all_rules(&self) -> impl Iterator<Item = &Rule> {
        self.rules.iter().chain(&self.built_in)
    }
}

/// One file of a rule set.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Layer {
    /// The file's own short name.
    pub id: String,
    /// What it is called.
    pub title: String,
    /// Its edition.
    pub edition: String,
}

/// When a rule set or a rule is in force, and which day decides that: the authority's own rule on work that is under
/// way when the law changes.
#[derive(Debug, Clone, PartialEq)]
pub struct InForce {
    /// From this day on (days since 1970-01-01).
    pub from: Option<i128>,
    /// Up to and including this day.
    pub to: Option<i128>,
    /// The fact that gives the day that counts (`events.applied`, `pool.built-on`).
    pub by: FactId,
    /// Also if this holds, whatever the day (the applicant chose the new text).
    pub or_when: Option<Condition>,
    /// Not if this holds, whatever the day (a permit that was granted before).
    pub unless: Option<Condition>,
}
