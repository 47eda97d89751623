//! From the parser's row of events to the tree, noting all that is wrong on the way.

use crate::faults::Code;
use std::borrow::Cow;
use std::collections::BTreeMap;

use saphyr_parser::{Event, Parser, ScalarStyle, ScanError};

use super::leaf::{key_of, or_empty, quoted_length};
use super::lines::floor_char;
use super::offsets::Offsets;
use super::read::{MAX_DEPTH, MAX_NODES};
use super::syntax::Said;
use super::{Content, Entry, Faults, Lines, Node, Span, syntax};

/// A list or a map that is not closed yet.
struct Open {
    span: Span,
    /// In brackets, as in JSON.
    bracketed: bool,
    holds: Holds,
}

enum Holds {
    Items(Vec<Node>),
    Entries(Entries),
}

#[derive(Default)]
struct Entries {
    done: Vec<Entry>,
    seen: BTreeMap<String, Span>,
    turn: Turn,
}

/// What comes next in a map.
#[derive(Default)]
enum Turn {
    #[default]
    Key,
    /// The value of this key; of none where the key was faulty and its value is passed over.
    Value(Option<(String, Span)>),
}

/// Nothing more can be read.
struct Stop;

/// Builds the tree of one text.
pub(super) struct Builder<'t> {
    text: &'t str,
    lines: Lines<'t>,
    offsets: Offsets<'t>,
    faults: Faults,
    open: Vec<Open>,
    root: Option<Node>,
    nodes: usize,
    documents: usize,
    /// Where the events so far end: tags and anchors stand between it and the next.
    read_to: usize,
}

impl<'t> Builder<'t> {
    /// Reads a text; the tree is whole only if there are no faults.
    pub(super) fn read(text: &'t str) -> (Option<Node>, Faults) {
        let mut builder = Self {
            text,
            lines: Lines::new(text),
            offsets: Offsets::new(text),
            faults: Faults::default(),
            open: Vec::new(),
            root: None,
            nodes: 0,
            documents: 0,
            read_to: 0,
        };
        for event in Parser::new_from_str(text) {
            let went_on = match event {
                Ok((event, span)) => builder.event(event, span),
                Err(error) => builder.syntax(&error),
            };
            if went_on.is_err() {
                break;
            }
        }
        (builder.root, builder.faults)
    }

    fn event(&mut self, event: Event, place: saphyr_parser::Span) -> Result<(), Stop> {
        let span = self.span(place);
        match event {
            Event::DocumentStart(_) => self.document(span)?,
            Event::Alias(_) => {
                self.refuse(&syntax::ALIAS, span);
                self.leaf(span, Content::Empty)?;
            }
            Event::Scalar(text, style, anchor, tag) => {
                self.refuse_properties(span, anchor > 0, tag.is_some());
                self.scalar(span, text, style)?;
            }
            Event::SequenceStart(anchor, tag) => {
                self.refuse_properties(span, anchor > 0, tag.is_some());
                self.open(span, Holds::Items(Vec::new()))?;
            }
            Event::MappingStart(anchor, tag) => {
                self.refuse_properties(span, anchor > 0, tag.is_some());
                self.open(span, Holds::Entries(Entries::default()))?;
            }
            Event::SequenceEnd | Event::MappingEnd => self.close(span),
            Event::Nothing | Event::StreamStart | Event::StreamEnd | Event::DocumentEnd => {}
        }
        self.read_to = self.read_to.max(span.end);
        Ok(())
    }

    fn span(&self, place: saphyr_parser::Span) -> Span {
        let start = self.offsets.byte(place.start.index());
        let end = self.offsets.byte(place.end.index()).max(start);
        Span::new(start, end)
    }

