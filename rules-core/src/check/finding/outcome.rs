//! The words of the report.

use serde::{Deserialize, Serialize};

use crate::check::{Finding, Truth};
use crate::ruleset::Rule;
use crate::words::Word;

/// What a rule comes to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Outcome {
    /// It holds in no possible world.
    Fail,
    /// Open, because something was not stated or not checked.
    Unknown,
    /// Open, and only because of the plan's accuracy.
    Marginal,
    /// The authority decides.
    Refer,
    /// It holds in every possible world, or does not apply.
    Pass,
    /// It does not apply.
    NotApplicable,
}

impl Outcome {
    /// The outcome of a set of possible levels; `None` where it is open.
    pub fn decided(truth: Truth) -> Option<Outcome> {
        if truth == Truth::NOT_APPLICABLE {
            Some(Outcome::NotApplicable)
        } else if truth.within(Truth::HOLDS.or_else(Truth::NOT_APPLICABLE)) {
            Some(Outcome::Pass)
        } else if truth == Truth::FAILS {
            Some(Outcome::Fail)
        } else if truth == Truth::AUTHORITY {
            Some(Outcome::Refer)
        } else {
            None
        }
    }

    /// The outcome of what is possible, given what would be possible if the authority has not yet said anything that it
    /// is free to say, and if everything were exactly as drawn besides.
    pub fn of(truth: Truth, unsaid: Truth, as_drawn: Truth) -> Outcome {
        let decided = |truth| Outcome::decided(truth);
        match (decided(truth), decided(unsaid), decided(as_drawn)) {
            (Some(outcome), ..) => outcome,
            (None, Some(Outcome::Refer), _) => Outcome::Refer,
            (None, _, Some(_)) => Outcome::Marginal,
            (None, _, None) => Outcome::Unknown,
        }
    }

    /// The word in reports.
    pub fn word(self) -> &'static str {
        match self {
            Outcome::Fail => "fail",
            Outcome::Unknown => "unknown",
            Outcome::Marginal => "marginal",
            Outcome::Refer => "refer",
            Outcome::Pass => "pass",
            Outcome::NotApplicable => "not-applicable",
        }
    }

    /// Its words in reports.
    pub fn said(self) -> Word {
        match self {
            Outcome::Fail => Word::Fail,
            Outcome::Unknown => Word::Unknown,
            Outcome::Marginal => Word::Marginal,
            Outcome::Refer => Word::Refer,
            Outcome::Pass => Word::Pass,
            Outcome::NotApplicable => Word::NotApplicable,
        }
    }
}

/// What the binding rules together come to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Verdict {
    /// Something fails.
    DoesNotComply,
    /// Something is open, or nothing applied.
    NotDecided,
    /// Nothing in these rules stands against the plan, but there are matters that they leave to others and that nobody
    /// has answered.
    NothingInTheseRules,
    /// Nothing stands against the plan, and nothing was left unasked.
    NothingAgainst,
}

impl Verdict {
    /// The verdict on a whole plan, from what was found under the binding rules: nothing stands against it only where
    /// one of them surely applies.
    pub fn of<'f>(findings: impl Iterator<Item = (&'f Finding, &'f Rule)>) -> Verdict {
        let (mut applied, mut open) = (false, false);
        for (finding, rule) in findings {
            match finding.outcome {
                Outcome::Fail => return Verdict::DoesNotComply,
                Outcome::Unknown | Outcome::Marginal | Outcome::Refer => open = true,
                Outcome::Pass | Outcome::NotApplicable => {}
            }
            applied |= !rule.built_in && !finding.truth.may_not_apply();
        }
        match applied && !open {
            true => Verdict::NothingAgainst,
            false => Verdict::NotDecided,
        }
    }

    /// The verdict where some matters are left open: what was found is the same, but it is not all.
    pub fn with_matters_open(self, open: bool) -> Verdict {
        match self {
            Verdict::NothingAgainst if open => Verdict::NothingInTheseRules,
            other => other,
        }
    }

    /// The sentence in reports.
    pub fn said(self) -> Word {
        match self {
            Verdict::DoesNotComply => Word::DoesNotComply,
            Verdict::NotDecided => Word::NotDecided,
            Verdict::NothingInTheseRules => Word::NothingInTheseRules,
            Verdict::NothingAgainst => Word::NothingAgainst,
        }
    }
}
