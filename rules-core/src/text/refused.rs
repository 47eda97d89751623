//! What the parser of YAML refuses: where it is, and what is said of it.

use saphyr_parser::ScanError;

use super::lines::floor_char;
use super::syntax::Said;
use super::tree::{Builder, Stop};
use super::{Span, cures, looks, syntax};
use crate::faults::Code;

impl Builder<'_> {
    /// Says what the parser refuses, after which nothing more is read.
    pub(super) fn syntax(&mut self, error: &ScanError) -> Result<(), Stop> {
        let at = floor_char(self.text, self.offsets.byte(error.marker().index()));
        if let Some((said, place)) = self.lookalike_near(at) {
            let help = match said.code {
                Code::ListItem => cures::with_space(&self.lines, place),
                _ => said.help.to_owned(),
            };
            self.faults.add(said.code, place, said.message).help(help);
            return Err(Stop);
        }
        let tab = self.tab_near(at);
        let said = match tab {
            Some(_) => &syntax::TAB,
            None => syntax::say(error.info(), self.after_text(at)),
        };
        let tab = match said.code {
            Code::Tab => tab.or_else(|| self.tab_below(at)),
            _ => tab,
        };
        if tab.is_none()
            && let Some(bracket) = cures::never_closed(&self.lines, at, said)
        {
            let fault = self
                .faults
                .add(Code::Bracket, bracket.place, bracket.message);
            fault.help(bracket.help);
            return Err(Stop);
        }
        let next = self.text.get(at..).and_then(|rest| rest.chars().next());
        let ends_line = next.is_none_or(|c| matches!(c, '\n' | '\r'));
        let width = match next.filter(|_| !ends_line) {
            Some(c) => c.len_utf8().max(self.word_at(at).len()),
            None => 0,
        };
        let before = said.code == Code::NoColon;
        let said = match said.code {
            Code::NotYaml if self.open_above(at) => &syntax::OPEN_BRACKET,
            Code::NoColon if self.slice(self.text_before(at)).contains(':') => {
                &syntax::SPACE_AFTER_COLON
            }
            Code::ValueMissing if next == Some('?') => &syntax::QUESTION,
            _ => said,
        };
        let span = match (tab, said.code) {
            (Some(tab), _) => tab,
            (None, _) if before => self.text_before(at),
            _ => Span::new(at, at + width),
        };
        self.refuse_syntax(said, span, at);
        Err(Stop)
    }

    /// Says what is wrong, and what to write for it in the words of the file where that is clear.
    fn refuse_syntax(&mut self, said: &Said, span: Span, at: usize) {
        let colon = matches!(said.code, Code::NoColon | Code::Colon);
        let with_colon = cures::with_colon(self.slice(span)).filter(|_| colon);
        let cure = cures::Refused::new(&self.lines, at).cure(said);
        let place = cure.as_ref().and_then(|cure| cure.place);
        let span = place.filter(|_| with_colon.is_none()).unwrap_or(span);
        let (message, help) = match (with_colon, cure) {
            (Some(help), _) => (None, help),
            (None, Some(cure)) => (cure.message, cure.help),
            (None, None) => {
                let still_open = self.open_bracket().filter(|_| said.code == Code::Bracket);
                (None, still_open.unwrap_or_default() + said.help)
            }
        };
        let message = message.unwrap_or_else(|| said.message.to_owned());
        self.faults.add(said.code, span, message).help(help);
    }

    /// The last line with text on it before a byte: the parser notices there that a key has no `:`.
    fn text_before(&self, byte: usize) -> Span {
        let (before, after) = self.text.split_at_checked(byte).unwrap_or_default();
        let before = before.trim_end();
        // A text runs over two lines, and the second has a `:`: the fault is in the first.
        let joined = after.trim_start_matches([' ', '"', '\'']).starts_with(':');
        let line = self.lines.line(before.len()) - usize::from(joined);
        let before = match joined {
            true => self
                .text
                .get(..self.lines.start(line + 1))
                .unwrap_or_default()
                .trim_end(),
            false => before,
        };
        let said = self.lines.line_text(line);
        let start = self.lines.start(line) + said.len() - said.trim_start().len();
        Span::new(start, before.len().max(start))
    }

    /// Whether the last line with text above a byte's line has an unclosed bracket.
    fn open_above(&self, byte: usize) -> bool {
        let line = self.lines.line(byte);
        let above = (1..line).rev().map(|line| self.lines.line_text(line));
        let above = above
            .take(3)
            .find(|text| !text.trim().is_empty())
            .unwrap_or_default();
        let count = |signs: [char; 2]| above.matches(signs).count();
        count(['{', '[']) > count(['}', ']'])
    }

    /// Whether something else stands before a byte on its line.
    fn after_text(&self, byte: usize) -> bool {
        let start = self.lines.start(self.lines.line(byte));
        let before = self.text.get(start..byte).unwrap_or_default();
        !before.trim_start_matches([' ', '-']).is_empty()
    }

    fn open_bracket(&self) -> Option<String> {
        let open = self.open.iter().rev().find(|open| open.bracketed)?;
        let (line, bracket) = (self.lines.line(open.span.start), self.slice(open.span));
        Some(format!("The `{bracket}` on line {line} is still open. "))
    }

    /// A character that replaces a space or a hyphen on the line of a byte, or on the lines above it that the parser
    /// passed.
    fn lookalike_near(&self, byte: usize) -> Option<(&'static Said, Span)> {
        const BACK: usize = 3;
        let line = self.lines.line(byte);
        let lines = (line.saturating_sub(BACK).max(1)..=line).rev();
        let mut found = lines.filter_map(|line| {
            let (at, said) = looks::in_line(self.lines.line_text(line))?;
            Some((said, at.from(self.lines.start(line))))
        });
        found.next()
    }

    /// The first tab in the indentation of the line of a byte, or of the line above.
    fn tab_near(&self, byte: usize) -> Option<Span> {
        let line = self.lines.line(byte);
        [line, line.saturating_sub(1)]
            .into_iter()
            .filter(|&line| line > 0)
            .find_map(|line| self.tab_in(line))
    }

    /// The first tab in the indentation of a line below: a text that may go on there is placed where it begins.
    fn tab_below(&self, byte: usize) -> Option<Span> {
        const FAR: usize = 20;
        let line = self.lines.line(byte);
        (line + 1..line + FAR).find_map(|line| self.tab_in(line))
    }

    fn tab_in(&self, line: usize) -> Option<Span> {
        let said = self.lines.line_text(line);
        let indent = said.len() - said.trim_start_matches([' ', '\t']).len();
        let at = said
            .find('\t')
            .filter(|&at| at < indent && !said.trim().is_empty())?;
        let start = self.lines.start(line) + at;
        Some(Span::new(start, start + 1))
    }
}
