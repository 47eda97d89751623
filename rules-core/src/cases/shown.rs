//! Which outcomes the cases of a rule set have shown for each rule.

use std::collections::BTreeMap;

use super::Tried;
use crate::check::Outcome;
use crate::ruleset::RuleSet;

/// The outcomes that the cases have shown for a rule.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Shown {
    /// The rule's id.
    pub rule: String,
    /// The clause that it cites.
    pub clause: String,
    /// Some case passes it.
    pub passing: bool,
    /// Some case fails it.
    pub failing: bool,
    /// Some case leaves it open, or to the authority.
    pub open: bool,
}

/// The outcomes that the cases have shown for each of the file's own rules, in the order of the file.
pub fn shown(rules: &RuleSet, tried: &[Tried]) -> Vec<Shown> {
    let own = rules.rules.iter().filter(|rule| rule.layer == 0);
    let mut all: Vec<Shown> = own
        .map(|rule| Shown {
            rule: rule.id.clone(),
            clause: rule.clause.clone(),
            ..Shown::default()
        })
        .collect();
    let mut by_id: BTreeMap<String, &mut Shown> = all
        .iter_mut()
        .map(|shown| (shown.rule.clone(), shown))
        .collect();
    for (id, outcome) in tried.iter().flat_map(|case| &case.outcomes) {
        if let Some(shown) = by_id.get_mut(id) {
            shown.add(*outcome);
        }
    }
    all
}

impl Shown {
    fn add(&mut self, outcome: Outcome) {
        match outcome {
            Outcome::Pass => self.passing = true,
            Outcome::Fail => self.failing = true,
            Outcome::Unknown | Outcome::Marginal | Outcome::Refer => self.open = true,
            Outcome::NotApplicable => {}
        }
    }

    /// The outcomes that no case has shown, in words: `passing`, `failing`, `open`.
    pub fn lacking(&self) -> Vec<&'static str> {
        let all = [
            (self.passing, "passing"),
            (self.failing, "failing"),
            (self.open, "open"),
        ];
        let lacking = all.into_iter().filter(|(shown, _)| !shown);
        lacking.map(|(_, word)| word).collect()
    }
}
