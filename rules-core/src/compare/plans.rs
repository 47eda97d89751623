//! What two rule sets make of a plan: which rules, classes, papers, steps and cautions come out differently.

use super::Changes;
use crate::check::{Outcome, TooMuch, Verdict, governed};
use crate::plan;
use crate::report::{Report, RuleReport, Texts, governed_report};
use crate::ruleset::RuleSet;
use crate::ruleset::say::Sort;
use crate::text::{Faults, Visible};

/// How a plan comes out under two rule sets.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlanCompared {
    /// What the plan is called.
    pub title: String,
    /// What the whole came to, and what it comes to now.
    pub verdict: (Verdict, Verdict),
    /// The rules that come out differently, or by another figure.
    pub rules: Vec<RuleCompared>,
    /// The classes, papers, steps, cautions and questions that do.
    pub lists: Vec<(Sort, Vec<ListCompared>)>,
}

/// How a rule comes out under two rule sets.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RuleCompared {
    /// Its id in the new rule set, or in the old one where it has gone.
    pub id: String,
    /// Its title.
    pub title: String,
    /// What it came to, and what it comes to; `None` where a rule set has no such rule.
    pub outcomes: Outcomes,
}

/// What a rule came to, and what it comes to.
pub type Outcomes = (Option<Told>, Option<Told>);

/// What a rule comes to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Told {
    /// The outcome.
    pub outcome: Outcome,
    /// The same in a sentence, with the figures.
    pub sentence: String,
    /// Between which places it was measured.
    pub measured: Option<String>,
}

/// An entry of a list that comes out differently: what was said of it, and what is said.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ListCompared {
    /// Its short name.
    pub id: String,
    /// As it was.
    pub then: Option<String>,
    /// As it is.
    pub now: Option<String>,
}

impl PlanCompared {
    /// Whether it fails now, and did not before.
    pub fn newly_fails(&self) -> bool {
        let fails = |verdict| verdict == Verdict::DoesNotComply;
        fails(self.verdict.1) && !fails(self.verdict.0)
    }

    /// Whether it failed before, and does not now.
    pub fn no_longer_fails(&self) -> bool {
        let fails = |verdict| verdict == Verdict::DoesNotComply;
        fails(self.verdict.0) && !fails(self.verdict.1)
    }

    /// Whether nothing comes out differently.
    pub fn is_same(&self) -> bool {
        self.verdict.0 == self.verdict.1 && self.rules.is_empty() && self.lists.is_empty()
    }
}

/// Judges a plan by two rule sets, of which `changes` says what changes from one to the other.
///
/// # Errors
/// What is wrong with the plan under one of them, or that judging it would take too long.
pub fn compare_plan(
    text: &str,
    (old, new): (&RuleSet, &RuleSet),
    changes: &Changes,
) -> Result<PlanCompared, Faults> {
    let (before, now) = (judged(text, old)?, judged(text, new)?);
    let lists = [
        (Sort::Decisions, listed(&before, &now, decisions)),
        (Sort::Papers, listed(&before, &now, papers)),
        (Sort::Steps, listed(&before, &now, steps)),
        (Sort::Cautions, listed(&before, &now, cautions)),
        (Sort::Questions, listed(&before, &now, questions)),
        (Sort::Scope, listed(&before, &now, open_matters)),
    ];
    let lists = lists.into_iter();
    Ok(PlanCompared {
        title: now.plan.title.clone(),
        verdict: (before.verdict.word, now.verdict.word),
        rules: rules(&before, &now, changes),
        lists: lists.filter(|(_, list)| !list.is_empty()).collect(),
    })
}

fn judged(text: &str, rules: &RuleSet) -> Result<Report, Faults> {
    let plan = plan::read(text, &rules.vocabulary)?;
    let governed = governed(&plan, rules).map_err(TooMuch::of_plan)?;
    Ok(governed_report(&governed, &plan, &Texts::default()))
}

fn rules(before: &Report, now: &Report, changes: &Changes) -> Vec<RuleCompared> {
    let was = |id: &str| before.rules.iter().find(|rule| rule.id == id);
    let kept = now.rules.iter().filter_map(|rule| {
        let then = was(changes.former(&rule.id)).map(told);
        compared(rule, (then, Some(told(rule))))
    });
    let still = |id: &str| now.rules.iter().any(|rule| changes.former(&rule.id) == id);
    let gone = before.rules.iter().filter(|rule| !still(&rule.id));
    let gone = gone.filter_map(|rule| compared(rule, (Some(told(rule)), None)));
    let mut all: Vec<RuleCompared> = kept.chain(gone).collect();
    // What comes out differently is told before what only has other figures.
    all.sort_by_key(|rule| rule.outcome(true) == rule.outcome(false));
    all
}

fn compared(rule: &RuleReport, outcomes: Outcomes) -> Option<RuleCompared> {
    (outcomes.0 != outcomes.1).then(|| RuleCompared {
        id: rule.id.clone(),
        title: rule.title.clone(),
        outcomes,
    })
}

