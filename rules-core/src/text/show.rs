//! Faults laid out for a person to read, or as rows for another program.

use crate::faults::Code;
use serde::Serialize;
use unicode_width::UnicodeWidthChar;

use super::visible::each_shown;
use super::{Fault, Faults, Lines, Node, Span, Visible, read};

/// How many faults are shown in full; the rest are only counted.
pub const MAX_SHOWN: usize = 50;
/// How many columns of a source line are shown.
const WINDOW: usize = 100;
/// How many of them stand before the underlined text, where the line is too long to be shown whole.
const LEAD: usize = 30;
/// A tab is shown as these spaces.
const TAB: &str = "    ";

/// One fault with its place worked out, for another program.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[non_exhaustive]
pub struct FaultRow {
    /// The kind of fault, a stable word.
    pub code: Code,
    /// What is wrong.
    pub message: String,
    /// What would be right.
    pub help: Option<String>,
    /// The line, from 1; none where the whole text is at fault.
    pub line: Option<usize>,
    /// The column in characters, from 1.
    pub column: Option<usize>,
    /// The text at fault, as far as it stands on its first line.
    pub underlined: Option<String>,
    /// The path of what it speaks of, such as `things.3.latch-height`; none where that is the whole text.
    pub path: Option<String>,
}

impl Fault {
    /// Lays the fault out: the sentence, the place in `file`, the line with the place underlined, the help.
    pub fn show(&self, file: &str, text: &str) -> String {
        let mut shown = Visible::new();
        self.show_in(file, &Lines::new(text), &mut shown);
        shown.into()
    }

    /// The fault as a row for another program; `tree` is what the text says, if it can be read.
    fn row(&self, lines: &Lines, tree: Option<&Node>) -> FaultRow {
        let path = self.of.or(self.span);
        let path = path.zip(tree).map(|(span, tree)| tree.path_to(span));
        let place = self.span.map(|span| lines.line_col(span.start));
        FaultRow {
            code: self.code,
            message: self.message.clone(),
            help: self.help.as_ref().map(ToString::to_string),
            line: place.map(|(line, _)| line),
            column: place.map(|(_, column)| column),
            underlined: self.span.map(|span| lines.underlined(span).to_owned()),
            path: path.filter(|path| !path.is_empty()),
        }
    }

    fn show_in(&self, file: &str, lines: &Lines, shown: &mut Visible) {
        shown.line(&self.message);
        match self.span {
            Some(span) => excerpt(file, span, lines, shown),
            None => shown.line(format!("in {file}")),
        }
        shown.extend(self.help.as_ref().map(ToString::to_string));
    }
}

impl Faults {
    /// The faults in the order of their places, each once.
    pub fn sorted(&self) -> Vec<&Fault> {
        let mut sorted: Vec<_> = self.list.iter().collect();
        sorted.sort_by_key(|fault| (fault.span, fault.code.word(), &fault.message, &fault.help));
        sorted.dedup();
        sorted
    }

    /// Lays out all faults, an empty line between two. After the first fifty, the rest are only counted.
    pub fn show(&self, file: &str, text: &str) -> String {
        let (lines, sorted) = (Lines::new(text), self.sorted());
        let mut shown = Visible::new();
        for fault in sorted.iter().take(MAX_SHOWN) {
            shown.part();
            fault.show_in(file, &lines, &mut shown);
        }
        if let Some(more @ 1..) = sorted.len().checked_sub(MAX_SHOWN) {
            shown.part();
            shown.line(format!("and {more} more"));
        }
        shown.into()
    }

    /// The faults as rows for another program, in the order of their places, each once.
    pub fn rows(&self, text: &str) -> Vec<FaultRow> {
        let (lines, sorted) = (Lines::new(text), self.sorted());
        let tree = read(text).ok();
        let rows = sorted.iter();
        rows.map(|fault| fault.row(&lines, tree.as_ref())).collect()
    }
}

/// The place in words, the source line, and the underline.
fn excerpt(file: &str, span: Span, lines: &Lines, shown: &mut Visible) {
    let (line, column) = lines.line_col(span.start);
    let marked = lines.underlined(span).chars().count();
    let window = Window::around(lines.line_text(line), column - 1, marked);
    let number = line.to_string();
    let margin = " ".repeat(number.len());
    shown.line(format!("in {file}, line {line}, column {column}:"));
    shown.line(format!("  {number} | {}", window.shown));
    shown.line(format!(
        "  {margin} | {}{}",
        " ".repeat(window.before),
        "~".repeat(window.under)
    ));
}

/// The part of a source line that is shown, measured in columns of the screen.
struct Window {
    shown: String,
    before: usize,
    under: usize,
}

impl Window {
    /// The window on `line` in which `marked` characters after the first `skipped` are underlined.
    fn around(line: &str, skipped: usize, marked: usize) -> Self {
        let before: usize = line.chars().take(skipped).map(width).sum();
        let whole: usize = line.chars().map(width).sum();
        let from = if whole <= WINDOW {
            0
        } else {
            before.saturating_sub(LEAD)
        };
        let mut window = Self {
            shown: String::new(),
            before: 0,
            under: 0,
        };
        if from > 0 {
            window.push("…", true, false);
        }
        let (mut column, mut shown) = (0, 0);
        for (at, (c, piece)) in each_shown(line, TAB).enumerate() {
            let visible = column >= from;
            column += width(c);
            if !visible {
                continue;
            }
            shown += width(c);
            if shown > WINDOW {
                window.push("…", false, false);
                break;
            }
            window.push(&piece, at < skipped, at < skipped + marked);
        }
        window.under = window.under.max(1);
        window
    }

    fn push(&mut self, piece: &str, before: bool, under: bool) {
        let columns: usize = piece.chars().map(width).sum();
        self.shown.push_str(piece);
        if before {
            self.before += columns;
        } else if under {
            self.under += columns;
        }
    }
}

fn width(c: char) -> usize {
    match c {
        '\t' => TAB.len(),
        _ => c.width().unwrap_or(1),
    }
}
