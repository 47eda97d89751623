//! What the rules leave to others, and whom to ask about it.

use super::page::{Mark, Page};
use crate::report::missing::capitalised;
use crate::report::model::{AnsweredMatter, AskReport, HeldMatter, OpenMatter, Report};

/// What is left to ask, what was answered, and what always comes on top.
pub(super) fn scope(page: &mut Page, report: &Report) {
    let scope = &report.scope;
    if !report.rule_sets.is_empty() && !scope.held.is_empty() {
        page.heading("What these rules hold");
        scope.held.iter().for_each(|matter| held(page, matter));
    }
    if !scope.open.is_empty() {
        page.heading("What these rules do not hold");
        scope.open.iter().for_each(|matter| left_open(page, matter));
    }
    if !scope.answered.is_empty() {
        page.heading("What others have answered");
        let answered = scope.answered.iter();
        answered.for_each(|matter| page.hanging(2, &answer(matter)));
    }
    if !scope.on_top.is_empty() {
        page.heading("What always comes on top");
        scope
            .on_top
            .iter()
            .for_each(|top| page.item(2, "- ", &top.says));
    }
}

fn held(page: &mut Page, matter: &HeldMatter) {
    let by = matter.by.join(", ");
    page.hanging(2, &format!("{}: {by}", capitalised(&matter.said)));
}

fn left_open(page: &mut Page, matter: &OpenMatter) {
    page.item(2, "- ", &matter.question);
    matter
        .ask
        .iter()
        .for_each(|ask| page.marked(4, &whom(ask), Mark::Dim));
}

fn whom(ask: &AskReport) -> String {
    let why = ask.why.as_ref().map(|why| format!(" {why}"));
    format!(
        "Ask {}.{}",
        ask.who.trim_end_matches('.'),
        why.unwrap_or_default()
    )
}

fn answer(matter: &AnsweredMatter) -> String {
    let says = matter.says.as_deref().unwrap_or("answered");
    let (said, by, on) = (capitalised(&matter.said), &matter.by, &matter.on);
    format!("{said}: {says} ({by}, {on})")
}
