//! What a list of rules shows at a glance, while there is no time for more.

use super::matter::{Matter, Texts};
use super::model::{Counts, PartReport, RuleReport, VerdictWords};
use super::rules::{MUST, count, provenance_word, room, strength_word};
use super::sentences::deciding;
use crate::check::{Finding, Findings, Outcome, Part, Reading};
use crate::plan::Plan;
use crate::ruleset::{Rule, RuleSet};

/// How much is told of a rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Told {
    /// All.
    Whole,
    /// The part that decides.
    Part,
    /// One reading of that part.
    Reading,
}

/// One report for each rule, with as much in it as `told` says, and but for whole ones with no sentence longer than a few
/// words. Also the verdict, and how many binding rules have which outcome.
pub fn glances(
    findings: &Findings<'_>,
    (plan, rules): (&Plan, &RuleSet),
    told: &dyn Fn(&Rule, Outcome) -> Told,
) -> (Vec<RuleReport>, VerdictWords, Counts) {
    let matter = Matter::new(findings, plan, rules, &Texts::default());
    let reports = findings.rules.iter().filter_map(|finding| {
        let rule = rules.rules.get(finding.rule)?;
        Some(match told(rule, finding.outcome) {
            Told::Whole => matter.rule_report(rule, finding),
            told => matter.glance(rule, finding, told),
        })
    });
    let reports: Vec<RuleReport> = reports.collect();
    let counts = count(reports.iter().filter(|rule| rule.strength == MUST));
    (reports, VerdictWords::of(findings.verdict), counts)
}

impl Matter<'_> {
    fn glance(&self, rule: &Rule, finding: &Finding<'_>, told: Told) -> RuleReport {
        let part = deciding(&finding.parts).and_then(|place| finding.parts.get(place));
        RuleReport {
            id: rule.id.clone(),
            title: rule.title.clone(),
            clause: rule.clause.clone(),
            strength: strength_word(rule.strength).to_owned(),
            layer: String::new(),
            rule_line: None,
            outcome: finding.outcome,
            sentence: String::new(),
            parts: part
                .map(|part| self.deciding_part(part, told))
                .into_iter()
                .collect(),
            deciding: part.map(|_| 0),
            missing: Vec::new(),
            remedy: None,
            documents: Vec::new(),
            provenance: provenance_word(rule.provenance).to_owned(),
            note: None,
        }
    }

    fn deciding_part(&self, part: &Part<'_>, told: Told) -> PartReport {
        let tells = |reading: &&Reading<'_>| reading.limit.is_some() && self.is_known(reading);
        let readings = match told {
            Told::Reading => {
                let first = part.readings.iter().position(|reading| tells(&reading));
                part.readings
                    .get(first.unwrap_or(0)..)
                    .and_then(|from| from.get(..1))
            }
            _ => Some(part.readings.as_slice()),
        };
        PartReport {
            subject: self.subject(&part.subject),
            outcome: part.outcome,
            as_drawn: None,
            relief: None,
            sentence: String::new(),
            margin: room(part),
            readings: readings
                .into_iter()
                .flatten()
                .map(|reading| self.figures_of(reading))
                .collect(),
            missing: Vec::new(),
            advice: None,
        }
    }
}
