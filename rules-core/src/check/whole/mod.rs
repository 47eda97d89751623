//! Everything that is found about a plan: under each rule, and beside the rules.

pub(super) mod bound;
mod classes;
pub(super) mod contradictions;
pub(super) mod editions;
mod mentions;
pub(super) mod papers;
mod verdict;

use self::bound::TooMuch;
use crate::check::judge::Judge;
use crate::check::world::base::Base;
use crate::check::world::dependency::Dependency;
use crate::check::world::scene::Scene;
use crate::check::{Finding, Findings};
use crate::plan::Plan;
use crate::ruleset::{InForce, RuleSet};
use crate::work;

/// Judges a plan against a rule set. Its earlier editions are ignored.
///
/// # Errors
/// That it would take too long: then there are no findings at all.
pub fn check<'a>(plan: &'a Plan, rules: &'a RuleSet) -> Result<Findings<'a>, TooMuch> {
    judged_by(&judge_of(plan, rules, rules.in_force.as_ref()))
}

fn judge_of<'a>(plan: &'a Plan, rules: &'a RuleSet, in_force: Option<&'a InForce>) -> Judge<'a> {
    Judge {
        keeps: true,
        ..Judge::new(Scene::new(Base::new(plan, rules)), in_force)
    }
}

pub(super) fn judged_by<'a>(judge: &Judge<'a>) -> Result<Findings<'a>, TooMuch> {
    let rules = judge.scene.rules();
    let foreseen = |rule| TooMuch::foreseen(judge, rule);
    if let Some(too_much) = rules.all_rules().find_map(foreseen) {
        return Err(too_much);
    }
    let mut now = None;
    let found = work::bounded(|| {
        let mut found = Vec::new();
        for (index, rule) in rules.all_rules().enumerate() {
            now = Some(rule);
            found.push(judge.finding(index, rule));
            if work::is_spent() {
                return None;
            }
        }
        now = None;
        Some(all_found(judge, found))
    });
    found.flatten().ok_or_else(|| TooMuch::spent(rules, now))
}

/// All findings, once each rule is judged.
fn all_found<'a>(judge: &Judge<'a>, found: Vec<(Finding, Vec<Dependency>)>) -> Findings<'a> {
    let verdict = verdict::verdict(judge, judge.scene.rules(), &found);
    let findings: Vec<Finding> = found.into_iter().map(|(finding, _)| finding).collect();
    Findings {
        verdict,
        documents: judge.documents(&findings),
        decisions: judge.decisions(),
        cautions: judge.cautions(),
        duties: judge.duties(),
        rules: findings,
    }
}
