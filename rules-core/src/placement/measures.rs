//! What the places on offer are compared by, all of it as drawn.

use super::Ground;
use super::model::Measure;
use super::offers::length;
use super::spot::{MILLIMETRE, Way};
use crate::check::{Outcome, governed};
use crate::measure::figure_gap;
use crate::plan::{Figure, Plan, ThingIndex};
use crate::quantity::Unit;
use crate::report::{RuleReport, Texts, governed_report};
use crate::vocabulary::Vocabulary;

impl Ground<'_> {
    /// What each rule about the pool comes to in a place, with its margin, and how far the pool is from what stands there.
    pub(super) fn measures(&mut self, way: Way, unit: Unit) -> Vec<Measure> {
        let ids: Vec<String> = self
            .mapped()
            .iter()
            .map(|it| self.judging.id(*it).to_owned())
            .collect();
        let rules = self.judging.rules();
        let plan = self.judging.drawn_plan(way);
        let Ok(found) = governed(plan, rules) else {
            return Vec::new();
        };
        let report = governed_report(&found, plan, &Texts::default());
        let about_place = |rule: &&RuleReport| ids.contains(&rule.id) || is_measured_of_pool(rule);
        let of_rules = report.rules.iter().filter(about_place).map(of_rule);
        let from_pool = standing(plan, &self.moving.things, &rules.vocabulary, unit);
        of_rules.chain(from_pool).collect()
    }
}

/// Whether a rule names a pool and compares an amount.
fn is_measured_of_pool(rule: &RuleReport) -> bool {
    let mut parts = rule.parts.iter();
    parts.any(|part| part.pool.is_some() && part.margin.is_some())
}

fn of_rule(rule: &RuleReport) -> Measure {
    let deciding = rule.deciding.and_then(|at| rule.parts.get(at));
    let brief = deciding.map(|part| part.brief.clone()).unwrap_or_default();
    Measure {
        what: rule.title.clone(),
        rule: Some(rule.id.clone()),
        says: match (rule.outcome, brief.is_empty()) {
            (Outcome::NotApplicable, _) => "does not apply".to_owned(),
            (outcome, true) => outcome.word().to_owned(),
            (_, false) => brief,
        },
    }
}

/// The distance from the pool's first outline to each thing that stands on the plan and does not move with it.
fn standing(
    plan: &Plan,
    moving: &[ThingIndex],
    vocabulary: &Vocabulary,
    unit: Unit,
) -> Vec<Measure> {
    let pool = moving.first().and_then(|pool| plan.things.get(*pool));
    let Some(pool) = pool.and_then(|pool| pool.outlines.values().next()) else {
        return Vec::new();
    };
    let things = plan.things.iter().enumerate();
    let stays = things.filter(|(index, _)| !moving.contains(index));
    stays
        .filter_map(|(_, thing)| {
            let solid = thing
                .outlines
                .iter()
                .filter(|(id, _)| vocabulary.outline(**id).solid);
            let gaps = solid.map(|(_, figure)| millimetres(pool, figure));
            Some(Measure {
                what: format!("Distance to {}", thing.called()),
                rule: None,
                says: length(gaps.min()?, unit),
            })
        })
        .collect()
}

/// Rounded down.
fn millimetres(one: &Figure, other: &Figure) -> i64 {
    figure_gap(one, other).low.div_euclid(MILLIMETRE)
}
