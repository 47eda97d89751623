//! Places along things, and which pool is meant.

use super::context::ReportContext;
use super::figures::{measured_alone, unit_of};
use super::model::AtReport;
use crate::check::{At, Part, Reading};
use crate::plan::{Amount, ThingIndex};
use crate::ruleset::Value;
use crate::vocabulary::FactId;

impl ReportContext<'_> {
    /// The place at which a part is told.
    pub(super) fn at(&self, part: &Part) -> Vec<AtReport> {
        let at = part.place().map_or(&[][..], |place| &place.at);
        self.at_reports(at)
    }

    pub(super) fn at_reports(&self, at: &[At]) -> Vec<AtReport> {
        at.iter().map(|one| self.at_report(*one)).collect()
    }

    fn at_report(&self, at: At) -> AtReport {
        let amount = self.amount_at(at);
        let known = self.rules.vocabulary.fact(at.fact);
        let end = end_word(at.highest);
        let behind = amount.as_ref().map(|amount| format!(" ({amount})"));
        AtReport {
            thing: at.thing.and_then(|thing| self.id_of(thing)),
            fact: self.rules.vocabulary.fact_path(at.fact),
            end: end.to_owned(),
            said: format!(
                "where {} is {end}{}",
                known.phrase(),
                behind.unwrap_or_default()
            ),
            amount,
        }
    }

    /// How much a fact is at a place along one thing, as the plan states it.
    fn amount_at(&self, at: At) -> Option<String> {
        let amount = self.amount_of(at.thing?, at.fact)?;
        let range = match at.highest {
            true => amount.most?,
            false => amount.least,
        };
        let unit = unit_of(amount.unit, amount.dimension);
        Some(measured_alone(range, unit).text)
    }

    fn amount_of(&self, thing: ThingIndex, fact: FactId) -> Option<&Amount> {
        self.thing(thing)?.facts.get(&fact)?.amount.as_ref()
    }

    /// At which place along its thing a reading was taken: `where it is lowest`.
    pub(super) fn place_words_of(&self, part: &Part, reading: &Reading) -> Option<String> {
        reading.along?;
        let fact = fact_of(reading.value())?;
        let at = part.place()?.at.iter().find(|at| at.fact == fact)?;
        Some(format!("where it is {}", end_word(at.highest)))
    }

    /// The places that a part's readings do not name, as a lead to its sentence: `where the height is lowest (40 in), `.
    pub(super) fn other_places(&self, part: &Part) -> String {
        let told = |at: &&At| {
            let read = part
                .readings
                .iter()
                .filter(|reading| reading.along.is_some());
            let mut facts = read.filter_map(|reading| fact_of(reading.value()));
            facts.any(|fact| fact == at.fact)
        };
        let places = part.place().map_or(&[][..], |place| &place.at);
        let others = places.iter().filter(|at| !told(at));
        let others: Vec<String> = others.map(|at| self.at_report(*at).said).collect();
        match others.is_empty() {
            true => String::new(),
            false => format!("{}, ", others.join(" and ")),
        }
    }

    /// Whether the plan has several pools, so that it must be said which one is meant.
    pub(super) fn several_pools(&self) -> bool {
        let pool = self.rules.vocabulary.kind_named("pool");
        let pools = self.plan.things.iter();
        pools.filter(|thing| Some(thing.kind) == pool).count() > 1
    }
}

fn end_word(highest: bool) -> &'static str {
    match highest {
        true => "highest",
        false => "lowest",
    }
}

/// The fact that a value is.
pub(super) fn fact_of(value: &Value) -> Option<FactId> {
    match value {
        Value::Fact(fact) => Some(*fact),
        Value::Named { value, .. } => fact_of(value),
        _ => None,
    }
}
