//! From findings to a report in words and printed figures, for a person or another program.

mod advice;
mod cautions;
mod drawn;
mod editions;
mod figures;
mod glance;
mod inexact;
mod lists;
mod matter;
mod missing;
mod model;
mod next;
mod none;
mod places;
mod readings;
mod rules;
mod scope;
mod second_hand;
mod sentences;
mod telling;
pub mod text;

#[cfg(test)]
mod example;
#[cfg(test)]
mod report_tests;
#[cfg(test)]
mod second_hand_tests;
#[cfg(test)]
mod told_tests;

pub use editions::governed_report;
pub use glance::{Glance, Told, glances};
pub(crate) use lists::duty_sentence;
pub use matter::Texts;
pub(crate) use missing::capitalised;
pub use model::*;
pub(crate) use sentences::deciding;

use crate::check::Findings;
use crate::plan::Plan;
use crate::ruleset::RuleSet;
use matter::Matter;

/// Puts findings into words. `texts` are what plan and rules were read from, so that lines can be named.
pub fn report<'a>(
    findings: &'a Findings<'a>,
    plan: &'a Plan,
    rules: &'a RuleSet,
    texts: &Texts<'a>,
) -> Report {
    Matter::new(findings, plan, rules, texts).report()
}

impl Matter<'_> {
    fn report(&self) -> Report {
        let rules = self.rule_reports();
        let (binding, advising): (Vec<_>, Vec<_>) =
            rules.iter().partition(|rule| rule.strength == rules::MUST);
        let mut report = Report {
            schema: SCHEMA.to_owned(),
            plan: PlanHead {
                id: self.plan.id.clone(),
                title: self.plan.title.clone(),
            },
            rule_set: self.rule_set_head(),
            editions: Vec::new(),
            verdict: self.verdict(),
            scope: self.scope(),
            counts: rules::count(binding.into_iter()),
            advice_counts: rules::count(advising.into_iter()),
            as_drawn: drawn::head(&rules),
            rules,
            decisions: self.decisions(),
            documents: self.documents(),
            duties: self.duties(),
            cautions: self.cautions(),
            questions: self.questions(),
            next: Vec::new(),
            second_hand: self.second_hand(),
            disclaimer: self.disclaimer(),
        };
        report.next = next::steps(&report);
        report
    }

    fn rule_set_head(&self) -> RuleSetHead {
        let layers = self.rules.layers.iter();
        RuleSetHead {
            id: self.rules.id.clone(),
            title: self.rules.title.clone(),
            edition: self.rules.edition.clone(),
            authority: self.rules.authority.clone(),
            notice: self.rules.notice.clone(),
            layers: layers
                .map(|layer| LayerHead {
                    id: layer.id.clone(),
                    title: layer.title.clone(),
                    edition: layer.edition.clone(),
                })
                .collect(),
        }
    }

    fn disclaimer(&self) -> String {
        format!(
            "This is neither an official text nor a permit. It says what the rule file `{}`, edition {}, makes of the \
             plan as it was stated; either may be wrong or out of date. Only this authority decides: {}. Ask there \
             before anything is built.",
            self.rules.title, self.rules.edition, self.rules.authority
        )
    }
}
