//! What a rule set asks of one part of a barrier and of no other, though a child can get through either.

use std::collections::BTreeMap;

use super::reads;
use crate::ruleset::{RuleSet, Strength};

/// Questions for whoever wrote a rule file: what its own binding rules ask of a fence, and no rule at all of a gate. One for
/// each such fact of a gate; the law may mean it so.
pub fn unasked(rules: &RuleSet) -> Vec<String> {
    let vocabulary = &rules.vocabulary;
    let read = reads::of(rules).facts;
    let mut questions = BTreeMap::new();
    let own = rules.rules.iter().filter(|rule| rule.layer == 0);
    for rule in own.filter(|rule| rule.strength == Strength::Must) {
        let asked = reads::facts_of(&rule.require, vocabulary);
        let pairs = vocabulary.of_fence_and_gate();
        for (fence, gate) in
            pairs.filter(|(fence, gate)| asked.contains(fence) && !read.contains_key(gate))
        {
            questions.entry(gate).or_insert_with(|| {
                format!(
                    "The rule `{}` asks for `{}`, and no rule for `{}`: may the {} be anything?",
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
