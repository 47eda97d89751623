//! Brackets that are never closed. The parser notices only some lines below, and complains about what stands there.

use super::super::syntax::Said;
use super::super::{Lines, Span};
use super::begun;
use crate::faults::Code;

/// A bracket that is never closed, and what to write.
pub(crate) struct NeverClosed {
    pub place: Span,
    pub message: String,
    pub help: String,
}

/// What the parser may stumble on where a bracket was left open above.
const MAY_FOLLOW: [Code; 7] = [
    Code::Bracket,
    Code::Indentation,
    Code::Colon,
    Code::NoColon,
    Code::NotYaml,
    Code::ListItem,
    Code::LeftOver,
];

/// The bracket that is left open on a line above the place that is refused, or on the line itself where nothing closes it.
pub(crate) fn never_closed(lines: &Lines, at: usize, said: &Said) -> Option<NeverClosed> {
    if !MAY_FOLLOW.contains(&said.code) {
        return None;
    }
    let last = lines.line(at);
    let mut open = Open::default();
    let mut before = 0;
    for line in 1..=last {
        let text = lines.line_text(line);
        let begins_anew = begun(text).is_some_and(|it| it.dash.is_some() || it.key.is_some());
        if begins_anew && !open.goes_on && !open.brackets.is_empty() {
            return open.left(lines, before);
        }
        if !text.trim().is_empty() && !text.trim_start().starts_with('#') {
            open.line(lines.start(line), text);
            before = line;
        }
    }
    None
}

/// The brackets that are open at the end of a line.
#[derive(Default)]
struct Open {
    /// Each with its byte.
    brackets: Vec<(char, usize)>,
    /// Whether the line ends where more must follow.
    goes_on: bool,
}

impl Open {
    /// Goes through a line: brackets in quotes, in comments and within texts are none.
    fn line(&mut self, start: usize, text: &str) {
        let (mut quote, mut before) = (None, ' ');
        let mut may_begin = true;
        for (at, c) in text.char_indices() {
            match c {
                _ if quote.is_some() => quote = quote.filter(|mark| *mark != c),
                '#' if before == ' ' => break,
                '"' | '\'' if may_begin => quote = Some(c),
                '{' | '[' if may_begin || !self.brackets.is_empty() => {
                    self.brackets.push((c, start + at))
                }
                '}' | ']' => drop(self.brackets.pop()),
                _ => {}
            }
            let sign = matches!(before, ':' | '-') && c == ' ';
            may_begin = matches!(c, '{' | '[' | ',') || sign || may_begin && c == ' ';
            before = c;
        }
        let code = text.split(" #").next().unwrap_or_default().trim_end();
        self.goes_on = code.ends_with([',', '{', '[']);
    }

    /// What is said of the outermost bracket that is left open on a line.
    fn left(&self, lines: &Lines, line: usize) -> Option<NeverClosed> {
        let start = lines.start(line);
        let own = self.brackets.iter().filter(|(_, at)| *at >= start);
        let own: Vec<_> = own.collect();
        let (bracket, at) = own.first()?;
        let text = lines.line_text(line).split(" #").next()?.trim_end();
        let closing = own.iter().rev().map(|(bracket, _)| match bracket {
            '{' => '}',
            _ => ']',
        });
        let closing: String = closing.collect();
        let whole = text.get(at.checked_sub(start)?..)?;
        Some(NeverClosed {
            place: Span::new(*at, start + text.len()),
            message: format!("The `{bracket}` here is never closed."),
            help: format!("Close it at the end of the line: `{whole}{closing}`."),
        })
    }
}
