//! Outcomes: their order, their signs, and which of them need nothing more.

use rules_core::{Outcome, Verdict};

use super::keyed::{El, el};
use crate::words::t;

/// The most pressing first.
pub const ORDER: [Outcome; 6] = [
    Outcome::Fail,
    Outcome::Unknown,
    Outcome::Marginal,
    Outcome::Refer,
    Outcome::Pass,
    Outcome::NotApplicable,
];

/// Whether nothing is left to do.
pub fn is_settled(outcome: Outcome) -> bool {
    matches!(outcome, Outcome::Pass | Outcome::NotApplicable)
}

/// The sign of an outcome, for people who see it.
pub fn mark_of(outcome: Outcome) -> El {
    let sign = match outcome {
        Outcome::Fail => "×",
        Outcome::Unknown => "?",
        Outcome::Marginal => "≈",
        Outcome::Refer => "§",
        Outcome::Pass => "✓",
        Outcome::NotApplicable => "–",
    };
    el("span")
        .class("mark")
        .set("aria-hidden", "true")
        .with(sign)
}

/// The word of an outcome.
pub fn outcome_said(outcome: Outcome) -> String {
    t(&format!("outcome.{}", outcome.word()))
}

/// The name of a verdict.
pub fn verdict_word(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::DoesNotComply => "does-not-comply",
        Verdict::NotDecided => "not-decided",
        Verdict::NothingInTheseRules => "nothing-in-these-rules",
        Verdict::NothingAgainst => "nothing-against",
    }
}

/// A verdict in the page's language.
pub fn verdict_said(verdict: Verdict) -> String {
    t(&format!("verdict.{}", verdict_word(verdict)))
}

/// Where figures come from, if that is neither the law nor an office's page.
pub fn origin(mark: Option<&String>) -> Option<String> {
    mark.map(|mark| format!(" · {mark}"))
}
