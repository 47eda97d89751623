//! Which matters the rules hold, and whom to ask about the rest.

use super::context::ReportContext;
use super::model::{
    AnsweredMatter, AskReport, HeldMatter, OnTop, OpenMatter, Report, ScopeReport, VerdictWords,
};
use crate::plan::Plan;
use crate::quantity::CalendarDate;
use crate::ruleset::RuleSet;
use crate::ruleset::language_of;
use crate::scope::{Ask, Standing, on_top, standings};
use crate::words::{Language, Word};

impl ReportContext<'_> {
    /// What was found, and whether that is all that is to be asked.
    pub(super) fn verdict(&self) -> VerdictWords {
        let matters = standings(&[self.rules], self.plan);
        let open = matters.iter().any(Standing::is_open);
        VerdictWords::of(
            self.findings.verdict.with_matters_open(open),
            self.rules.language,
        )
    }
}

/// Which matters these rule sets hold, and which are left.
pub(super) fn scope_report(sets: &[&RuleSet], plan: &Plan) -> ScopeReport {
    let (mut held, mut answered, mut open) = (Vec::new(), Vec::new(), Vec::new());
    let language = language_of(sets);
    for standing in standings(sets, plan) {
        match standing.answered {
            _ if !standing.held_by.is_empty() => held.push(held_matter(&standing, language)),
            Some(_) => answered.extend(answered_matter(&standing, language)),
            None => open.push(open_matter(&standing, language)),
        }
    }
    let on_top = on_top(sets).into_iter().map(|(rule_set, says)| OnTop {
        rule_set: rule_set.to_owned(),
        says: says.to_owned(),
    });
    ScopeReport {
        held,
        answered,
        open,
        on_top: on_top.collect(),
    }
}

fn held_matter(standing: &Standing<'_>, language: Language) -> HeldMatter {
    let by = standing.held_by.iter();
    HeldMatter {
        matter: standing.matter.id().to_owned(),
        said: standing.matter.said_in(language).to_owned(),
        by: by.map(|id| (*id).to_owned()).collect(),
    }
}

fn answered_matter(standing: &Standing<'_>, language: Language) -> Option<AnsweredMatter> {
    let answered = standing.answered?;
    Some(AnsweredMatter {
        matter: standing.matter.id().to_owned(),
        said: standing.matter.said_in(language).to_owned(),
        says: answered.says.clone(),
        by: answered.by.clone(),
        on: CalendarDate::from_day_number(answered.on).to_string(),
    })
}

fn open_matter(standing: &Standing<'_>, language: Language) -> OpenMatter {
    OpenMatter {
        matter: standing.matter.id().to_owned(),
        said: standing.matter.said_in(language).to_owned(),
        question: standing.matter.ask_in(language).to_owned(),
        ask: standing.ask.iter().map(ask).collect(),
    }
}

fn ask(ask: &Ask<'_>) -> AskReport {
    AskReport {
        who: ask.who.to_owned(),
        why: ask.why.map(str::to_owned),
        rule_set: ask.said_by.map(str::to_owned),
    }
}

/// The matters that the rules leave open, in a sentence; none where there are none.
pub(super) fn left_open(report: &Report) -> Option<String> {
    let (scope, language) = (&report.scope, report.speaks());
    let said: Vec<&str> = scope.open.iter().map(|it| it.said.as_str()).collect();
    match (said.is_empty(), scope.held.is_empty()) {
        (true, _) => None,
        (false, true) => Some(Word::ScopeNotSaid.said(language, &[])),
        (false, false) => Some(Word::ScopeOpen.said(language, &[("matters", &said.join("; "))])),
    }
}
