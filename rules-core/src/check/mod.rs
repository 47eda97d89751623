//! Judges a plan against a rule set, over all that is still possible.
//!
//! A plan stands for every world that agrees with what it states; a rule's truth is the set of what it comes to in
//! those worlds. Nothing here knows how a report looks.

mod aims;
mod blur;
mod combine;
mod compare;
mod cover;
mod distance;
mod editions;
mod enclosure;
mod extent;
mod facts;
mod far;
mod finding;
mod ground;
pub(crate) mod heights;
mod holes;
mod judge;
pub(crate) mod levels;
mod lines;
mod missing;
mod outcome;
mod papers;
mod passage;
mod reading;
mod readings;
mod region;
mod room;
mod rule;
mod scene;
mod select;
mod sound;
pub(crate) mod special;
mod split;
mod tapes;
mod total;
mod truth;
mod value;
mod verdict;
mod way;
mod wires;
mod zone;

pub use editions::{Edition, Governed, governed};
pub use finding::*;
pub use outcome::{Outcome, Verdict};
pub use papers::questions;
pub use passage::passages;
pub use tapes::contradictions;
pub use truth::{Level, Truth};

use crate::plan::Plan;
use crate::ruleset::{InForce, RuleSet};
use judge::Judge;
use scene::{Base, Scene};
use special::Special;

/// Judges a plan against a rule set, of which an earlier edition is left aside.
pub fn check<'a>(plan: &'a Plan, rules: &'a RuleSet) -> Findings<'a> {
    judged_by(&judge_of(plan, rules, rules.in_force.as_ref()))
}

fn judge_of<'a>(plan: &'a Plan, rules: &'a RuleSet, in_force: Option<&'a InForce>) -> Judge<'a> {
    Judge {
        scene: Scene::new(Base::new(plan, rules)),
        special: Special::of(&rules.vocabulary),
        keeps: true,
        in_force,
    }
}

fn judged_by<'a>(judge: &Judge<'a>) -> Findings<'a> {
    let rules = judge.scene.rules();
    let found: Vec<_> = rules
        .rules
        .iter()
        .enumerate()
        .map(|(index, rule)| judge.finding(index, rule))
        .collect();
    let verdict = verdict::verdict(judge, &rules.rules, &found);
    let findings: Vec<Finding<'a>> = found.into_iter().map(|(finding, _)| finding).collect();
    Findings {
        verdict,
        documents: judge.documents(&findings),
        decisions: judge.decisions(),
        cautions: judge.cautions(),
        duties: judge.duties(),
        rules: findings,
    }
}
