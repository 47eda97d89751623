//! What was measured, against which limit, and from where to where.

use serde::{Deserialize, Serialize};

/// One comparison of a value with a bound.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct ReadingReport {
    /// What was measured.
    pub what: String,
    /// The possible amounts; `None` if it is a word, or nothing is known about it.
    pub measured: Option<RangeReport>,
    /// The amount as drawn, if others are possible.
    pub drawn: Option<String>,
    /// The range it varies over along its thing, if it was read at one place of it.
    pub along: Option<String>,
    /// Which place that was, in words: `where it is lowest`.
    pub place: Option<String>,
    /// The words it may be.
    pub words: Vec<String>,
    /// Whether it may be `none`.
    pub may_be_none: bool,
    /// The possible limits; `None` if the limit is a word.
    pub limit: Option<RangeReport>,
    /// The bound it must keep, in words: `at least 3 m`.
    pub bound: String,
    /// `holds`, `fails`, `authority` or `open`.
    pub holds: String,
    /// How much room there is.
    pub margin: Option<MarginReport>,
    /// The two ends it was measured between.
    pub witness: Option<WitnessReport>,
    /// The same in a sentence.
    pub sentence: String,
    /// The same in a few words, with the worst possible figures: `2.6 m, at least 3 m asked, 0.4 m short`.
    pub brief: String,
}

/// A range, printed: its low end rounded down, its high end up.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct RangeReport {
    /// The low end with its unit; `None` if there is none.
    pub low: Option<String>,
    /// The high end with its unit; `None` if there is none.
    pub high: Option<String>,
    /// The unit.
    pub unit: String,
    /// The whole in words.
    pub text: String,
}

/// How much room there is; positive is good.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub struct MarginReport {
    /// The least room, with its unit; negative if it is short. `None` if there is no end.
    pub low: Option<String>,
    /// The most room.
    pub high: Option<String>,
    /// The whole in words: `between 0.02 m short and 0.03 m to spare`.
    pub text: String,
    /// The low end in words: `0.02 m short`.
    pub at_worst: String,
}

/// The two ends of a distance, in the plan file's own coordinates, in metres.
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
