//! When something is in force, in words.

use super::requirement_words;
use crate::quantity::{Unit, show_exactly};
use crate::ruleset::{Condition, InForce, RuleSet};

fn days_words(in_force: &InForce) -> String {
    let day = |day: i128| show_exactly(day, Unit::DATE);
    match (in_force.from, in_force.to) {
        (Some(from), Some(to)) => format!("from {} to {}", day(from), day(to)),
        (Some(from), None) => format!("from {} on", day(from)),
        (None, Some(to)) => format!("up to {}", day(to)),
        (None, None) => "on any day".to_owned(),
    }
}

/// `from 2026-01-01, by the day of the application, or where …, but not where …`.
pub fn in_force_words(in_force: &InForce, rules: &RuleSet) -> String {
    let days = days_words(in_force);
    let by = rules.vocabulary.fact(in_force.by).phrase();
    let by = by.strip_prefix("the ").unwrap_or(&by);
    let where_ = |lead: &str, when: &Option<Condition>| match when {
        Some(when) => format!(
            "{lead} where {}",
            requirement_words(&when.requirement, rules)
        ),
        None => String::new(),
    };
    format!(
        "{days}, by the {by}{}{}",
        where_(", and also", &in_force.or_when),
        where_(", but not", &in_force.unless)
    )
}
