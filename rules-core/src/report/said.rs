//! The words of outcomes and verdicts in reports.

use crate::check::{Outcome, Verdict};
use crate::words::Word;

impl Outcome {
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

impl Verdict {
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
