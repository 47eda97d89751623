//! Lines and columns of a text.

use super::Span;

/// Where the lines of a text begin, found once for many look-ups.
///
/// A line ends at a line feed, a carriage return, or both together, as in YAML.
#[derive(Debug, Clone)]
pub struct Lines<'t> {
    text: &'t str,
    starts: Vec<usize>,
}

impl<'t> Lines<'t> {
    /// Finds the lines of a text.
    pub fn new(text: &'t str) -> Self {
        let bytes = text.as_bytes();
        let ends = bytes.iter().enumerate().filter(|&(at, &byte)| {
            byte == b'\n' || (byte == b'\r' && bytes.get(at + 1) != Some(&b'\n'))
        });
        let starts = std::iter::once(0)
            .chain(ends.map(|(at, _)| at + 1))
            .collect();
        Self { text, starts }
    }

    /// The line on which a byte stands, the first being 1.
    pub fn line(&self, byte: usize) -> usize {
        self.starts.partition_point(|&start| start <= byte).max(1)
    }

    /// The line and the column, in characters, of a byte; both count from 1. A byte past the end counts as the end.
    pub fn line_col(&self, byte: usize) -> (usize, usize) {
        let byte = floor_char(self.text, byte);
        let line = self.line(byte);
        let before = self.text.get(self.start(line)..byte).unwrap_or_default();
        (line, before.chars().count() + 1)
    }

    /// The byte at which a line begins; the end of the text if there is no such line.
    pub fn start(&self, line: usize) -> usize {
        let at = self.starts.get(line.saturating_sub(1));
        at.copied().unwrap_or(self.text.len())
    }

    /// What a line says, without its end.
    pub fn line_text(&self, line: usize) -> &'t str {
        let whole = self.text.get(self.start(line)..self.start(line + 1));
        whole.unwrap_or_default().trim_end_matches(['\r', '\n'])
    }

    /// The part of a place that stands on its first line.
    pub fn underlined(&self, span: Span) -> &'t str {
        let start = floor_char(self.text, span.start);
        let line = self.line(start);
        let line_end = self.start(line) + self.line_text(line).len();
        let end = floor_char(self.text, span.end.min(line_end));
        self.text.get(start..end).unwrap_or_default()
    }
}

/// The last place at or before a byte at which a character begins.
pub(super) fn floor_char(text: &str, byte: usize) -> usize {
    text.floor_char_boundary(byte.min(text.len()))
}
