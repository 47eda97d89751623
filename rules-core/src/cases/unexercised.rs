//! Rules that no case tries, where a slip would go unnoticed.

use super::{Tried, shown};
use crate::faults::Code;
use crate::ruleset::RuleSet;
use crate::text::Faults;

/// The file's own rules that no case exercises, each with its place in the file.
pub fn unexercised(rules: &RuleSet, tried: &[Tried]) -> Faults {
    let mut slips = Faults::default();
    let own = rules.rules.iter().filter(|rule| rule.layer == 0);
    for (rule, shown) in own.zip(shown(rules, tried)) {
        if shown.lacking().len() == 3 {
            let id = &rule.id;
            let message = match tried.iter().any(|case| case.outcomes.contains_key(id)) {
                true => format!("Where cases name the rule `{id}`, it does not apply."),
                false => format!("No case tries the rule `{id}`."),
            };
            slips.add(Code::NoCase, rule.span, message).help(
                "Write one in which it passes, one in which it fails, and one in which it is open.",
            );
        }
    }
    slips
}
