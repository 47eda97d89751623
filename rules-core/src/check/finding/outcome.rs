//! The outcome of a rule and the verdict on a plan.

use serde::{Deserialize, Serialize};

use crate::check::{Finding, Truth};
use crate::ruleset::Rule;

/// The outcome of a rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Outcome {
    /// It holds in no possible world.
    Fail,
    /// Open because something was not stated or not checked.
    Unknown,
    /// Open only because of the plan's accuracy.
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

    /// The outcome for a truth, given the truth if the authority has not yet decided anything at its discretion, and the
    /// truth if, in addition, everything is exactly as drawn.
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
}

/// The verdict of all binding rules together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Verdict {
    /// Something fails.
    DoesNotComply,
    /// Nothing fails, but something is open, or no rule surely applies.
    NotDecided,
    /// Nothing in these rules stands against the plan, but they leave matters to others, and nobody has answered those.
    NothingInTheseRules,
    /// Nothing stands against the plan, and nothing was left unasked.
    NothingAgainst,
}

impl Verdict {
    /// The verdict on a whole plan from the findings under the binding rules. Nothing stands against the plan only where at
    /// least one of them surely applies.
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

    /// The verdict where some matters are left open: the findings are the same, but they are not the whole answer.
    pub fn with_matters_open(self, open: bool) -> Verdict {
        match self {
            Verdict::NothingAgainst if open => Verdict::NothingInTheseRules,
            other => other,
        }
    }
}
