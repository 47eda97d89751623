//! Cases from their texts.

use rules_core::ruleset::RuleSet;
use rules_core::text::{Faults, read};

pub use rules_core::cases::*;

/// Tries all cases of a file.
///
/// # Errors
/// What is wrong with the file of cases itself.
pub fn try_cases(rules: &RuleSet, text: &str) -> Result<Vec<Tried>, Faults> {
    try_node(rules, &read(text)?)
}

/// The plan that the cases of a file share, laid under a change: the text that the plan reader reads.
///
/// # Errors
/// What is wrong with either text.
pub fn changed_base(cases: &str, change: &str) -> Result<String, Faults> {
    let (cases, change) = (read(cases)?, read(change)?);
    let base = cases.get("base").cloned().unwrap_or_else(|| change.clone());
    Ok(json(&laid_over(&base, &change)))
}
