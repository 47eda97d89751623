//! One rule in the report: what it came to, of each thing that it speaks of.

use super::page::{Mark, Page};
use super::together::{self};
use crate::check::Outcome;
use crate::report::model::{PartReport, Question, Report, RuleReport};
use crate::ruleset::Provenance;
use crate::ruleset::words::listed;
use crate::words::Word;

/// One rule at length: what it says, what was found for each subject that is not in order, what to do.
pub(super) fn entry(page: &mut Page, report: &Report, rule: &RuleReport) {
    page.marked(2, &rule.title, Mark::Bold);
    page.marked(2, &source(page, rule), Mark::Dim);
    let parts = rule.parts.iter();
    let parts = parts.filter(|part| part.outcome == rule.outcome);
    let mut parts: Vec<_> = parts.collect();
    // The sort is stable: what fails as drawn comes first.
    parts.sort_by_key(|part| part.as_drawn != Some(Outcome::Fail));
    if parts.is_empty() {
        page.paragraph(4, &rule.sentence);
    }
    for alike in grouped(&parts) {
        part_entry(page, &alike);
    }
    let numbers = question_numbers(report, rule);
    if !numbers.is_empty() {
        let words = match numbers.len() {
            1 => Word::AnswerQuestion,
            _ => Word::AnswerQuestions,
        };
        let numbers = page.listed(&numbers);
        page.paragraph(4, &page.said(words, &[("numbers", &numbers)]));
    }
    if let (Outcome::Fail, Some(remedy)) = (rule.outcome, &rule.remedy) {
        page.paragraph(4, &page.said(Word::WhatToDo, &[("remedy", remedy)]));
    }
    cautious_about(page, rule);
}

/// Groups parts whose sentences differ only in the subject.
fn grouped<'r>(parts: &[&'r PartReport]) -> Vec<Vec<&'r PartReport>> {
    let said = |part: &PartReport| part.sentence.replacen(&part.subject.said, "", 1);
    let mut groups: Vec<(String, Vec<&PartReport>)> = Vec::new();
    for part in parts {
        let what = said(part);
        match groups.iter_mut().find(|(other, _)| *other == what) {
            Some((_, alike)) => alike.push(part),
            None => groups.push((what, vec![part])),
        }
    }
    groups.into_iter().map(|(_, alike)| alike).collect()
}

fn part_entry(page: &mut Page, alike: &[&PartReport]) {
    let Some((first, others)) = alike.split_first() else {
        return;
    };
    page.paragraph(4, &together(first, others));
    let witnesses = first
        .readings
        .iter()
        .filter_map(|reading| reading.witness.as_ref());
    for witness in witnesses {
        page.paragraph(4, &witness.text);
    }
    if let Some(advice) = &first.advice {
        page.paragraph(4, &page.said(Word::WhatToDo, &[("remedy", advice)]));
    }
}

/// ``For the gate `a` (and `b`), …``
pub(super) fn together(first: &PartReport, others: &[&PartReport]) -> String {
    let others: Vec<String> = others.iter().filter_map(|part| named(part)).collect();
    if others.is_empty() {
        return first.sentence.clone();
    }
    let said = &first.subject.said;
    let with_others = format!("{said} (and {})", listed(&others, "and"));
    first.sentence.replacen(said, &with_others, 1)
}

/// A subject beside the first: by its id; where the plan has several pools, in full.
fn named(part: &PartReport) -> Option<String> {
    let id = part.subject.id.as_ref()?;
    let with_pool = part
        .pool
        .as_ref()
        .is_some_and(|pool| pool != id && part.subject.said.ends_with(&format!("`{pool}`")));
    Some(match with_pool {
        true => part.subject.said.clone(),
        false => format!("`{id}`"),
    })
}

/// A rule whose values are not sure says so.
fn cautious_about(page: &mut Page, rule: &RuleReport) {
    for one in &rule.interpretations {
        let fill = [("says", &one.says), ("by", &one.by), ("since", &one.since)];
        let fill = fill.map(|(key, text)| (key, text.as_str()));
        page.paragraph(4, &page.said(Word::ReadSo, &fill));
    }
    if rule.provenance == Provenance::Contradicted {
        page.paragraph(4, page.word(Word::Contradicted));
    }
    if let Some(note) = &rule.note {
        page.paragraph(4, &page.said(Word::Note, &[("note", note)]));
    }
}

fn source(page: &Page, rule: &RuleReport) -> String {
    let line = rule.rule_line.map(|line| line.to_string());
    let line = line.map(|line| page.said(Word::Line, &[("line", &line)]));
    let file = page.said(Word::RuleIn, &[("rule", &rule.id), ("file", &rule.layer)]);
    format!(
        "{}; {file}{}{}",
        clause_marked(rule),
        line.unwrap_or_default(),
        together::where_not(&rule.layer, &rule.rule_sets)
    )
}

/// The clause of a rule, and where its figures are from where that is second-hand.
pub(super) fn clause_marked(rule: &RuleReport) -> String {
    match &rule.mark {
        Some(mark) => format!("{}, {mark}", rule.clause),
        None => rule.clause.clone(),
    }
}

/// A sentence, with where its figures are from behind it.
pub(super) fn sentence_marked(sentence: &str, mark: &Option<String>) -> String {
    match mark {
        Some(mark) => format!("{sentence} ({mark})"),
        None => sentence.to_owned(),
    }
}

fn question_numbers(report: &Report, rule: &RuleReport) -> Vec<String> {
    let questions = (1..).zip(&report.questions);
    questions
        .filter(|(_, question): &(u32, &Question)| question.rules.contains(&rule.id))
        .map(|(number, _)| number.to_string())
        .collect()
}