    fn slice(&self, span: Span) -> &'t str {
        self.text.get(span.start..span.end).unwrap_or_default()
    }

    fn document(&mut self, span: Span) -> Result<(), Stop> {
        self.documents += 1;
        if self.documents == 1 {
            return Ok(());
        }
        self.faults
            .add(
                Code::SeveralDocuments,
                span,
                "A second document begins here; a file holds only one.",
            )
            .help("Take out the `---`, or put what follows into a file of its own.");
        Err(Stop)
    }

    fn scalar(&mut self, span: Span, text: Cow<str>, style: ScalarStyle) -> Result<(), Stop> {
        let quoted = style != ScalarStyle::Plain;
        let invented = !quoted
            && (span.start == span.end || self.slice(span) != "~")
            && (text == "~" || text.is_empty());
        if invented {
            return self.leaf(span, Content::Empty);
        }
        let written = self.slice(span);
        let length = match style {
            ScalarStyle::Plain => written.len(),
            ScalarStyle::Literal | ScalarStyle::Folded => written.trim_end().len(),
            ScalarStyle::SingleQuoted | ScalarStyle::DoubleQuoted => quoted_length(written),
        };
        let end = span.start + length;
        let text = text.into_owned();
        self.leaf(Span { end, ..span }, Content::Scalar { text, quoted })
    }

    fn leaf(&mut self, span: Span, content: Content) -> Result<(), Stop> {
        self.count(span)?;
        self.place(Node { span, content });
        Ok(())
    }

    fn count(&mut self, span: Span) -> Result<(), Stop> {
        self.nodes += 1;
        if self.nodes <= MAX_NODES {
            return Ok(());
        }
        let message =
            format!("The file has more than {MAX_NODES} keys and values; no more are read.");
        self.faults
            .add(Code::TooMany, span, message)
            .help("Is this the right file?");
        Err(Stop)
    }

    fn open(&mut self, span: Span, holds: Holds) -> Result<(), Stop> {
        self.count(span)?;
        if self.open.len() >= MAX_DEPTH {
            self.refuse(&syntax::TOO_DEEP, span);
            return Err(Stop);
        }
        let written = self.slice(span);
        if written.starts_with('?') && matches!(holds, Holds::Entries(_)) {
            self.faults
                .add(
                    Code::QuestionMark,
                    span,
                    "A `?` before a key is not read here.",
                )
                .help(
                    "Write `key: value`. If the `?` belongs to the text, put the text in quotes.",
                );
            return Err(Stop);
        }
        let bracketed = matches!(written, "[" | "{");
        let span = self.with_first_dash(span, &holds);
        self.open.push(Open {
            span,
            bracketed,
            holds,
        });
        Ok(())
    }

    /// A list in the same column as its key is placed by the parser after its first dash.
    fn with_first_dash(&self, span: Span, holds: &Holds) -> Span {
        let parent = self.open.last().map(|open| &open.holds);
        match (parent, holds) {
            (Some(Holds::Entries(_)), Holds::Items(_)) => Span {
                start: self.before(span, '-').start,
                ..span
            },
            _ => span,
        }
    }

    fn close(&mut self, end: Span) {
        let Some(open) = self.open.pop() else { return };
        let last = match &open.holds {
            Holds::Items(items) => items.last().map(|item| item.span.end),
            Holds::Entries(entries) => entries
                .done
                .last()
                .map(|entry| entry.value.span.end.max(entry.key_span.end)),
        };
        let end = if open.bracketed {
            end.end
        } else {
            last.unwrap_or(open.span.end)
        };
        let span = Span {
            end: end.max(open.span.end),
            ..open.span
        };
        let content = match open.holds {
            Holds::Items(items) => Content::List(items),
            Holds::Entries(entries) => Content::Map(entries.done),
        };
        self.place(Node { span, content });
    }

    /// Puts a finished part where it belongs.
    fn place(&mut self, node: Node) {
        match self.open.last_mut().map(|open| &mut open.holds) {
            None => self.root = Some(or_empty(node)),
            Some(Holds::Items(items)) => items.push(or_empty(node)),
            Some(Holds::Entries(entries)) => match std::mem::take(&mut entries.turn) {
                Turn::Key => {
                    let key = key_of(node, &entries.seen, &self.lines, &mut self.faults);
                    if let Some((key, span)) = &key {
                        entries.seen.insert(key.clone(), *span);
                    }
                    entries.turn = Turn::Value(key);
                }
                Turn::Value(None) => {}
                Turn::Value(Some((key, key_span))) => {
                    let value = or_empty(node);
                    entries.done.push(Entry {
                        key,
                        key_span,
                        value,
                    });
                }
            },
        }
    }

    fn refuse_properties(&mut self, span: Span, anchor: bool, tag: bool) {
        if anchor {
            self.refuse(&syntax::ANCHOR, self.before(span, '&'));
        }
        if tag {
            self.refuse(&syntax::TAG, self.before(span, '!'));
        }
    }

    fn refuse(&mut self, said: &Said, place: Span) {
        self.faults
            .add(said.code, place, said.message)
            .help(said.help);
    }

    /// The word that begins with a sign and stands between the events so far and this place; else this place.
    fn before(&self, span: Span, sign: char) -> Span {
        let gap = self.text.get(self.read_to..span.start).unwrap_or_default();
        let mut start = self.read_to;
        for line in gap.split_inclusive(['\n', '\r']) {
            let said = line.split('#').next().unwrap_or_default();
            if let Some(at) = said.find(sign) {
                let start = start + at;
                return Span::new(start, start + self.word_at(start).len());
            }
            start += line.len();
        }
        span
    }

    /// From a byte to the next blank or bracket.
    fn word_at(&self, byte: usize) -> &'t str {
        let rest = self.text.get(byte..).unwrap_or_default();
        let ends = |c: char| c.is_whitespace() || matches!(c, ',' | '[' | ']' | '{' | '}');
        rest.split(ends).next().unwrap_or_default()
    }

    fn syntax(&mut self, error: &ScanError) -> Result<(), Stop> {
        let at = floor_char(self.text, self.offsets.byte(error.marker().index()));
        let tab = self.tab_near(at);
        let said = match tab {
            Some(_) => &syntax::TAB,
            None => syntax::say(error.info(), self.after_text(at)),
        };
        let next = self.text.get(at..).and_then(|rest| rest.chars().next());
        let width = next
            .filter(|c| !matches!(c, '\n' | '\r'))
            .map_or(0, char::len_utf8);
        let end = at
            + width.max(if width == 0 {
                0
            } else {
                self.word_at(at).len()
            });
        let span = match (tab, said.code) {
            (Some(tab), _) => tab,
            (None, Code::NoColon) => self.text_before(at),
            _ => Span::new(at, end),
        };
        let still_open = self.open_bracket().filter(|_| said.code == Code::Bracket);
        let fault = self.faults.add(said.code, span, said.message);
        fault.help(still_open.unwrap_or_default() + said.help);
        Err(Stop)
    }

    /// The last line with text on it before a byte: the parser notices there that a key has no `:`.
    fn text_before(&self, byte: usize) -> Span {
        let before = self.text.get(..byte).unwrap_or_default().trim_end();
        let line = self.lines.line(before.len());
        let said = self.lines.line_text(line);
        let start = self.lines.start(line) + said.len() - said.trim_start().len();
        Span::new(start, before.len().max(start))
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

    /// The first tab in the indentation of the line of a byte, or of the line above.
    fn tab_near(&self, byte: usize) -> Option<Span> {
        let line = self.lines.line(byte);
        [line, line.saturating_sub(1)]
            .into_iter()
            .filter(|&line| line > 0)
            .find_map(|line| {
                let said = self.lines.line_text(line);
                let indent = said.len() - said.trim_start_matches([' ', '\t']).len();
                let at = said
                    .find('\t')
                    .filter(|&at| at < indent && !said.trim().is_empty())?;
                let start = self.lines.start(line) + at;
                Some(Span::new(start, start + 1))
            })
    }
}
