//! What a YAML or JSON text says, with the place of every part.

/// Where something stands: in which text, and between which byte offsets, `start` included, `end` not.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Span {
    /// Which of the texts that are read together; 0 for one that is read alone, and for the one that was asked for.
    pub file: u16,
    /// The first byte.
    pub start: usize,
    /// One past the last byte.
    pub end: usize,
}

impl Span {
    /// A place in a text that is read alone.
    pub const fn new(start: usize, end: usize) -> Self {
        Self {
            file: 0,
            start,
            end,
        }
    }

    /// The first so many bytes of it.
    pub(crate) fn first(self, bytes: usize) -> Self {
        let end = self.end.min(self.start.saturating_add(bytes));
        Self { end, ..self }
    }

    /// Whether another place is in this one.
    pub(crate) fn holds(self, other: Span) -> bool {
        self.start <= other.start && other.end <= self.end
    }
}

/// One part of the text.
#[derive(Debug, Clone, PartialEq)]
pub struct Node {
    /// Where it stands.
    pub span: Span,
    /// What it says.
    pub content: Content,
}

/// What a part of the text says.
#[derive(Debug, Clone, PartialEq)]
pub enum Content {
    /// Nothing was written after the key.
    Empty,
    /// A word, a number or a sentence, just as written.
    Scalar {
        /// The text itself, quotes and escapes resolved.
        text: String,
        /// Whether it stood in quotes.
        quoted: bool,
    },
    /// A list.
    List(Vec<Node>),
    /// A map, in the order as written; no key stands in it twice.
    Map(Vec<Entry>),
}

/// One key of a map and what it says.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    /// The key.
    pub key: String,
    /// Where the key stands.
    pub key_span: Span,
    /// What it says.
    pub value: Node,
}

impl Node {
    /// The text of a word, a number or a sentence; `None` for a list, a map or nothing.
    pub fn text(&self) -> Option<&str> {
        match &self.content {
            Content::Scalar { text, .. } => Some(text),
            _ => None,
        }
    }

    /// The entries of a map, in the order as written.
    pub fn as_map(&self) -> Option<&[Entry]> {
        match &self.content {
            Content::Map(entries) => Some(entries),
            _ => None,
        }
    }

    /// The items of a list.
    pub fn as_list(&self) -> Option<&[Node]> {
        match &self.content {
            Content::List(items) => Some(items),
            _ => None,
        }
    }

    /// What a map says under a key; `None` also where this is no map.
    pub fn get(&self, key: &str) -> Option<&Node> {
        let entry = self.as_map()?.iter().find(|entry| entry.key == key)?;
        Some(&entry.value)
    }

    /// Whether nothing is written here.
    pub fn is_empty(&self) -> bool {
        self.content == Content::Empty
    }

    /// Whether this is a map in braces.
    pub(crate) fn is_braced(&self) -> bool {
        let first = self.as_map().and_then(<[Entry]>::first);
        first.is_some_and(|entry| entry.key_span.start > self.span.start)
    }

    /// What this is, in words for a sentence: `a list`, `a text`, …
    pub fn describe(&self) -> &'static str {
        match &self.content {
            Content::Empty => "nothing",
            Content::Scalar { .. } => "a single value",
            Content::List(_) => "a list",
            Content::Map(_) => "keys with values",
        }
    }

    /// Puts the node and all below it into another of the texts that are read together.
    pub(crate) fn put_into(&mut self, file: u16) {
        self.span.file = file;
        match &mut self.content {
            Content::List(items) => items.iter_mut().for_each(|item| item.put_into(file)),
            Content::Map(entries) => {
                for entry in entries {
                    entry.key_span.file = file;
                    entry.value.put_into(file);
                }
            }
            Content::Empty | Content::Scalar { .. } => {}
        }
    }

    /// The path to the smallest part that holds all of a place, such as `things.3.latch-height`; empty for the whole.
    pub fn path_to(&self, place: Span) -> String {
        let mut steps = Vec::new();
        self.go_to(place, &mut steps);
        steps.join(".")
    }

    fn go_to(&self, place: Span, steps: &mut Vec<String>) {
        if self.span == place {
            return;
        }
        let below = match &self.content {
            Content::Map(entries) => entries.iter().find_map(|entry| {
                let is_here = entry.key_span.holds(place) || entry.value.span.holds(place);
                is_here.then(|| (step(&entry.key), &entry.value))
            }),
            Content::List(items) => {
                let mut items = items.iter().enumerate();
                let here = items.find(|(_, item)| item.span.holds(place));
                here.map(|(at, item)| (at.to_string(), item))
            }
            Content::Empty | Content::Scalar { .. } => None,
        };
        if let Some((step, node)) = below {
            steps.push(step);
            node.go_to(place, steps);
        }
    }
}

/// A key as it stands in a path: a dot that belongs to it has a backslash before it.
fn step(key: &str) -> String {
    key.replace('\\', "\\\\").replace('.', "\\.")
}
