//! From the parser's row of events to the tree, noting all that is wrong on the way.

use crate::faults::Code;
use std::borrow::Cow;
use std::collections::BTreeMap;

use saphyr_parser::{Event, Parser, ScalarStyle};

use super::kit::brief;
use super::leaf::{colon_without_space, equals_for_colon, key_of, or_empty, quoted_length};
use super::offsets::Offsets;
use super::read::{MAX_DEPTH, MAX_NODES};
use super::syntax::Said;
use super::{Content, Entry, Faults, Lines, Node, Span, cures, syntax};

/// A list or a map that is not closed yet.
pub(super) struct Open {
    pub(super) span: Span,
    /// In brackets, as in JSON.
    pub(super) bracketed: bool,
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
    /// Whether its first key came again, as in an item whose `-` is missing.
    again: bool,
    turn: Turn,
}

impl Entries {
    fn last_end(&self) -> Option<usize> {
        let last = self.done.last();
        last.map(|entry| entry.value.span.end.max(entry.key_span.end))
    }
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
pub(super) struct Stop;

/// Builds the tree of one text.
pub(super) struct Builder<'t> {
    pub(super) text: &'t str,
    pub(super) lines: Lines<'t>,
    pub(super) offsets: Offsets<'t>,
    pub(super) faults: Faults,
    pub(super) open: Vec<Open>,
    root: Option<Node>,
    nodes: usize,
    documents: usize,
    /// Where the events so far end: tags and anchors stand between it and the next.
    read_to: usize,
}

impl<'t> Builder<'t> {
    fn new(text: &'t str) -> Self {
        Self {
            text,
            lines: Lines::new(text),
            offsets: Offsets::new(text),
            faults: Faults::default(),
            open: Vec::new(),
            root: None,
            nodes: 0,
            documents: 0,
            read_to: 0,
        }
    }

    /// Reads a text; the tree is whole only if there are no faults.
    pub(super) fn read(text: &'t str) -> (Option<Node>, Faults) {
        let mut builder = Self::new(text);
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

    pub(super) fn slice(&self, span: Span) -> &'t str {
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

    /// Reports a value that begins with `#`, as in `clause: #4`, and so is none.
    fn only_a_comment(&mut self, key: Span) {
        let after = self.text.get(key.end..).unwrap_or_default();
        let rest = after.lines().next().unwrap_or_default();
        let comment = rest.trim_start_matches([':', ' ']).trim_end();
        let joined = comment
            .strip_prefix('#')
            .is_some_and(|it| it.starts_with(char::is_alphanumeric));
        if !joined {
            return;
        }
        let start = key.end + rest.find('#').unwrap_or_default();
        let place = Span::new(start, start + comment.len());
        let message = "What follows a `#` is read as a comment, so that nothing is written here.";
        self.faults
            .add(Code::CutByComment, place, message)
            .help(format!(
                "Put it in quotes: `\"{comment}\"`. If it is a comment, put a space after the `#`."
            ));
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
            Holds::Entries(entries) => entries.last_end(),
        };
        let end = match open.bracketed {
            true => end.end,
            false => last.unwrap_or(open.span.end),
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
        let around = self.open.iter().rev().nth(1).map(|open| &open.holds);
        let is_item = matches!(around, Some(Holds::Items(_)));
        match self.open.last_mut().map(|open| &mut open.holds) {
            None => self.root = Some(or_empty(node)),
            Some(Holds::Items(items)) => items.push(or_empty(node)),
            Some(Holds::Entries(entries)) => match std::mem::take(&mut entries.turn) {
                Turn::Key => {
                    let again = is_item.then_some(&mut entries.again);
                    let key = key_of(node, (&entries.seen, again), &self.lines, &mut self.faults);
                    entries.seen.extend(key.clone());
                    entries.turn = Turn::Value(key);
                }
                Turn::Value(None) => {}
                Turn::Value(Some((key, key_span))) => {
                    let value = or_empty(node);
                    if let Some(at) = colon_without_space(&key, key_span, &value) {
                        let (before, after) = key.split_at(at);
                        let said = format!("A space must follow the `:` in `{}`.", brief(&key));
                        let help =
                            format!("Write `{}: {}`.", before, after.trim_start_matches(':'));
                        self.faults.add(Code::Colon, key_span, said).help(help);
                    }
                    if let Some((name, rest)) = equals_for_colon(&key, key_span, &value) {
                        let said = format!("`=` stands where a `:` belongs in `{}`.", brief(&key));
                        let help = format!("Write `{name}: {rest}`.");
                        self.faults.add(Code::Colon, key_span, said).help(help);
                    }
                    let bare = value.is_empty();
                    entries.done.push(Entry {
                        key,
                        key_span,
                        value,
                    });
                    if bare {
                        self.only_a_comment(key_span);
                    }
                }
            },
        }
    }

    fn refuse_properties(&mut self, span: Span, anchor: bool, tag: bool) {
        if anchor {
            self.refuse(&syntax::ANCHOR, self.before(span, '&'));
        }
        if tag {
            let place = self.before(span, '!');
            let help = cures::with_not(&self.lines, place);
            let said = &syntax::TAG;
            self.faults
                .add(said.code, place, said.message)
                .help(help.unwrap_or_else(|| said.help.to_owned()));
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
    pub(super) fn word_at(&self, byte: usize) -> &'t str {
        let rest = self.text.get(byte..).unwrap_or_default();
        let ends = |c: char| c.is_whitespace() || matches!(c, ',' | '[' | ']' | '{' | '}');
        rest.split(ends).next().unwrap_or_default()
    }
}