impl RuleCompared {
    /// What it came to, or what it comes to.
    pub fn outcome(&self, before: bool) -> Option<Outcome> {
        let (then, now) = &self.outcomes;
        let told = if before { then } else { now };
        told.as_ref().map(|told| told.outcome)
    }
}

fn told(rule: &RuleReport) -> Told {
    let part = rule.deciding.and_then(|place| rule.parts.get(place));
    let reading = part.and_then(|part| part.readings.get(part.telling?));
    let witness = reading.and_then(|reading| reading.witness.as_ref());
    Told {
        outcome: rule.outcome,
        sentence: rule.sentence.clone(),
        measured: witness.map(|witness| witness.text.clone()),
    }
}

/// The entries of a report's list, by their short names.
type Entries = Vec<(String, String)>;

fn decisions(report: &Report) -> Entries {
    let all = report.decisions.iter();
    all.map(|one| (one.id.clone(), format!("{}: {}", one.title, one.sentence)))
        .collect()
}

fn papers(report: &Report) -> Entries {
    let all = report.documents.iter();
    all.map(|one| (one.id.clone(), one.sentence.clone()))
        .collect()
}

fn steps(report: &Report) -> Entries {
    let all = report.duties.iter();
    all.map(|one| (one.id.clone(), one.sentence.clone()))
        .collect()
}

fn cautions(report: &Report) -> Entries {
    let all = report.cautions.iter();
    all.map(|one| (one.id.clone(), one.says.clone())).collect()
}

fn questions(report: &Report) -> Entries {
    let all = report.questions.iter().map(|one| &one.missing);
    all.map(|one| (one.name.clone(), one.question.clone()))
        .collect()
}

fn open_matters(report: &Report) -> Entries {
    let all = report.scope.open.iter();
    all.map(|one| (one.matter.clone(), one.question.clone()))
        .collect()
}

/// What is in one report's list and not in the other's, or is said differently there.
fn listed(before: &Report, now: &Report, list: fn(&Report) -> Entries) -> Vec<ListCompared> {
    let (mut before, mut now) = (list(before), list(now));
    let both: Entries = now
        .iter()
        .filter(|one| before.contains(one))
        .cloned()
        .collect();
    before.retain(|one| !both.contains(one));
    now.retain(|one| !both.contains(one));
    let mut all = Vec::new();
    for (id, text) in now {
        let place = before.iter().position(|(other, _)| *other == id);
        all.push(ListCompared {
            then: place.map(|place| before.remove(place).1),
            now: Some(text),
            id,
        });
    }
    let gone = before.into_iter().map(|(id, text)| ListCompared {
        id,
        then: Some(text),
        now: None,
    });
    all.into_iter().chain(gone).collect()
}

/// How many of several plans come out differently, and by which rules; each plan stands with the name of its file.
pub fn summary(plans: &[(String, PlanCompared)]) -> Visible {
    let counted = |is: fn(&PlanCompared) -> bool| plans.iter().filter(|(_, plan)| is(plan)).count();
    let (fail, mended, same) = (
        counted(PlanCompared::newly_fails),
        counted(PlanCompared::no_longer_fails),
        counted(PlanCompared::is_same),
    );
    let all = plans.len();
    let noun = if all == 1 { "plan" } else { "plans" };
    let line = |number: usize, one: &str, more: &str| {
        let verb = if number == 1 { one } else { more };
        format!("{number} of {all} {noun} {verb}.")
    };
    let mut text = Visible::new();
    text.line(line(fail, "newly fails", "newly fail"));
    if mended > 0 {
        text.line(line(mended, "no longer fails", "no longer fail"));
    }
    if same > 0 {
        let (one, more) = ("comes out as before in all", "come out as before in all");
        text.line(line(same, one, more));
    }
    text.extend(newly_failing_rules(plans));
    text
}

/// Which rules newly fail, and in how many plans.
fn newly_failing_rules(plans: &[(String, PlanCompared)]) -> Vec<String> {
    let mut failing: Vec<(&str, &str, usize)> = Vec::new();
    let rules = plans.iter().flat_map(|(_, plan)| &plan.rules);
    let fails = |outcome| outcome == Some(Outcome::Fail);
    for rule in rules.filter(|rule| fails(rule.outcome(false)) && !fails(rule.outcome(true))) {
        match failing.iter_mut().find(|(id, ..)| *id == rule.id) {
            Some((.., number)) => *number += 1,
            None => failing.push((&rule.id, &rule.title, 1)),
        }
    }
    let line = |(id, title, number): (&str, &str, usize)| {
        let plans = if number == 1 { "plan" } else { "plans" };
        format!("  {title} (`{id}`) newly fails for {number} {plans}.")
    };
    failing.into_iter().map(line).collect()
}
