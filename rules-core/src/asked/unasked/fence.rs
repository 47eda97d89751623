//! What the rules ask of a fence but of no other way for a child to reach the pool.

use std::collections::BTreeMap;

use super::super::reads;
use super::{binding, own};
use crate::ruleset::pieces::enclosures;
use crate::ruleset::{Requirement, RuleSet};
use crate::vocabulary::Matter;

/// What the file's binding rules ask of a fence and no rule asks of a gate: one question for each such fact of a gate.
pub(super) fn no_gate(rules: &RuleSet) -> Vec<String> {
    let vocabulary = &rules.vocabulary;
    let read = reads::of(rules).facts;
    let mut questions = BTreeMap::new();
    for rule in own(rules) {
        let asked = reads::facts_of(&rule.require, vocabulary);
        let pairs = vocabulary.of_fence_and_gate();
        let pairs = pairs.filter(|(fence, gate)| asked.contains(fence) && !read.contains_key(gate));
        for (fence, gate) in pairs {
            let question = || {
                let (id, said) = (&rule.id, &vocabulary.fact(gate).said);
                let [fence, gate] = [fence, gate].map(|fact| vocabulary.fact_path(fact));
                format!(
                    "The rule `{id}` limits `{fence}`, but no rule limits `{gate}`: may the {said} be anything?"
                )
            };
            questions.entry(gate).or_insert_with(question);
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
    let closed = binding(rules).any(|rule| !enclosures(&rule.require).is_empty());
    (!closed).then(|| {
        format!(
            "No rule asks whether the barrier goes all the way round: one straight fence beside the pool passes `{}` and \
             all the others. Measure an `enclosure` in a rule of its own.",
            rule.id
        )
    })
}
