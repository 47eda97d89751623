//! Which edition governs the plan.

use super::page::{Mark, Page};
use crate::report::model::{EditionReport, Report};

/// The editions that may govern, where there are several.
pub(super) fn editions(page: &mut Page, report: &Report) {
    editions_of(page, &report.editions, "");
    for rules in &report.rule_sets {
        editions_of(page, &rules.editions, &format!(" of {}", rules.id));
    }
}

fn editions_of(page: &mut Page, editions: &[EditionReport], of: &str) {
    match editions {
        [] => {}
        [only] if only.sure => {
            page.gap();
            page.paragraph(0, &format!("{}{of} governs this plan.", named(only)));
        }
        several => {
            page.heading(&format!("Which edition{of} governs"));
            let none = match several.iter().any(|edition| edition.sure) {
                true => "",
                false => ", or that none of them does yet",
            };
            let turns = format!(
                "It is not known which of these editions governs the plan{none}. What is decided in this report is so \
                 whichever it is."
            );
            page.paragraph(2, &turns);
            for edition in several {
                entry(page, edition);
            }
        }
    }
}

fn named(edition: &EditionReport) -> String {
    let in_force = edition.in_force.as_ref();
    let in_force = in_force.map(|words| format!(" (in force {words})"));
    format!(
        "Edition {}{}",
        edition.edition,
        in_force.unwrap_or_default()
    )
}

fn entry(page: &mut Page, edition: &EditionReport) {
    page.gap();
    page.marked(
        2,
        &format!("If it is edition {}", edition.edition),
        Mark::Bold,
    );
    if let Some(words) = &edition.in_force {
        page.paragraph(4, &format!("In force {words}."));
    }
    page.paragraph(4, &edition.verdict.sentence);
    for rule in &edition.otherwise {
        let outcome = rule.outcome.word().replace('-', " ");
        page.item(
            4,
            "- ",
            &format!("{} ({}): {outcome}", rule.title, rule.clause),
        );
    }
    for document in &edition.documents {
        page.item(
            4,
            "- ",
            &format!("Paper that only this edition calls for: {document}"),
        );
    }
}
