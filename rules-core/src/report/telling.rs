//! Which of a part's readings tells most of it, and the part in a few words.

use super::matter::Matter;
use super::sentences::in_a_word;
use super::turned::Comparison;
use crate::check::{Outcome, Part, Truth};
use crate::ruleset::Rule;

impl Matter<'_> {
    /// The place of the reading that tells most of a part: of those that agree with what it comes to, the first with a
    /// limit of which anything is known. Where it passes by a relief, what counts is what the relief asks, and the relief's
    /// readings come last.
    pub(super) fn telling(&self, part: &Part<'_>, compared: &[Comparison<'_>]) -> Option<usize> {
        let agrees = |one: &Comparison<'_>| agrees(part.outcome, one.reading.truth);
        if by_relief(part) {
            return compared.iter().rposition(agrees);
        }
        let tells = |one: &Comparison<'_>| {
            agrees(one) && one.reading.limit.is_some() && self.is_known(&one.reading)
        };
        let first = compared.iter().position(agrees);
        compared.iter().position(tells).or(first)
    }

    /// `3.4 m, at least 3 m asked, 0.4 m to spare`; with the relief by which it passes.
    pub(super) fn part_brief(
        &self,
        rule: &Rule,
        part: &Part<'_>,
        telling: Option<&Comparison<'_>>,
    ) -> String {
        let brief = telling.map(|one| self.brief_of(&one.reading));
        let relief = part.relief.filter(|_| by_relief(part));
        let relief = relief.and_then(|relief| rule.reliefs.get(relief));
        let relief = relief.map(|relief| format!(", by relief `{}`", relief.id));
        format!(
            "{}{}",
            brief.as_deref().unwrap_or(in_a_word(part.truth)),
            relief.unwrap_or_default()
        )
    }
}

/// Whether a comparison does not contradict what it belongs to.
fn agrees(outcome: Outcome, truth: Truth) -> bool {
    match outcome {
        Outcome::Pass => truth.applied() == Truth::HOLDS,
        Outcome::Fail => truth.applied() == Truth::FAILS,
        _ => true,
    }
}

fn by_relief(part: &Part<'_>) -> bool {
    part.relief.is_some() && part.outcome == Outcome::Pass
}
