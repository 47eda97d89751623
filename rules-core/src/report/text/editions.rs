//! Which edition governs the plan.

use super::page::{Mark, Page};
use crate::report::model::{EditionReport, Report};
use crate::words::Word;

/// The editions that may govern, where there are several.
pub(super) fn editions(page: &mut Page, report: &Report) {
    editions_of(page, &report.editions, "");
    for rules in &report.rule_sets {
        let of = page.said(Word::EditionOf, &[("id", &rules.id)]);
        editions_of(page, &rules.editions, &of);
    }
}

fn editions_of(page: &mut Page, editions: &[EditionReport], of: &str) {
    match editions {
        [] => {}
        [only] if only.sure => {
            let edition = named(page, only);
            let fill = [("edition", edition.as_str()), ("of", of)];
            page.gap();
            page.paragraph(0, &page.said(Word::EditionGoverns, &fill));
        }
        several => {
            page.heading(&page.said(Word::WhichEdition, &[("of", of)]));
            let turns = match several.iter().any(|edition| edition.sure) {
                true => Word::EditionOpen,
                false => Word::EditionPerhapsNone,
            };
            page.paragraph(2, page.word(turns));
            several.iter().for_each(|edition| entry(page, edition));
        }
    }
}

fn named(page: &Page, edition: &EditionReport) -> String {
    let in_force = edition.in_force.as_ref();
    let in_force = in_force.map(|words| format!(" (in force {words})"));
    let edition = page.said(Word::Edition, &[("edition", &edition.edition)]);
    edition + &in_force.unwrap_or_default()
}

fn entry(page: &mut Page, edition: &EditionReport) {
    page.gap();
    let fill = [("edition", edition.edition.as_str())];
    page.marked(2, &page.said(Word::IfEdition, &fill), Mark::Bold);
    if let Some(words) = &edition.in_force {
        page.paragraph(4, &format!("In force {words}."));
    }
    page.paragraph(4, &edition.verdict.sentence);
    for rule in &edition.otherwise {
        let outcome = page.word(rule.outcome.said());
        page.item(
            4,
            "- ",
            &format!("{} ({}): {outcome}", rule.title, rule.clause),
        );
    }
    for document in &edition.documents {
        let paper = page.said(Word::OnlyThisEdition, &[("title", document)]);
        page.item(4, "- ", &paper);
    }
}
