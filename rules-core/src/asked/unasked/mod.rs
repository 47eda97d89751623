//! Gaps in a rule set that could get somebody hurt, as questions for whoever wrote the rule file. The law may intend
//! them.

mod fence;
mod pools;
mod words;

#[cfg(test)]
mod unasked_tests;

use crate::ruleset::{Rule, RuleSet, Strength};

/// The questions that the file's own rules raise, in one or two sentences each.
pub fn unasked(rules: &RuleSet) -> Vec<String> {
    let fence = fence::no_gate(rules)
        .into_iter()
        .chain(fence::not_all_round(rules));
    let pools = pools::one_answer(rules)
        .into_iter()
        .chain(pools::one_paper(rules));
    fence.chain(words::left_out(rules)).chain(pools).collect()
}

/// The file's own binding rules.
fn own(rules: &RuleSet) -> impl Iterator<Item = &Rule> {
    binding(rules).filter(|rule| rule.layer == 0)
}

fn binding(rules: &RuleSet) -> impl Iterator<Item = &Rule> {
    let all = rules.rules.iter();
    all.filter(|rule| rule.strength == Strength::Must)
}

/// The words of a list in a sentence: `a`, `b` or `c`.
fn either<'w>(words: impl IntoIterator<Item = &'w String>) -> String {
    let quoted: Vec<String> = words.into_iter().map(|word| format!("`{word}`")).collect();
    match quoted.split_last() {
        Some((last, [])) => last.clone(),
        Some((last, others)) => format!("{} or {last}", others.join(", ")),
        None => String::new(),
    }
}
