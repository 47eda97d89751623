//! What a rule set asks, as forms and other programs receive it.

use serde::Serialize;

/// All that a rule set needs to know.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Asked {
    /// The kinds of things, in the order of the vocabulary: the lot, the applicant, the pool, its barrier, and so on.
    pub kinds: Vec<AskedKind>,
    /// The rule set's own questions. A plan answers them under `answers`.
    pub questions: Vec<AskedFact>,
    /// The dates that matter. A plan gives them under `dates`.
    pub dates: Vec<AskedFact>,
    /// The papers that it calls for.
    pub documents: Vec<AskedDocument>,
}

impl Asked {
    /// What is asked about a kind.
    pub fn kind(&self, id: &str) -> Option<&AskedKind> {
        self.kinds.iter().find(|kind| kind.id == id)
    }
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
    /// The part of a form that asks for it: `where`, `lot`, `pool`, `road`, `site`, `barrier` or `questions`.
    pub part: &'static str,
    /// Whether somebody who walks round the place sees it, and can say that there is none.
    pub seen: bool,
    /// Who knows whether there is any, if looking does not tell; empty where nobody in particular does.
    pub whom: &'static str,
    /// Whether each belongs to one pool, so that with several pools it has to be said to which.
    pub of_a_pool: bool,
    /// The shape of its first outline: `point`, `line` or `area`; `None` if nothing of it has to be drawn.
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
    /// Whether `none` is an answer.
    pub may_be_none: bool,
    /// Whether it may vary along the thing.
    pub varies: bool,
    /// The least possible amount.
    pub least: Option<String>,
    /// The greatest possible amount.
    pub most: Option<String>,
    /// What reads it.
    pub why: Vec<Because>,
}

/// A word of a choice.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Choice {
    /// As written in files.
    pub word: String,
    /// As written in a sentence.
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
    /// Whether whoever issues it may refuse.
    pub discretion: bool,
    /// What calls for it.
    pub why: Vec<Because>,
}

/// The rule, decision, paper, duty or caution that something is asked for.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Because {
    /// Its id.
    pub rule: String,
    /// Its title.
    pub title: String,
}
