//! One rule's part of the report.

use super::context::ReportContext;
use super::drawn::{may_only_fail_as_drawn, outcome_as_drawn};
use super::figures::margin;
use super::model::{
    Counts, InterpretationReport, MarginReport, PartReport, ReadingReport, RuleReport,
};
use super::readings::About;
use super::sentences::{deciding, rule_sentence};
use crate::check::{Finding, Outcome, Part, Reading};
use crate::quantity::{Unit, show_exactly};
use crate::ruleset::built_in::LAYER;
use crate::ruleset::{Interpretation, Rule};

impl ReportContext<'_> {
    pub(super) fn rule_reports(&self) -> Vec<RuleReport> {
        let findings = self.findings.rules.iter();
        findings
            .filter_map(|finding| Some(self.rule_report(self.rules.rule(finding.rule)?, finding)))
            .collect()
    }

    pub(super) fn rule_report(&self, rule: &Rule, finding: &Finding) -> RuleReport {
        let parts = finding.parts.iter();
        let parts: Vec<_> = parts.map(|part| self.part(About { rule, part })).collect();
        let deciding = deciding(&finding.parts);
        let layer = self.rules.layers.get(rule.layer);
        let documents = rule.documents.iter();
        RuleReport {
            id: rule.id.clone(),
            title: rule.title.clone(),
            clause: rule.clause.clone(),
            strength: rule.strength,
            layer: layer.map_or(LAYER, |layer| &layer.id).to_owned(),
            rule_line: self.rule_line(rule.layer, rule.span.start),
            outcome: finding.outcome,
            as_drawn: outcome_as_drawn(finding),
            sentence: self.whole_sentence(rule, finding, &parts, deciding),
            parts,
            deciding,
            missing: self.all_missing_under(rule, finding),
            remedy: rule.remedy.clone(),
            documents: documents
                .filter_map(|document| Some(self.rules.documents.get(*document)?.id.clone()))
                .collect(),
            provenance: rule.provenance,
            mark: self.rule_mark(rule),
            note: rule.note.clone(),
            interpretations: self.interpretations(rule),
            rule_sets: Vec::new(),
        }
    }

    fn interpretations(&self, rule: &Rule) -> Vec<InterpretationReport> {
        let told = |one: &Interpretation| InterpretationReport {
            id: one.id.clone(),
            says: one.says.clone(),
            by: one.by.clone(),
            since: show_exactly(one.since, Unit::DATE),
        };
        let all = self.rules.interpretations_of(&rule.id);
        all.map(told).collect()
    }

    /// The rule's sentence; where its own `when` decides the outcome, the parts have nothing to say.
    fn whole_sentence(
        &self,
        rule: &Rule,
        finding: &Finding,
        parts: &[PartReport],
        deciding: Option<usize>,
    ) -> String {
        if finding.outcome == Outcome::NotApplicable {
            return self.does_not_apply(rule);
        }
        rule_sentence(finding.outcome, parts, deciding)
    }

    fn part(&self, about: About<'_>) -> PartReport {
        let About { rule, part } = about;
        let compared = part.readings.as_slice();
        let telling = self.telling(part, compared);
        let readings = compared.iter().map(|one| self.reading(about, one));
        let readings: Vec<ReadingReport> = readings.collect();
        let relief = part.relief.and_then(|relief| rule.reliefs.get(relief));
        PartReport {
            subject: self.part_subject(part),
            pool: part.pool.and_then(|pool| self.id_of(pool)),
            at: self.at(part),
            outcome: part.outcome,
            as_drawn: Outcome::decided(part.as_drawn),
            only_fails: may_only_fail_as_drawn(part),
            relief: relief.map(|relief| relief.id.clone()),
            sentence: self.part_sentence(about, &readings),
            margin: room(part, compared),
            readings,
            telling,
            brief: self.part_brief(about, telling.and_then(|at| compared.get(at))),
            missing: self.all_missing_of(about),
            advice: (part.outcome == Outcome::Marginal)
                .then(|| self.advice(about))
                .flatten(),
        }
    }
}

/// How much room a part has, in words.
pub(super) fn room(part: &Part, compared: &[Reading]) -> Option<MarginReport> {
    let first = compared.first();
    let unit = first.and_then(|reading| reading.unit);
    margin(
        part.margin?,
        first.map(|reading| reading.bound().relation()),
        unit,
    )
}

/// How many of these rules have which outcome.
pub(super) fn count<'r>(rules: impl Iterator<Item = &'r RuleReport>) -> Counts {
    let mut counts = Counts::default();
    for rule in rules {
        let place = match rule.outcome {
            Outcome::Fail => &mut counts.fail,
            Outcome::Unknown => &mut counts.unknown,
            Outcome::Marginal => &mut counts.marginal,
            Outcome::Refer => &mut counts.refer,
            Outcome::Pass => &mut counts.pass,
            Outcome::NotApplicable => &mut counts.not_applicable,
        };
        *place += 1;
    }
    counts
}
