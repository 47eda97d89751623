//! What a list of rules shows at a glance, while there is no time for more.

use serde::Serialize;

use super::matter::Matter;
use super::matter::Texts;
use super::model::{Counts, PartReport, ReadingReport, RuleReport, SubjectReport, VerdictWords};
use super::rules::{MUST, count, room, strength_word};
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
    /// One reading of that part; where the rule is settled, only in a few words.
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
        let rule = rules.rule(finding.rule)?;
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
    fn glance(&self, rule: &Rule, finding: &Finding, told: Told) -> RuleReport {
        let part = deciding(&finding.parts).and_then(|place| finding.parts.get(place));
        let settled = matches!(finding.outcome, Outcome::Pass | Outcome::NotApplicable);
        let parts = part.map(|part| match told {
            Told::Reading => self.deciding_reading(part, settled),
            _ => self.deciding_part(part),
        });
        RuleReport {
            id: rule.id.clone(),
            title: rule.title.clone(),
            clause: rule.clause.clone(),
            strength: strength_word(rule.strength).to_owned(),
            layer: String::new(),
            rule_line: None,
            outcome: finding.outcome,
            sentence: String::new(),
            parts: parts.into_iter().collect(),
            deciding: part.map(|_| 0),
            missing: Vec::new(),
            remedy: None,
            documents: Vec::new(),
            provenance: String::new(),
            note: None,
        }
    }

    fn deciding_part(&self, part: &Part) -> PartReport {
        let readings = part.readings.iter();
        PartReport {
            subject: self.subject(&part.subject),
            margin: room(part),
            ..short(
                part.outcome,
                readings.map(|reading| self.figures_of(reading)).collect(),
            )
        }
    }

    /// The reading that tells most of a part: the first with a limit of which anything is known.
    fn deciding_reading(&self, part: &Part, settled: bool) -> PartReport {
        let tells = |reading: &&Reading| reading.limit.is_some() && self.is_known(reading);
        let reading = part.readings.iter().find(tells);
        let reading = reading.or(part.readings.first());
        let told = reading.map(|reading| match settled {
            true => self.brief_of(reading),
            false => self.figures_of(reading),
        });
        PartReport {
            margin: if settled { None } else { room(part) },
            ..short(part.outcome, told.into_iter().collect())
        }
    }
}

/// A part without a word of whom it is about.
fn short(outcome: Outcome, readings: Vec<ReadingReport>) -> PartReport {
    PartReport {
        subject: SubjectReport {
            id: None,
            kind: None,
            said: String::new(),
            sure: false,
            plan_line: None,
        },
        outcome,
        as_drawn: None,
        relief: None,
        sentence: String::new(),
        margin: None,
        readings,
        missing: Vec::new(),
        advice: None,
    }
}

/// What the line of a rule in a list shows, under the names that its report has for it.
#[derive(Debug, Serialize)]
pub struct Glance<'r> {
    id: &'r str,
    outcome: Outcome,
    deciding: Option<usize>,
    parts: Vec<GlancePart<'r>>,
}

#[derive(Debug, Serialize)]
struct GlancePart<'r> {
    margin: Option<Text<'r>>,
    readings: Vec<GlanceReading<'r>>,
}

#[derive(Debug, Serialize)]
struct GlanceReading<'r> {
    measured: Option<Text<'r>>,
    limit: Option<Text<'r>>,
    bound: &'r str,
    brief: &'r str,
}

#[derive(Debug, Serialize)]
struct Text<'r> {
    text: &'r str,
}

impl<'r> Glance<'r> {
    /// That of a report.
    pub fn of(report: &'r RuleReport) -> Self {
        Self {
            id: &report.id,
            outcome: report.outcome,
            deciding: report.deciding,
            parts: report.parts.iter().map(GlancePart::of).collect(),
        }
    }
}

impl<'r> GlancePart<'r> {
    fn of(part: &'r PartReport) -> Self {
        let margin = part.margin.as_ref();
        Self {
            margin: margin.map(|margin| Text { text: &margin.text }),
            readings: part.readings.iter().map(GlanceReading::of).collect(),
        }
    }
}

impl<'r> GlanceReading<'r> {
    fn of(reading: &'r ReadingReport) -> Self {
        let [measured, limit] = [&reading.measured, &reading.limit].map(Option::as_ref);
        Self {
            measured: measured.map(|range| Text { text: &range.text }),
            limit: limit.map(|range| Text { text: &range.text }),
            bound: &reading.bound,
            brief: &reading.brief,
        }
    }
}
