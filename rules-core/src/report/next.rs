//! What to do next.

use super::model::{Report, RuleReport};
use crate::check::{Need, Outcome, Verdict};
use crate::plan::DocumentState;
use crate::ruleset::words::listed;
use crate::text::capitalised;
use crate::words::Word;

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
    let fails = |rule: &&RuleReport| rule.binds() && rule.outcome == Outcome::Fail;
    mend(
        report,
        report.rules.iter().filter(fails),
        [Word::Mend, Word::ThenTheOther, Word::ThenTheOthers],
    )
}

/// What fails as drawn is worth mending first, though nobody is sure of it before the drawing is.
fn change_what_fails_as_drawn(report: &Report) -> Option<String> {
    let fails = |rule: &&RuleReport| rule.binds() && rule.as_drawn == Some(Outcome::Fail);
    let words = [
        Word::MendAsDrawn,
        Word::ThenTheOtherAsDrawn,
        Word::ThenTheOthersAsDrawn,
    ];
    mend(report, report.rules.iter().filter(fails), words)
}

fn mend<'r>(
    report: &Report,
    mut failing: impl Iterator<Item = &'r RuleReport>,
    [words, one_more, more]: [Word; 3],
) -> Option<String> {
    let language = report.speaks();
    let first = failing.next()?;
    let others = match failing.count() {
        0 => String::new(),
        1 => one_more.said(language, &[]),
        number => more.said(language, &[("n", &number.to_string())]),
    };
    let remedy = first.remedy.as_deref();
    let remedy = remedy.unwrap_or(Word::ChangeThePlan.in_language(language));
    let remedy = remedy.trim_end_matches('.');
    let fill = [
        ("remedy", remedy),
        ("title", &first.title),
        ("others", &others),
    ];
    Some(words.said(language, &fill))
}

fn answer_what_is_open(report: &Report) -> Option<String> {
    let language = report.speaks();
    let questions = match report.questions.len() {
        0 => None,
        1 => Some(Word::AnswerTheOne.said(language, &[])),
        more => Some(Word::AnswerThem.said(language, &[("n", &more.to_string())])),
    };
    let close = report.counts.marginal > 0;
    let close = close.then(|| Word::MeasureMore.said(language, &[]));
    let steps: Vec<String> = questions.into_iter().chain(close).collect();
    (!steps.is_empty()).then(|| {
        let steps = capitalised(&listed(&steps, Word::And.in_language(language)));
        Word::CheckAgain.said(language, &[("steps", &steps)])
    })
}

fn ask_about_the_rest(report: &Report) -> Option<String> {
    let open = !report.scope.open.is_empty();
    open.then(|| Word::AskTheRest.said(report.speaks(), &[]))
}

fn gather(report: &Report) -> Option<String> {
    let to_get = report
        .documents
        .iter()
        .filter(|document| document.need == Need::Needed && document.state == DocumentState::NotYet)
        .count();
    let language = report.speaks();
    match to_get {
        0 => None,
        1 => Some(Word::GetOnePaper.said(language, &[])),
        more => Some(Word::GetPapers.said(language, &[("n", &more.to_string())])),
    }
}

fn go_to_the_authority(report: &Report) -> String {
    let words = match (report.verdict.word, report.rule_sets.len()) {
        (Verdict::NothingAgainst, _) => Word::TakeItThere,
        (_, 0 | 1) => Word::AskTheAuthority,
        _ => Word::AskTheAuthorities,
    };
    let authority = &report.rule_set.authority;
    words.said(report.speaks(), &[("authority", authority)])
}
