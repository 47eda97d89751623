//! What to do next.

use super::model::Report;
use super::rules::MUST;
use crate::check::{Outcome, Verdict};

/// What to do next, in order: never more than four steps, the last of them always the authority.
pub(super) fn steps(report: &Report) -> Vec<String> {
    let steps = [
        change_what_fails(report),
        answer_what_is_open(report),
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

fn answer_what_is_open(report: &Report) -> Option<String> {
    let open = report.counts.unknown + report.counts.marginal;
    match (report.questions.len(), open) {
        (_, 0) => None,
        (0, _) => Some(
            "Have the lines surveyed or taped that the open findings name, and state the new accuracy in the plan."
                .to_owned(),
        ),
        (1, _) => Some("Answer the question above, in the plan's file, and check again.".to_owned()),
        (questions, _) => Some(format!(
            "Answer the {questions} questions above, in the plan's file, the first ones first, and check again."
        )),
    }
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
            format!("Take the plan and the papers to {authority}. Only there is it decided.")
        }
        _ => format!("Ask {authority} about whatever is not plain; only there is it decided."),
    }
}
