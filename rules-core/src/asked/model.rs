//! What is asked, as a form and other programs get it.

use serde::Serialize;

/// All that a rule set needs to know.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Asked {
    /// The kinds of things, in the order of the vocabulary: the lot, who applies, the pool, its barrier, and so on.
    pub kinds: Vec<AskedKind>,
    /// The rule set's own questions; the answers stand under `answers` in the plan.
    pub questions: Vec<AskedFact>,
    /// The days that count; they stand under `dates` in the plan.
    pub dates: Vec<AskedFact>,
    /// The papers that it speaks of.
    pub documents: Vec<AskedDocument>,
}

/// A kind of thing.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct AskedKind {
    /// Its name in files.
    pub id: String,
    /// Its name in sentences.
    pub said: String,
    /// The question that finds out whether there is any.
    pub ask: String,
    /// `one` (always there), `one-or-none` or `many`.
    pub number: &'static str,
    /// The part of a form in which it is asked for: `where`, `lot`, `pool`, `road`, `site`, `barrier` or `questions`.
    pub part: &'static str,
    /// The shape of its first outline: `point`, `line` or `area`; none where nothing of it has to be drawn.
    pub drawn_as: Option<&'static str>,
    /// The outlines that are read.
    pub outlines: Vec<AskedOutline>,
    /// The facts that are read.
    pub facts: Vec<AskedFact>,
    /// What reads it.
    pub why: Vec<Because>,
}

/// An outline.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct AskedOutline {
    /// Its name in files.
    pub id: String,
    /// Its name in sentences.
    pub said: String,
    /// `point`, `line` or `area`.
    pub shape: &'static str,
    /// Whether a thing may be without it.
    pub may_be_none: bool,
    /// What reads it.
    pub why: Vec<Because>,
}

/// A fact.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct AskedFact {
    /// Its name in files.
    pub id: String,
    /// Its name in sentences.
    pub said: String,
    /// The question.
    pub ask: String,
    /// How it is found out.
    pub how: String,
    /// `choice`, `yes-no`, `date`, `number`, `time`, or what it is an amount of: `length`, `area`, …
    pub answer: &'static str,
    /// The words of a choice.
    pub words: Vec<Choice>,
    /// Whether another word is possible.
    pub other_words: bool,
    /// The usual unit of an amount.
    pub unit: Option<&'static str>,
    /// All units in which it can be written.
    pub units: Vec<&'static str>,
    /// Whether it may be that there is none.
    pub may_be_none: bool,
    /// Whether it may change along the thing.
    pub varies: bool,
    /// No less than this is possible.
    pub least: Option<String>,
    /// No more than this is possible.
    pub most: Option<String>,
    /// What reads it.
    pub why: Vec<Because>,
}

/// A word of a choice.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Choice {
    /// As files have it.
    pub word: String,
    /// As a sentence has it.
    pub said: String,
}

/// A paper.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct AskedDocument {
    /// Its id, under which it stands in the plan's `documents`.
    pub id: String,
    /// What it is.
    pub title: String,
    /// Who supplies it.
    pub from: Option<String>,
    /// In what form.
    pub form: Option<String>,
    /// Whether whoever gives it is free to refuse.
    pub discretion: bool,
    /// What calls for it.
    pub why: Vec<Because>,
}

/// The rule, decision, paper, duty or caution for which something is asked.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Because {
    /// Its id.
    pub rule: String,
    /// Its title.
    pub title: String,
}
