//! What a YAML or JSON text says, with the place of every part.

/// Where something stands in a text: byte offsets, `start` included, `end` not.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Span {
    /// The first byte.
    pub start: usize,
    /// One past the last byte.
    pub end: usize,
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
