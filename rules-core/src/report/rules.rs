//! One rule's part of the report.

use super::figures::{margin, relation};
use super::matter::Matter;
use super::model::{Counts, MarginReport, PartReport, ReadingReport, RuleReport};
use super::sentences::{deciding, rule_sentence};
use crate::check::{Finding, Outcome, Part};
use crate::ruleset::built_in::LAYER;
use crate::ruleset::{Provenance, Rule, Strength};

impl Matter<'_> {
    pub(super) fn rule_reports(&self) -> Vec<RuleReport> {
        let findings = self.findings.rules.iter();
        findings
            .filter_map(|finding| Some(self.rule_report(self.rules.rule(finding.rule)?, finding)))
            .collect()
    }

    pub(super) fn rule_report(&self, rule: &Rule, finding: &Finding) -> RuleReport {
        let parts: Vec<_> = finding
            .parts
            .iter()
            .map(|part| self.part(rule, part))
            .collect();
        let deciding = deciding(&finding.parts);
        let layer = self.rules.layers.get(rule.layer);
        let documents = rule.documents.iter();
        RuleReport {
            id: rule.id.clone(),
            title: rule.title.clone(),
            clause: rule.clause.clone(),
            strength: strength_word(rule.strength).to_owned(),
            layer: layer.map_or(LAYER, |layer| &layer.id).to_owned(),
            rule_line: self.rule_line(rule.layer, rule.span.start),
            outcome: finding.outcome,
            sentence: self.whole_sentence(rule, finding, &parts, deciding),
            parts,
            deciding,
            missing: self.all_missing(&finding.missing),
            remedy: rule.remedy.clone(),
            documents: documents
                .filter_map(|document| Some(self.rules.documents.get(*document)?.id.clone()))
                .collect(),
            provenance: provenance_word(rule.provenance).to_owned(),
            note: rule.note.clone(),
        }
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
        rule_sentence(parts, deciding)
    }

    fn part(&self, rule: &Rule, part: &Part) -> PartReport {
        let readings: Vec<ReadingReport> = part
            .readings
            .iter()
            .map(|reading| self.reading(reading))
            .collect();
        let relief = part.relief.and_then(|relief| rule.reliefs.get(relief));
        PartReport {
            subject: self.subject(&part.subject),
            outcome: part.outcome,
            as_drawn: Outcome::decided(part.as_drawn),
            relief: relief.map(|relief| relief.id.clone()),
            sentence: self.part_sentence(rule, part, &readings),
            margin: room(part),
            readings,
            missing: self.all_missing(&part.missing),
            advice: (part.outcome == Outcome::Marginal)
                .then(|| self.advice(part))
                .flatten(),
        }
    }
}

/// How much room a part has, in words.
pub(super) fn room(part: &Part) -> Option<MarginReport> {
    let first = part.readings.first();
    let unit = first.and_then(|reading| reading.unit);
    margin(
        part.margin?,
        first.map(|reading| relation(reading.bound())),
        unit,
    )
}

pub(super) fn strength_word(strength: Strength) -> &'static str {
    match strength {
        Strength::Must => MUST,
        Strength::Should => "should",
    }
}

/// The word for a rule that binds.
pub(super) const MUST: &str = "must";

pub(super) fn provenance_word(provenance: Provenance) -> &'static str {
    match provenance {
        Provenance::Confirmed => "confirmed",
        Provenance::FromMemory => "from-memory",
        Provenance::Contradicted => "contradicted",
    }
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
