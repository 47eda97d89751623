//! What a change of a rule means: whether it is stricter, laxer, or in which cases each.

use super::{Change, Changed};
use crate::ruleset::say::Said;
use crate::ruleset::stricter::{Case, Difference, Together, Way, differences, together};
use crate::ruleset::words::{bounds_words, listed, requirement_words, value_words, verb_after};
use crate::ruleset::{RowTest, Rule, RuleSet};

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
            Some(effect(
                old.rules.get(then)?,
                new.rules.get(now)?,
                (old, new),
            ))
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
    let told = |way, lead: &str| {
        let cases = all.iter().filter(|one| one.way == way);
        let cases: Vec<String> = cases.map(|one| case_words(one, then, now)).collect();
        (!cases.is_empty()).then(|| format!("{lead} {}", listed(&cases, "and")))
    };
    let unseen = told(Way::Changed, "changed")
        .map(|told| format!("{told}, and which is stricter cannot be seen from the two texts"));
    let ways = [
        told(Way::Stricter, "stricter"),
        told(Way::Laxer, "laxer"),
        unseen,
    ];
    let ways: Vec<String> = ways.into_iter().flatten().collect();
    let sentence = match ways.is_empty() {
        true => "What it asks of a plan is the same".to_owned(),
        false => format!("It is {}", ways.join("; ")),
    };
    Effect { word, sentence }
}

/// In which cases, in words.
fn case_words(one: &Difference<'_>, then: &RuleSet, now: &RuleSet) -> String {
    match one.case {
        Case::All => "in what it asks".to_owned(),
        Case::Row(RowTest::Bounds(bounds), by) => {
            let by = by.map_or_else(|| "it".to_owned(), |by| value_words(by, now));
            let is = verb_after(&by, "is");
            format!("where {by}{is} {}", bounds_words(bounds, now))
        }
        Case::Row(RowTest::When(when), _) => format!("where {}", requirement_words(when, now)),
        Case::Row(RowTest::Otherwise, _) => "in all cases for which no row is written".to_owned(),
        Case::Member(member) => {
            let rules = if one.span.is_some() { now } else { then };
            format!("in this: {}", requirement_words(member, rules))
        }
        Case::Applies => "in where it applies".to_owned(),
        Case::Relief(relief) => format!("in the relief “{}”", relief.id.replace('-', " ")),
        Case::Strength => "in whether it binds".to_owned(),
    }
}
