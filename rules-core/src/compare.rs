//! What a new edition of a rule set changes: which rules, papers, steps and so on, in words, and which plans come out
//! differently.
//!
//! What both say in words is compared, so that another order, another spelling or another unit of the same length
//! written the same way is no change.

#[cfg(test)]
mod compare_tests;
mod words;

use std::collections::BTreeMap;

use crate::check::{Outcome, TooMuch, Verdict, governed};
use crate::plan;
use crate::ruleset::RuleSet;
use crate::ruleset::say::{Group, Line, Said, Sort, read_back};
use crate::text::Faults;

/// What changes from one rule set to another.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Changes {
    /// What they say of themselves, as it was and as it is, where that differs.
    pub head: Option<(Vec<Line>, Vec<Line>)>,
    /// What changed of each sort; only sorts of which something changed.
    pub groups: Vec<(Sort, Changed)>,
}

/// What was added, removed, renamed and changed of one sort.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Changed {
    /// What only the new one has.
    pub added: Vec<Said>,
    /// What only the old one has.
    pub removed: Vec<Said>,
    /// What both say in the same sentences under another short name: as it was, and as it is.
    pub renamed: Vec<(Said, Said)>,
    /// What both have and say differently: as it was, and as it is.
    pub changed: Vec<(Said, Said)>,
}

impl Changed {
    /// Whether nothing changed.
    pub fn is_empty(&self) -> bool {
        self == &Self::default()
    }

    fn of(old: &[Said], new: &[Said]) -> Self {
        let mut before: BTreeMap<&str, &Said> =
            old.iter().map(|said| (said.id.as_str(), said)).collect();
        let mut changes = Self::default();
        for now in new {
            match before.remove(now.id.as_str()) {
                None => changes.added.push(now.clone()),
                Some(then) if then != now => changes.changed.push((then.clone(), now.clone())),
                Some(_) => {}
            }
        }
        let gone = old
            .iter()
            .filter(|said| before.contains_key(said.id.as_str()));
        changes.removed.extend(gone.cloned());
        changes.find_renamed();
        changes
    }

    /// What went and came back under another name, saying the same.
    fn find_renamed(&mut self) {
        for then in std::mem::take(&mut self.removed) {
            let mut added = self.added.iter();
            match added.position(|now| says_the_same(&then, now)) {
                Some(place) => self.renamed.push((then, self.added.remove(place))),
                None => self.removed.push(then),
            }
        }
    }
}

/// Whether they differ in their short names, and perhaps in title and clause, only.
fn says_the_same(then: &Said, now: &Said) -> bool {
    !then.lines.is_empty() && then.lines == now.lines
}

/// Compares two rule sets.
pub fn compare(old: &RuleSet, new: &RuleSet) -> Changes {
    let (before, now) = (read_back(old), read_back(new));
    let head = before.title != now.title || before.head != now.head;
    let titled = |title: String, head: Vec<Line>| [vec![Line::new(title)], head].concat();
    let changed = |group: &Group| Changed::of(before.group(group.sort), &group.said);
    let groups = now.groups.iter().map(|group| (group.sort, changed(group)));
    Changes {
        groups: groups.filter(|(_, changed)| !changed.is_empty()).collect(),
        head: head.then(|| {
            let then = titled(before.title.clone(), before.head.clone());
            (then, titled(now.title.clone(), now.head.clone()))
        }),
    }
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
