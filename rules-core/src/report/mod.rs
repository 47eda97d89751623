//! From findings to a report in words and printed figures, for a person or another program.

mod advice;
mod cautions;
mod context;
mod drawn;
mod editions;
mod figures;
mod inexact;
mod lists;
mod missing;
mod model;
mod next;
mod none;
mod places;
mod readings;
mod rules;
mod said;
mod scope;
mod second_hand;
mod sentences;
mod summary;
mod telling;
pub mod text;
mod together;

#[cfg(test)]
mod example_tests;
#[cfg(test)]
mod language_tests;
#[cfg(test)]
mod report_tests;
#[cfg(test)]
mod second_hand_tests;
#[cfg(test)]
mod told_tests;
#[cfg(test)]
mod tried_tests;

pub use context::Texts;
pub use editions::governed_report;
pub use model::*;
pub(crate) use sentences::deciding;
pub use summary::{Detail, RuleSummary, rule_summaries};
pub(crate) use together::{JudgedBy, together};

use crate::check::Findings;
use crate::plan::Plan;
use crate::ruleset::language_of;
use crate::ruleset::words::listed;
use crate::ruleset::{Layer, RuleSet};
use crate::words::Word;
use context::ReportContext;

/// Puts findings into words. `texts` are what plan and rules were read from, so that lines can be named.
pub fn report<'a>(
    findings: &'a Findings<'a>,
    plan: &'a Plan,
    rules: &'a RuleSet,
    texts: &Texts<'a>,
) -> Report {
    ReportContext::new(findings, plan, rules, texts).report()
}

impl ReportContext<'_> {
    fn report(&self) -> Report {
        let rules = self.rule_reports();
        let (binding, advising): (Vec<_>, Vec<_>) = rules.iter().partition(|rule| rule.binds());
        let mut report = Report {
            schema: SCHEMA.to_owned(),
            language: self.rules.language.tag().to_owned(),
            plan: PlanHead {
                id: self.plan.id.clone(),
                title: self.plan.title.clone(),
            },
            rule_set: self.rule_set_head(),
            rule_sets: Vec::new(),
            goes_with: together::goes_with(&[self.rules]),
            read_by_some: Vec::new(),
            editions: Vec::new(),
            verdict: self.verdict(),
            scope: scope::scope_report(&[self.rules], self.plan),
            counts: rules::count(binding.into_iter()),
            advice_counts: rules::count(advising.into_iter()),
            as_drawn: drawn::head(&rules),
            rules,
            governs: Vec::new(),
            decisions: self.decisions(),
            documents: self.documents(),
            duties: self.duties(),
            cautions: self.cautions(),
            questions: self.questions(),
            next: Vec::new(),
            second_hand: second_hand::second_hand(&[self.rules]),
            disclaimer: disclaimer(&[self.rules]),
        };
        report.next = next::steps(&report);
        report
    }

    fn rule_set_head(&self) -> RuleSetHead {
        RuleSetHead {
            id: self.rules.id.clone(),
            title: self.rules.title.clone(),
            edition: self.rules.edition.clone(),
            authority: self.rules.authority.clone(),
            notice: self.rules.notice.clone(),
            layers: layer_heads(self.rules),
        }
    }
}

fn layer_heads(rules: &RuleSet) -> Vec<LayerHead> {
    let head = |layer: &Layer| LayerHead {
        id: layer.id.clone(),
        title: layer.title.clone(),
        edition: layer.edition.clone(),
    };
    rules.layers.iter().map(head).collect()
}

/// What a report is not, under these rule sets.
fn disclaimer(sets: &[&RuleSet]) -> String {
    let language = language_of(sets);
    let file = |rules: &&RuleSet| {
        let fill = [
            ("title", rules.title.as_str()),
            ("edition", rules.edition.as_str()),
        ];
        Word::FileAndEdition.said(language, &fill)
    };
    let files: Vec<String> = sets.iter().map(file).collect();
    let files = listed(&files, Word::And.in_language(language));
    let words = match sets.len() {
        0 | 1 => Word::Disclaimer,
        _ => Word::DisclaimerOfAll,
    };
    let authorities = authorities(sets);
    words.said(language, &[("files", &files), ("authority", &authorities)])
}

/// Who decides, each named once.
fn authorities(sets: &[&RuleSet]) -> String {
    let mut all: Vec<String> = Vec::new();
    for rules in sets {
        if !all.contains(&rules.authority) {
            all.push(rules.authority.clone());
        }
    }
    all.join("; ")
}
