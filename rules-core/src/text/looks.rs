//! Characters that look like YAML's own but are others; a word processor or a web page puts them into copied text.

use super::syntax::Said;
use super::{Content, Faults, Node, Span};
use crate::faults::Code;

/// Blanks other than the space.
pub(super) const BLANKS: [char; 8] = [
    '\u{a0}', '\u{2002}', '\u{2003}', '\u{2007}', '\u{2009}', '\u{202f}', '\u{205f}', '\u{3000}',
];
/// Marks other than the hyphen that people put before an item of a list.
const BULLETS: [char; 11] = ['–', '—', '‐', '‑', '−', '•', '·', '●', '▪', '◦', '*'];

/// Quotation marks that are not YAML's.
const OPENING: [char; 5] = ['“', '”', '„', '«', '‘'];
const CLOSING: [char; 4] = ['”', '“', '»', '’'];

/// A blank other than the space.
pub(super) const BLANK: Said = Said {
    code: Code::Lookalike,
    message: "This looks like a space and is another character, a no-break space or the like.",
    help: "Delete it and type a space.",
};

/// A bullet before an item.
pub(super) const BULLET: Said = Said {
    code: Code::Lookalike,
    message: "This looks like the hyphen before an item of a list and is another character.",
    help: "Delete it and type `-`, the hyphen of the keyboard, with a space after it.",
};

/// An item that begins right after its hyphen.
const NO_SPACE: Said = Said {
    code: Code::ListItem,
    message: "A space must follow this `-`.",
    help: "Write `- item`.",
};

/// Whether a text begins with a mark that stands for a hyphen.
pub(crate) fn begins_with_bullet(text: &str) -> bool {
    let mut chars = text.chars();
    let bullet = chars.next().is_some_and(|c| BULLETS.contains(&c));
    bullet && chars.next().is_some_and(char::is_whitespace)
}

/// Reports lines that are indented with a blank other than the space.
pub(super) fn odd_indents(text: &str, faults: &mut Faults) {
    if text.is_ascii() {
        return;
    }
    let mut start = 0;
    for line in text.split_inclusive('\n') {
        if let Some(at) = odd_indent(line) {
            faults.add(BLANK.code, at.from(start), BLANK.message).help(
                match line.get(at.0..at.0 + at.1).map(|odd| odd.chars().count()) {
                    Some(count @ 2..) => format!(
                        "There are {count} of them here: delete them and type {count} spaces."
                    ),
                    _ => BLANK.help.to_owned(),
                },
            );
        }
        start += line.len();
    }
}

/// A character in a line: its first byte there, and its length.
#[derive(Clone, Copy)]
pub(super) struct At(usize, usize);

impl At {
    /// The place in a text, if the line begins at this byte.
    pub(super) fn from(self, line: usize) -> Span {
        Span::new(line + self.0, line + self.0 + self.1)
    }
}

fn odd_indent(line: &str) -> Option<At> {
    let indent = line.len() - line.trim_start().len();
    let says_something = !line.trim().is_empty();
    let mut chars = line.char_indices().take_while(|(at, _)| *at < indent);
    let first = chars.find(|(_, c)| BLANKS.contains(c))?;
    let more = chars.take_while(|(_, c)| BLANKS.contains(c));
    let end = more.last().unwrap_or(first);
    says_something.then_some(At(first.0, end.0 + end.1.len_utf8() - first.0))
}

/// Finds a character that replaces the space after a `:` or a `-`, or the hyphen before an item.
pub(super) fn in_line(line: &str) -> Option<(At, &'static Said)> {
    if let Some(at) = blank_after_sign(line) {
        return Some((at, &BLANK));
    }
    let said = line.trim_start();
    let at = line.len() - said.len();
    let first = At(at, said.chars().next()?.len_utf8());
    let item = said
        .strip_prefix('-')
        .is_some_and(|it| it.starts_with(char::is_alphabetic));
    match (begins_with_bullet(said), item) {
        (true, _) => Some((first, &BULLET)),
        (_, true) if said.contains(": ") => Some((first, &NO_SPACE)),
        _ => None,
    }
}

/// A blank other than the space right after a `:` or a `-`.
pub(super) fn blank_after_sign(text: &str) -> Option<At> {
    let mut before = ' ';
    text.char_indices().find_map(|(at, c)| {
        let odd = BLANKS.contains(&c) && matches!(before, ':' | '-');
        before = c;
        odd.then_some(At(at, c.len_utf8()))
    })
}

/// Likely slips in texts without quotes: quotation marks inside the text, and a `#` that ends it.
pub(crate) fn slips(node: &Node, text: &str) -> Faults {
    let mut faults = Faults::default();
    add_slips(node, text, &mut faults);
    faults
}

fn add_slips(node: &Node, text: &str, faults: &mut Faults) {
    match &node.content {
        Content::Map(entries) => {
            (entries.iter()).for_each(|entry| add_slips(&entry.value, text, faults))
        }
        Content::List(items) => items.iter().for_each(|item| add_slips(item, text, faults)),
        Content::Scalar {
            text: said,
            quoted: false,
        } => {
            curly_quotes(said, node.span, faults);
            cut_by_comment(node.span, text, faults);
        }
        _ => {}
    }
}

fn curly_quotes(said: &str, span: Span, faults: &mut Faults) {
    if said.starts_with(OPENING) && said.ends_with(CLOSING) {
        let inner = said.trim_start_matches(OPENING).trim_end_matches(CLOSING);
        let help = format!("Type the straight mark of the keyboard: `\"{inner}\"`.");
        faults
            .add(
                Code::Lookalike,
                span,
                "These quotation marks are part of the text.",
            )
            .help(help);
    }
}

/// A comment has a blank after its `#`; without one, as in `Rule #4`, the `#` probably belongs to the text.
fn cut_by_comment(span: Span, text: &str, faults: &mut Faults) {
    let rest = text.get(span.end..).unwrap_or_default();
    let line = rest.lines().next().unwrap_or_default();
    let comment = line.trim_start();
    let joined = |rest: &str| rest.starts_with(char::is_alphanumeric);
    if comment.strip_prefix('#').is_some_and(joined) {
        let start = span.end + line.len() - comment.len();
        let place = Span::new(start, start + comment.len());
        let said = text.get(span.start..span.end).unwrap_or_default();
        let help = format!(
            "If it belongs to the text, put all of it in quotes: `\"{said} {comment}\"`. If it is a comment, put a space after the `#`."
        );
        faults
            .add(
                Code::CutByComment,
                place,
                "The text ends before this `#`: what follows is read as a comment.",
            )
            .help(help);
    }
}
