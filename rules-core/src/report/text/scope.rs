//! What the rules leave to others, and whom to ask about it.

use super::page::{Mark, Page};
use crate::report::model::{AnsweredMatter, AskReport, HeldMatter, OpenMatter, Report};
use crate::text::capitalised;
use crate::words::Word;

/// What is left to ask, what was answered, and what always comes on top.
pub(super) fn scope(page: &mut Page, report: &Report) {
    let scope = &report.scope;
    if !report.rule_sets.is_empty() && !scope.held.is_empty() {
        page.section(Word::WhatIsHeld);
        scope.held.iter().for_each(|matter| held(page, matter));
    }
    if !scope.open.is_empty() {
        page.section(Word::WhatIsNotHeld);
        scope.open.iter().for_each(|matter| left_open(page, matter));
    }
    if !scope.answered.is_empty() {
        page.section(Word::WhatWasAnswered);
        let answered_word = page.word(Word::Answered);
        let answered = scope.answered.iter();
        answered.for_each(|matter| page.hanging(2, &answer(matter, answered_word)));
    }
    if !scope.on_top.is_empty() {
        page.section(Word::WhatComesOnTop);
        let on_top = scope.on_top.iter();
        on_top.for_each(|top| page.item(2, "- ", &top.says));
    }
}

fn held(page: &mut Page, matter: &HeldMatter) {
    let by = matter.by.join(", ");
    page.hanging(2, &format!("{}: {by}", capitalised(&matter.said)));
}

fn left_open(page: &mut Page, matter: &OpenMatter) {
    page.item(2, "- ", &matter.question);
    for ask in &matter.ask {
        page.marked(4, &whom(page, ask), Mark::Dim);
    }
}

fn whom(page: &Page, ask: &AskReport) -> String {
    let why = ask.why.as_ref().map(|why| format!(" {why}"));
    let who = ask.who.trim_end_matches('.');
    page.said(Word::Ask, &[("who", who)]) + &why.unwrap_or_default()
}

fn answer(matter: &AnsweredMatter, answered: &str) -> String {
    let says = matter.says.as_deref().unwrap_or(answered);
    let (said, by, on) = (capitalised(&matter.said), &matter.by, &matter.on);
    format!("{said}: {says} ({by}, {on})")
}
