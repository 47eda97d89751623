//! Papers, steps and cautions in sentences.

use super::Said;
use super::lines::Line;
use super::lists::{entry, rests_on, titled};
use super::requirements::Sayer;
use super::rules::sentence;
use crate::ruleset::visit::Visit;
use crate::ruleset::words::{duty_sentence, each_words, listed};
use crate::ruleset::{Caution, Condition, Document, Duty, OnOutcome, RuleSet};
use crate::text::capitalised;

/// The papers, each with when it is needed.
pub(super) fn papers(rules: &RuleSet) -> Vec<Said> {
    let all = rules.documents.iter();
    all.map(|paper| paper_said(paper, &Sayer { rules }))
        .collect()
}

fn paper_said(paper: &Document, sayer: &Sayer<'_>) -> Said {
    let rules = sayer.rules;
    let from = paper.from.as_ref();
    let form = paper.form.as_ref();
    let each = paper.each.as_ref().map(|each| {
        let line = Line::new(format!("There is one for {}", each_words(each, rules)));
        sayer.with_tables(line, |found| found.selection(each))
    });
    let said = [
        from.map(|from| format!("Supplied by: {}", sentence(from))),
        form.map(|form| format!("In this form: {}", sentence(form))),
        paper.always.then(|| "It is always needed".to_owned()),
        (paper.one_for_all).then(|| "One such paper serves every rule that asks for it".to_owned()),
        paper
            .discretion
            .then(|| "Whoever gives it may refuse".to_owned()),
    ];
    let when = paper.when.as_ref();
    let when = when.map(|when| where_line("It is needed where", when, sayer));
    let on = paper.on.iter().map(|on| on_line(on, rules));
    let lines = said.into_iter().flatten().map(Line::new);
    let lines = lines.chain(each).chain(when).chain(on);
    let lines = lines.chain(rests_on(&paper.cited, rules)).collect();
    entry(&paper.id, sentence(&paper.title), lines)
}

fn on_line(on: &OnOutcome, rules: &RuleSet) -> Line {
    let rule = rules.all_rules().find(|rule| rule.id == on.rule);
    let title = rule.map_or(on.rule.as_str(), |rule| &rule.title);
    Line::new(format!(
        "It is needed if the rule {} {}",
        titled(title, &on.rule),
        listed(
            &on.outcomes
                .iter()
                .map(|it| comes_to(it))
                .collect::<Vec<_>>(),
            "or"
        )
    ))
}

/// `fails`, `is unknown`.
fn comes_to(outcome: &str) -> String {
    match outcome {
        "pass" => "passes".to_owned(),
        "fail" => "fails".to_owned(),
        "refer" => "is left to the authority".to_owned(),
        "not-applicable" => "does not apply".to_owned(),
        other => format!("is {other}"),
    }
}

fn where_line(lead: &str, when: &Condition, sayer: &Sayer<'_>) -> Line {
    let pool = match when.about_pool {
        true => ", for at least one pool, ",
        false => " ",
    };
    let lead = format!("{lead}{pool}");
    sayer.holds(&when.requirement).led_by(&lead)
}

/// What is to be done, and by when.
pub(super) fn steps(rules: &RuleSet) -> Vec<Said> {
    let all = rules.duties.iter();
    all.map(|duty| step_said(duty, &Sayer { rules })).collect()
}

fn step_said(duty: &Duty, sayer: &Sayer<'_>) -> Said {
    // The heading already says what is to be done.
    let all = duty_sentence(duty, true);
    let rest = all.get(sentence(&duty.what).len()..).map(sentence);
    let rest = rest.unwrap_or(&all).trim_start_matches([',', ';', ' ']);
    let what = (!rest.is_empty()).then(|| Line::new(capitalised(rest)));
    let when = duty.when.as_ref();
    let when = when.map(|when| where_line("Only where", when, sayer));
    let lines = what.into_iter().chain(when);
    let lines = lines.chain(rests_on(&duty.cited, sayer.rules)).collect();
    entry(&duty.id, sentence(&duty.what), lines)
}

/// What to be careful of.
pub(super) fn cautions(rules: &RuleSet) -> Vec<Said> {
    let all = rules.cautions.iter();
    all.map(|caution| caution_said(caution, &Sayer { rules }))
        .collect()
}

fn caution_said(caution: &Caution, sayer: &Sayer<'_>) -> Said {
    let says = Line::new(sentence(&caution.says));
    let when = caution.when.as_ref();
    let when = when.map(|when| where_line("Shown only if", when, sayer));
    let lines = [says].into_iter().chain(when).collect();
    entry(
        &caution.id,
        &capitalised(&caution.id.replace('-', " ")),
        lines,
    )
}
