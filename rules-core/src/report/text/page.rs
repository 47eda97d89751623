//! A page of text: paragraphs that are wrapped and indented, with the terminal's marks where they are wanted.

use unicode_width::UnicodeWidthStr;

use super::Style;
use crate::ruleset::words::listed;
use crate::text::{Visible, one_line};
use crate::words::{Language, Word};

/// How a paragraph is marked where colour is wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Mark {
    Plain,
    Bold,
    Dim,
    Bad,
    Good,
    Open,
}

impl Mark {
    /// The terminal's code for it (ECMA-48, "select graphic rendition").
    fn code(self) -> Option<&'static str> {
        match self {
            Self::Plain => None,
            Self::Bold => Some("1"),
            Self::Dim => Some("2"),
            Self::Bad => Some("1;31"),
            Self::Good => Some("1;32"),
            Self::Open => Some("1;33"),
        }
    }
}

/// The page so far.
pub(crate) struct Page {
    style: Style,
    language: Language,
    text: Visible,
}

impl Page {
    pub fn new(style: Style) -> Self {
        Self::speaking(Language::English, style)
    }

    /// A page whose own words are in that language.
    pub fn speaking(language: Language, style: Style) -> Self {
        Self {
            style,
            language,
            text: Visible::new(),
        }
    }

    /// Words in the page's language.
    pub fn word(&self, word: Word) -> &'static str {
        word.in_language(self.language)
    }

    /// Words in the page's language, with what stands behind each name filled in.
    pub fn said(&self, word: Word, fill: &[(&str, &str)]) -> String {
        word.said(self.language, fill)
    }

    /// Several in a sentence: `a, b and c`.
    pub fn listed(&self, items: &[String]) -> String {
        listed(items, self.word(Word::And))
    }

    pub fn finish(self) -> Visible {
        self.text
    }

    /// An empty line.
    pub fn gap(&mut self) {
        self.text.gap();
    }

    /// A heading of the report, in the page's language.
    pub fn section(&mut self, word: Word) {
        self.heading(self.word(word));
    }

    /// A heading, with an empty line before and after it.
    pub fn heading(&mut self, text: &str) {
        self.gap();
        self.marked(0, text, Mark::Bold);
        self.gap();
    }

    /// A paragraph, indented by so many columns.
    pub fn paragraph(&mut self, indent: usize, text: &str) {
        self.marked(indent, text, Mark::Plain);
    }

    /// A paragraph with a mark.
    pub fn marked(&mut self, indent: usize, text: &str, mark: Mark) {
        let margin = " ".repeat(indent);
        for line in wrap(text, self.style.width.saturating_sub(indent)) {
            self.line(&margin, &line, mark);
        }
    }

    /// An item whose first line begins with `lead`, the others standing under the text.
    pub fn item(&mut self, indent: usize, lead: &str, text: &str) {
        let hanging = lead.width();
        let width = self.style.width.saturating_sub(indent + hanging);
        let margin = " ".repeat(indent);
        let mut lead = lead.to_owned();
        for line in wrap(text, width) {
            self.line(&format!("{margin}{lead}"), &line, Mark::Plain);
            lead = " ".repeat(hanging);
        }
    }

    /// A paragraph whose further lines stand further in than the first.
    pub fn hanging(&mut self, indent: usize, text: &str) {
        let further = indent + 2;
        let width = self.style.width.saturating_sub(further);
        let mut margin = " ".repeat(indent);
        for line in wrap(text, width) {
            self.line(&margin, &line, Mark::Plain);
            margin = " ".repeat(further);
        }
    }

    fn line(&mut self, margin: &str, line: &str, mark: Mark) {
        let code = mark.code().filter(|_| self.style.colour);
        match code {
            Some(code) => self.text.marked(margin, line, code),
            None => self.text.line(format!("{margin}{line}")),
        }
    }
}

/// Breaks text at its spaces into lines of at most so many columns; a longer word stands alone.
pub(crate) fn wrap(text: &str, width: usize) -> Vec<String> {
    let mut lines = Vec::new();
    let mut line = String::new();
    for word in unbroken(&one_line(text)) {
        let fits = line.is_empty() || line.width() + 1 + word.width() <= width;
        if !fits {
            lines.push(std::mem::take(&mut line));
        }
        if !line.is_empty() {
            line.push(' ');
        }
        line.push_str(&word);
    }
    if !line.is_empty() {
        lines.push(line);
    }
    lines
}

/// The words, where what belongs together is one: a figure and its unit (`3 m`), a place (`(6.2, 30.7)`), the number of
/// a section (`s. 4`).
fn unbroken(text: &str) -> Vec<String> {
    let mut words: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        match words.last_mut() {
            Some(before) if belong_together(before, word) => {
                before.push(' ');
                before.push_str(word);
            }
            _ => words.push(word.to_owned()),
        }
    }
    words
}

fn belong_together(before: &str, word: &str) -> bool {
    const ABBREVIATIONS: [&str; 5] = ["s.", "ss.", "art.", "no.", "±"];
    let unit = word.trim_end_matches([')', ',', '.', ';', ':']);
    let is_unit = unit.chars().count() <= 3 && word.starts_with(char::is_alphabetic);
    let is_place = before.starts_with('(') && before.ends_with(',') && word.contains(')');
    let opened = before.trim_start_matches('(');
    (is_figure(opened) && is_unit)
        || is_place
        || ABBREVIATIONS.contains(&opened)
        || is_french_mark(word)
}

/// What stands apart from the word before it in French.
fn is_french_mark(word: &str) -> bool {
    matches!(word, ":" | ";" | "?" | "!")
}

fn is_figure(word: &str) -> bool {
    word.chars()
        .all(|c| c.is_ascii_digit() || matches!(c, '.' | '-' | '/'))
        && word.chars().any(|c| c.is_ascii_digit())
}
