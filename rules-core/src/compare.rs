//! What a new edition of a rule set changes: which rules, in words, and which plans come out otherwise.
//!
//! What a rule says in words is compared, so that another order, another spelling or another unit of the same length
//! written the same way is no change.

#[cfg(test)]
mod compare_tests;
mod words;

use std::collections::BTreeMap;

use crate::check::{Outcome, TooMuch, Verdict, governed};
use crate::plan;
use crate::ruleset::say::{ReadBack, Said, read_back};
use crate::ruleset::{Duty, Rule, RuleSet, Strength};
use crate::text::Faults;

/// What changes from one rule set to another.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Changes {
    /// The defined terms.
    pub terms: Changed,
    /// The rules.
    pub rules: Changed,
    /// The decisions.
    pub decisions: Changed,
    /// What is to be done, and by when.
    pub duties: Changed,
}

/// What was added, removed and changed of one sort.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Changed {
    /// What only the new one has.
    pub added: Vec<Said>,
    /// What only the old one has.
    pub removed: Vec<Said>,
    /// What both have and say differently: as it was, and as it is.
    pub changed: Vec<(Said, Said)>,
}

impl Changed {
    /// Whether nothing changed.
    pub fn is_empty(&self) -> bool {
        self.added.is_empty() && self.removed.is_empty() && self.changed.is_empty()
    }

    fn of(old: Vec<Said>, new: Vec<Said>) -> Self {
        let mut before: BTreeMap<String, Said> = old
            .iter()
            .map(|said| (said.id.clone(), said.clone()))
            .collect();
        let mut changes = Self::default();
        for now in new {
            match before.remove(&now.id) {
                None => changes.added.push(now),
                Some(then) if then != now => changes.changed.push((then, now)),
                Some(_) => {}
            }
        }
        let gone = old.into_iter().filter(|said| before.contains_key(&said.id));
        changes.removed.extend(gone);
        changes
    }
}

/// Compares two rule sets.
pub fn compare(old: &RuleSet, new: &RuleSet) -> Changes {
    let (before, now): (ReadBack, ReadBack) = (read_back(old), read_back(new));
    let rules = Changed::of(whole_rules(before.rules, old), whole_rules(now.rules, new));
    Changes {
        terms: Changed::of(before.terms, now.terms),
        rules,
        decisions: Changed::of(before.decisions, now.decisions),
        duties: Changed::of(duties(old), duties(new)),
    }
}

/// The rules with what the read-back leaves out: whether they bind, and what to do about a failure.
fn whole_rules(said: Vec<Said>, rules: &RuleSet) -> Vec<Said> {
    let with_rest = |(said, rule): (Said, &Rule)| {
        let advice = rule.strength == Strength::Should;
        let advice = advice.then(|| "It advises, and does not bind".to_owned());
        let remedy = rule.remedy.as_ref();
        let remedy = remedy.map(|remedy| format!("What to do: {}", remedy.trim_end_matches('.')));
        said.with(advice.into_iter().chain(remedy))
    };
    said.into_iter().zip(&rules.rules).map(with_rest).collect()
}

fn duties(rules: &RuleSet) -> Vec<Said> {
    let said = |duty: &Duty| Said {
        id: duty.id.clone(),
        title: duty.what.clone(),
        clause: None,
        lines: Vec::new(),
    };
    let sentence = |duty: &Duty| {
        crate::report::duty_sentence(duty, true)
            .trim_end_matches('.')
            .to_owned()
    };
    rules
        .duties
        .iter()
        .map(|duty| said(duty).with([sentence(duty)]))
        .collect()
}

/// How a plan comes out under two rule sets.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlanCompared {
    /// What the plan is called.
    pub title: String,
    /// What the whole came to, and what it comes to now.
    pub verdict: (Verdict, Verdict),
    /// The rules that come out otherwise, by their ids: what they came to, and what they come to; `None` where a rule
    /// set has no such rule.
    pub rules: Vec<(String, Option<Outcome>, Option<Outcome>)>,
}

/// Judges a plan by two rule sets.
///
/// # Errors
/// What is wrong with the plan under one of them, or that judging it would take too long.
pub fn compare_plan(text: &str, old: &RuleSet, new: &RuleSet) -> Result<PlanCompared, Faults> {
    let (title, then, before) = judged(text, old)?;
    let (_, now, after) = judged(text, new)?;
    let ids = new.rules.iter().chain(&old.rules).map(|rule| &rule.id);
    let mut rules: Vec<(String, Option<Outcome>, Option<Outcome>)> = Vec::new();
    for id in ids {
        let (was, is) = (before.get(id).copied(), after.get(id).copied());
        if was != is && rules.iter().all(|(known, ..)| known != id) {
            rules.push((id.clone(), was, is));
        }
    }
    Ok(PlanCompared {
        title,
        verdict: (then, now),
        rules,
    })
}

type Judged = (String, Verdict, BTreeMap<String, Outcome>);

fn judged(text: &str, rules: &RuleSet) -> Result<Judged, Faults> {
    let plan = plan::read(text, &rules.vocabulary)?;
    let governed = governed(&plan, rules).map_err(TooMuch::of_plan)?;
    let (rules, found) = (governed.rules, governed.findings);
    let outcome = |finding: &crate::check::Finding| {
        let rule = rules.rule(finding.rule)?;
        Some((rule.id.clone(), finding.outcome))
    };
    let outcomes = found.rules.iter().filter_map(outcome).collect();
    Ok((plan.title.clone(), found.verdict, outcomes))
}
