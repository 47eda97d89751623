//! What the rules ask of a fence but of no other way for a child to reach the pool.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::super::reads;
use super::{binding, own};
use crate::ruleset::visit::Visit;
use crate::ruleset::{Enclosure, Once, Requirement, RuleSet};
use crate::vocabulary::Matter;

/// What the file's binding rules ask of a fence and no rule asks of a gate: one question for each such fact of a gate.
pub(super) fn no_gate(rules: &RuleSet) -> Vec<String> {
    let vocabulary = &rules.vocabulary;
    let read = reads::of(rules).facts;
    let mut questions = BTreeMap::new();
    for rule in own(rules) {
        let asked = reads::facts_of(&rule.require, vocabulary);
        let pairs = vocabulary.of_fence_and_gate();
        for (fence, gate) in
            pairs.filter(|(fence, gate)| asked.contains(fence) && !read.contains_key(gate))
        {
            questions.entry(gate).or_insert_with(|| {
                format!(
                    "The rule `{}` limits `{}`, but no rule limits `{}`: may the {} be anything?",
                    rule.id,
                    vocabulary.fact_path(fence),
                    vocabulary.fact_path(gate),
                    vocabulary.fact(gate).said
                )
            });
        }
    }
    questions.into_values().collect()
}

/// The height of a fence and the width of its gaps do not say where it stands. Without an `enclosure`, one straight
/// fence beside the pool would do.
pub(super) fn not_all_round(rules: &RuleSet) -> Option<String> {
    let vocabulary = &rules.vocabulary;
    let asks = |rule: &Requirement| {
        let facts = reads::facts_of(rule, vocabulary);
        let mut pairs = vocabulary.of_fence_and_gate();
        pairs.any(|(fence, _)| facts.contains(&fence))
    };
    let left = rules.reach.left_out(Matter::Barrier).is_some();
    let rule = own(rules).find(|rule| !left && asks(&rule.require))?;
    let closed = binding(rules).any(|rule| asks_for_closed(&rule.require));
    (!closed).then(|| {
        format!(
            "No rule asks whether the barrier goes all the way round: one straight fence beside the pool passes `{}` and \
             all the others. Measure an `enclosure` in a rule of its own.",
            rule.id
        )
    })
}

fn asks_for_closed(requirement: &Requirement) -> bool {
    let mut look = EnclosureFinder::default();
    look.requirement(requirement);
    look.found
}

#[derive(Default)]
struct EnclosureFinder {
    found: bool,
    terms: Once,
}

impl<'r> Visit<'r> for EnclosureFinder {
    fn term<T>(&mut self, said: &'r Arc<T>, go: fn(&mut Self, &'r T)) {
        if self.terms.is_first(said) {
            go(self, said);
        }
    }

    fn enclosure(&mut self, _enclosure: &'r Enclosure) {
        self.found = true;
    }
}
