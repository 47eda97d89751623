//! What to do next.

use super::missing::capitalised;
use super::model::{Report, RuleReport};
use super::rules::MUST;
use crate::check::{Outcome, Verdict};
use crate::ruleset::words::listed;

/// What to do next, in order: never more than five steps, the last of them always the authority.
pub(super) fn steps(report: &Report) -> Vec<String> {
    let steps = [
        change_what_fails(report).or_else(|| change_what_fails_as_drawn(report)),
        answer_what_is_open(report),
        ask_about_the_rest(report),
        gather(report),
        Some(go_to_the_authority(report)),
    ];
    steps.into_iter().flatten().collect()
}

fn change_what_fails(report: &Report) -> Option<String> {
    let mut failing = report
        .rules
        .iter()
        .filter(|rule| rule.strength == MUST && rule.outcome == Outcome::Fail);
    let first = failing.next()?;
    let others = match failing.count() {
        0 => String::new(),
        1 => "; then the other rule that fails".to_owned(),
        more => format!("; then the {more} other rules that fail"),
    };
    let remedy = first.remedy.as_deref().unwrap_or("Change the plan.");
    let remedy = remedy.trim_end_matches('.');
    Some(format!("{remedy} ({}){others}.", first.title))
}

/// What fails as drawn is worth mending first, though nobody is sure of it before the drawing is.
fn change_what_fails_as_drawn(report: &Report) -> Option<String> {
    let fails = |rule: &&RuleReport| rule.strength == MUST && rule.as_drawn == Some(Outcome::Fail);
    let mut failing = report.rules.iter().filter(fails);
    let first = failing.next()?;
    let others = match failing.count() {
        0 => String::new(),
        1 => "; then the other rule that fails as drawn".to_owned(),
        more => format!("; then the {more} other rules that fail as drawn"),
    };
    let remedy = first.remedy.as_deref().unwrap_or("Change the plan.");
    let remedy = remedy.trim_end_matches('.');
    Some(format!(
        "{remedy} ({}), if it is as it is drawn{others}.",
        first.title
    ))
}

fn answer_what_is_open(report: &Report) -> Option<String> {
    let questions = match report.questions.len() {
        0 => None,
        1 => Some("answer the question above".to_owned()),
        more => Some(format!("answer the {more} questions above")),
    };
    let close = report.counts.marginal > 0;
    let close = close.then(|| "say or measure more exactly what turns on it".to_owned());
    let steps: Vec<String> = questions.into_iter().chain(close).collect();
    (!steps.is_empty()).then(|| {
        let steps = capitalised(&listed(&steps, "and"));
        format!("{steps}; put it into the plan's file, and check again.")
    })
}

fn ask_about_the_rest(report: &Report) -> Option<String> {
    let open = report.scope.open.len();
    (open > 0).then(|| {
        "Ask about what these rules do not hold, and put each answer into the plan's file, with who gave it and when."
            .to_owned()
    })
}

fn gather(report: &Report) -> Option<String> {
    let to_get = report
        .documents
        .iter()
        .filter(|document| document.need == "needed" && document.state == "not-yet")
        .count();
    match to_get {
        0 => None,
        1 => Some("Get the one paper that is still missing.".to_owned()),
        more => Some(format!("Get the {more} papers that are still missing.")),
    }
}

fn go_to_the_authority(report: &Report) -> String {
    let authority = &report.rule_set.authority;
    match report.verdict.word {
        Verdict::NothingAgainst => {
            format!("Take the plan and the papers to {authority}, who decide.")
        }
        _ => {
            let several = report.rule_sets.len() > 1;
            let office = if several { "authorities" } else { "authority" };
            format!("Ask the {office} ({authority}) about whatever is not plain: they decide.")
        }
    }
}
