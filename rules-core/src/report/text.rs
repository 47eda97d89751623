//! The report for a person at a terminal.

mod editions;
mod entries;
mod page;
mod scope;
mod sections;
mod together;

#[cfg(test)]
mod page_tests;

use super::model::Report;
use crate::text::Visible;
pub(crate) use page::{Page, wrap};
pub(crate) use together::of;

/// How the text is laid out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Style {
    /// Whether headings are marked with the terminal's colour codes.
    pub colour: bool,
    /// No line is longer than this, in columns, unless a single word is.
    pub width: usize,
}

impl Default for Style {
    fn default() -> Self {
        Self {
            colour: false,
            width: 80,
        }
    }
}

/// Lays the report out, what matters most first.
pub fn render(report: &Report, style: Style) -> Visible {
    let mut page = Page::speaking(report.speaks(), style);
    sections::head(&mut page, report);
    editions::editions(&mut page, report);
    sections::failing(&mut page, report);
    sections::open(&mut page, report);
    together::governs(&mut page, report);
    sections::questions(&mut page, report);
    scope::scope(&mut page, report);
    together::read_by_some(&mut page, report);
    sections::passing(&mut page, report);
    sections::not_applicable(&mut page, report);
    sections::advice(&mut page, report);
    sections::decisions(&mut page, report);
    sections::papers(&mut page, report);
    sections::duties(&mut page, report);
    sections::cautions(&mut page, report);
    sections::next(&mut page, report);
    sections::foot(&mut page, report);
    page.finish()
}
