//! Rule summaries: what a list of rules shows while there is no time for full reports.

use serde::Serialize;

use super::context::{ReportContext, Texts, whole_plan};
use super::drawn::outcome_as_drawn;
use super::model::{Counts, PartReport, ReadingReport, RuleReport, VerdictWords};
use super::readings::About;
use super::rules::{count, room};
use super::sentences::deciding;
use crate::check::{Finding, Findings, Outcome, Part};
use crate::plan::Plan;
use crate::ruleset::{Rule, RuleSet};

/// How much of a rule to report.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Detail {
    /// Everything.
    Whole,
    /// The deciding part.
    Part,
    /// The most telling reading of that part, or just a few words if the rule is settled.
    Reading,
}

/// One report for each rule, with as much detail as `detail` says; only whole reports have sentences longer than a few
/// words. Also the verdict, and how many binding rules have each outcome.
pub fn rule_summaries(
    findings: &Findings<'_>,
    (plan, rules): (&Plan, &RuleSet),
    detail: &dyn Fn(&Rule, Outcome) -> Detail,
) -> (Vec<RuleReport>, VerdictWords, Counts) {
    let context = ReportContext::new(findings, plan, rules, &Texts::default());
    let reports = findings.rules.iter().filter_map(|finding| {
        let rule = rules.rule(finding.rule)?;
        Some(match detail(rule, finding.outcome) {
            Detail::Whole => context.rule_report(rule, finding),
            detail => context.summary(rule, finding, detail),
        })
    });
    let reports: Vec<RuleReport> = reports.collect();
    let counts = count(reports.iter().filter(|rule| rule.binds()));
    (reports, context.verdict(), counts)
}

impl ReportContext<'_> {
    fn summary(&self, rule: &Rule, finding: &Finding, detail: Detail) -> RuleReport {
        let part = deciding(&finding.parts).and_then(|place| finding.parts.get(place));
        let settled = matches!(finding.outcome, Outcome::Pass | Outcome::NotApplicable);
        let parts = part.map(|part| match detail {
            Detail::Reading if settled => self.settled_part(About { rule, part }),
            Detail::Reading => self.telling_part(About { rule, part }),
            _ => self.deciding_part(About { rule, part }),
        });
        RuleReport {
            id: rule.id.clone(),
            title: rule.title.clone(),
            clause: rule.clause.clone(),
            strength: rule.strength,
            layer: String::new(),
            rule_line: None,
            outcome: finding.outcome,
            as_drawn: outcome_as_drawn(finding),
            sentence: String::new(),
            parts: parts.into_iter().collect(),
            deciding: part.map(|_| 0),
            missing: Vec::new(),
            remedy: None,
            documents: Vec::new(),
            provenance: rule.provenance,
            mark: None,
            note: None,
            interpretations: Vec::new(),
            rule_sets: Vec::new(),
        }
    }

    fn deciding_part(&self, about: About<'_>) -> PartReport {
        let (part, compared) = (about.part, about.part.readings.as_slice());
        let telling = self.telling(part, compared);
        let readings = compared.iter().map(|one| self.figures_of(about, one));
        PartReport {
            subject: self.part_subject(part),
            margin: room(part, compared),
            telling,
            brief: self.part_brief(about, telling.and_then(|at| compared.get(at))),
            ..short(part, readings.collect())
        }
    }

    /// Only the most telling reading of a part.
    fn telling_part(&self, about: About<'_>) -> PartReport {
        let (part, compared) = (about.part, about.part.readings.as_slice());
        let telling = self.telling(part, compared).and_then(|at| compared.get(at));
        let readings = telling.map(|one| self.figures_of(about, one));
        PartReport {
            margin: room(part, compared),
            telling: readings.as_ref().map(|_| 0),
            ..short(part, readings.into_iter().collect())
        }
    }

    /// Only the part in a few words.
    fn settled_part(&self, about: About<'_>) -> PartReport {
        let (part, compared) = (about.part, about.part.readings.as_slice());
        let telling = self.telling(part, compared).and_then(|at| compared.get(at));
        PartReport {
            brief: self.part_brief(about, telling),
            ..short(part, Vec::new())
        }
    }
}

/// A part that does not say what it is about.
fn short(part: &Part, readings: Vec<ReadingReport>) -> PartReport {
    PartReport {
        subject: whole_plan(None, String::new(), false),
        pool: None,
        at: Vec::new(),
        outcome: part.outcome,
        as_drawn: Outcome::decided(part.as_drawn),
        only_fails: false,
        relief: None,
        sentence: String::new(),
        margin: None,
        readings,
        telling: None,
        brief: String::new(),
        missing: Vec::new(),
        advice: None,
    }
}

/// What a rule's line in a list shows, under the names that its report uses.
#[derive(Debug, Serialize)]
pub struct RuleSummary<'r> {
    id: &'r str,
    outcome: Outcome,
    #[serde(rename = "as-drawn")]
    as_drawn: Option<Outcome>,
    deciding: Option<usize>,
    parts: Vec<PartSummary<'r>>,
}

#[derive(Debug, Serialize)]
struct PartSummary<'r> {
    margin: Option<Text<'r>>,
    telling: Option<usize>,
    brief: &'r str,
    readings: Vec<ReadingSummary<'r>>,
}

#[derive(Debug, Serialize)]
struct ReadingSummary<'r> {
    measured: Option<Text<'r>>,
    drawn: Option<&'r str>,
    place: Option<&'r str>,
    limit: Option<Text<'r>>,
    bound: &'r str,
}

#[derive(Debug, Serialize)]
struct Text<'r> {
    text: &'r str,
}

impl<'r> RuleSummary<'r> {
    /// The summary of a report.
    pub fn of(report: &'r RuleReport) -> Self {
        Self {
            id: &report.id,
            outcome: report.outcome,
            as_drawn: report.as_drawn,
            deciding: report.deciding,
            parts: report.parts.iter().map(PartSummary::of).collect(),
        }
    }
}

impl<'r> PartSummary<'r> {
    fn of(part: &'r PartReport) -> Self {
        let margin = part.margin.as_ref();
        Self {
            margin: margin.map(|margin| Text { text: &margin.text }),
            telling: part.telling,
            brief: &part.brief,
            readings: part.readings.iter().map(ReadingSummary::of).collect(),
        }
    }
}

impl<'r> ReadingSummary<'r> {
    fn of(reading: &'r ReadingReport) -> Self {
        let [measured, limit] = [&reading.measured, &reading.limit].map(Option::as_ref);
        Self {
            measured: measured.map(|range| Text { text: &range.text }),
            drawn: reading.drawn.as_deref(),
            place: reading.place.as_deref(),
            limit: limit.map(|range| Text { text: &range.text }),
            bound: &reading.bound,
        }
    }
}
