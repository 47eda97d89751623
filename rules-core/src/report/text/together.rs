//! What stands on the page only where several rule sets were used.

use super::page::{Mark, Page};
use crate::report::model::{GoesWith, Report};
use crate::ruleset::built_in::LAYER;
use crate::words::Word;

/// Each rule set, and what it comes to by itself.
pub(super) fn under_all(page: &mut Page, report: &Report) {
    page.paragraph(0, page.word(Word::UnderAll));
    for rules in &report.rule_sets {
        let fill = [
            ("id", rules.id.as_str()),
            ("title", &rules.title),
            ("edition", &rules.edition),
            ("authority", &rules.authority),
            ("verdict", &rules.verdict.sentence),
        ];
        page.item(2, "- ", &page.said(Word::UnderOne, &fill));
    }
}

/// The rule sets that belong with these and were not named.
pub(super) fn goes_with(page: &mut Page, report: &Report) {
    report
        .goes_with
        .iter()
        .for_each(|one| page.paragraph(0, &goes_together(page, one)));
}

fn goes_together(page: &Page, one: &GoesWith) -> String {
    let fill = [
        ("these", page.listed(&one.rule_sets)),
        ("others", page.listed(&one.with)),
    ];
    let fill = fill.each_ref().map(|(key, text)| (*key, text.as_str()));
    page.said(Word::GoTogether, &fill)
}

/// Where two rules limit the same: which of them governs.
pub(super) fn governs(page: &mut Page, report: &Report) {
    if report.governs.is_empty() {
        return;
    }
    page.section(Word::WhichGoverns);
    for one in &report.governs {
        page.hanging(2, &one.sentence);
    }
}

/// What of the plan only some of the rule sets read.
pub(super) fn read_by_some(page: &mut Page, report: &Report) {
    if report.read_by_some.is_empty() {
        return;
    }
    page.section(Word::ReadBySome);
    for one in &report.read_by_some {
        let parts: Vec<String> = one.parts.iter().map(|part| format!("`{part}`")).collect();
        let sets = one.rule_sets.join(", ");
        page.hanging(2, &format!("{sets}: {}", parts.join(", ")));
    }
}

/// What every report under each of the rule sets must say.
pub(super) fn notices(page: &mut Page, report: &Report) {
    let mut said: Vec<&str> = Vec::new();
    for notice in report
        .rule_sets
        .iter()
        .filter_map(|rules| rules.notice.as_deref())
    {
        if !said.contains(&notice) {
            said.push(notice);
            page.marked(0, notice, Mark::Dim);
        }
    }
}

/// ` (florida, electric-model)`; nothing where there is only one rule set.
pub(crate) fn of(rule_sets: &[String]) -> String {
    match rule_sets.is_empty() {
        true => String::new(),
        false => format!(" ({})", rule_sets.join(", ")),
    }
}

/// The rule sets that a rule comes from, where its file does not say so already.
pub(super) fn where_not(file: &str, rule_sets: &[String]) -> String {
    match rule_sets {
        [only] if only == file => String::new(),
        _ if file == LAYER => String::new(),
        _ => of(rule_sets),
    }
}
