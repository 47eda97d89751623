//! Which edition of the rules governs the plan, if they have several.

use rules_core::report::{EditionReport, EditionRule};

use super::keyed::{El, el};
use super::marks::{outcome_said, verdict_said};
use super::prose::prose;
use crate::words::{fill, t};

/// The one that surely governs, in a sentence; or all that may, with what differs under each.
pub fn editions(editions: &[EditionReport]) -> Option<El> {
    let all = || {
        let sure = editions.iter().any(|edition| edition.sure);
        let which = if sure {
            "edition.open"
        } else {
            "edition.perhaps-none"
        };
        el("section")
            .class("group")
            .id("editions")
            .with(el("h3").with(t("edition.which")))
            .with(el("p").with(t(which)))
            .with(el("ul").each(editions.iter().map(perhaps)))
    };
    match editions {
        [] => None,
        [only] if only.sure => Some(
            el("p")
                .class("hint")
                .id("edition")
                .with(prose(&governs(only))),
        ),
        _ => Some(all()),
    }
}

fn governs(edition: &EditionReport) -> String {
    let when = in_force(edition);
    fill(
        "edition.one",
        &[("edition", &edition.edition), ("when", &when)],
    )
}

fn in_force(edition: &EditionReport) -> String {
    let when = edition.in_force.as_deref();
    when.map_or_else(String::new, |when| {
        fill("edition.in-force", &[("when", when)])
    })
}

fn perhaps(edition: &EditionReport) -> El {
    let name = fill("edition.if", &[("edition", &edition.edition)]);
    el("li")
        .with(el("strong").with(name))
        .with(" ")
        .with(prose(&in_force(edition)))
        .with(el("p").with(verdict_said(edition.verdict.word)))
        .with(otherwise(edition))
}

fn otherwise(edition: &EditionReport) -> Option<El> {
    let (rules, papers) = (&edition.otherwise, &edition.documents);
    let rule = |rule: &EditionRule| {
        let outcome = outcome_said(rule.outcome);
        el("li").with(format!("{} ({}): {outcome}", rule.title, rule.clause))
    };
    let paper = |title: &String| el("li").with(fill("edition.paper", &[("title", title)]));
    let list = || {
        el("ul")
            .each(rules.iter().map(rule))
            .each(papers.iter().map(paper))
    };
    (!rules.is_empty() || !papers.is_empty()).then(list)
}
