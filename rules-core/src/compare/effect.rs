//! What a change of a rule means: whether it is stricter, laxer, or in which cases each.

use super::{Change, Changed};
use crate::ruleset::say::Said;
use crate::ruleset::stricter::{Together, Way, differences, together, ways_words};
use crate::ruleset::{Rule, RuleSet};

/// What a change of a rule means.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Effect {
    /// `same`, `stricter`, `laxer`, `both` or `changed`.
    pub word: &'static str,
    /// The same in a sentence, with the cases.
    pub sentence: String,
}

/// Adds what the changes of rules mean, and the rules that a changed term changes.
pub(super) fn told(
    changed: Changed,
    (old, before): (&RuleSet, &[Said]),
    (new, now): (&RuleSet, &[Said]),
) -> Changed {
    let mut all = changed;
    let named = |rules: &'_ RuleSet, id: &str| rules.rules.iter().position(|rule| rule.id == id);
    for change in &mut all.changed {
        let pair = named(old, &change.then.id).zip(named(new, &change.now.id));
        change.effect = pair.and_then(|(then, now)| {
            let (then, now) = (old.rules.get(then)?, new.rules.get(now)?);
            Some(effect(then, now, (old, new)))
        });
    }
    for (rule, said) in new.rules.iter().zip(now) {
        let then = named(old, &rule.id);
        let known = all.changed.iter().any(|change| change.now.id == rule.id);
        let pair = then.and_then(|then| old.rules.get(then).zip(before.get(then)));
        if let (Some((was, before)), false) = (pair, known) {
            all.changed
                .extend(through_terms((was, before), (rule, said), (old, new)));
        }
    }
    all
}

/// A rule that says what it said, in words of which one means something else now.
fn through_terms(
    (was, before): (&Rule, &Said),
    (rule, said): (&Rule, &Said),
    sets: (&RuleSet, &RuleSet),
) -> Option<Change> {
    let effect = effect(was, rule, sets);
    (effect.word != "same").then(|| Change {
        effect: Some(effect),
        ..Change::of(before, said)
    })
}

fn effect(old: &Rule, new: &Rule, (then, now): (&RuleSet, &RuleSet)) -> Effect {
    let all = differences(old, new);
    let word = match together(&all) {
        Together::Same => "same",
        Together::One(Way::Stricter) => "stricter",
        Together::One(Way::Laxer) => "laxer",
        Together::One(Way::Changed) => "changed",
        Together::Both => "both",
    };
    let ways = ways_words(&all, then, now);
    let sentence = match ways.is_empty() {
        true => "What it asks of a plan is the same".to_owned(),
        false => format!("It is {ways}"),
    };
    Effect { word, sentence }
}
