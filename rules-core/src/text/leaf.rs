//! Single values and keys: how long they are, what counts as nothing, what may be a key.

use crate::faults::Code;
use std::collections::BTreeMap;

use super::kit::brief;
use super::{Content, Faults, Lines, Node, Span};

/// The length of a text in quotes up to its closing mark; the parser counts blanks and comments after it too.
pub(super) fn quoted_length(written: &str) -> usize {
    let mut chars = written.char_indices();
    let mark = chars.next().map(|(_, mark)| mark);
    while let Some((at, c)) = chars.next() {
        if c == '\\' && mark == Some('"') {
            chars.next();
        } else if Some(c) == mark {
            let end = at + c.len_utf8();
            let doubled = c == '\'' && written.get(end..).is_some_and(|rest| rest.starts_with(c));
            if !doubled {
                return end;
            }
            chars.next();
        }
    }
    written.len()
}

/// What is written as `~` or `null` says nothing, as in JSON.
pub(super) fn or_empty(node: Node) -> Node {
    match &node.content {
        Content::Scalar {
            text,
            quoted: false,
        } if matches!(text.as_str(), "~" | "null" | "Null" | "NULL") => Node {
            content: Content::Empty,
            ..node
        },
        _ => node,
    }
}

/// The key that a node is, unless it is no key or stands twice.
pub(super) fn key_of(
    node: Node,
    seen: &BTreeMap<String, Span>,
    lines: &Lines,
    faults: &mut Faults,
) -> Option<(String, Span)> {
    let span = node.span;
    let Content::Scalar { text: key, quoted } = node.content else {
        bad_key(&node, faults);
        return None;
    };
    if key == "<<" && !quoted {
        faults
            .add(
                Code::MergeKey,
                span,
                "`<<` takes over another part of the file, which is not possible here.",
            )
            .help("Write the keys out.");
        return None;
    }
    if let Some(first) = seen.get(&key) {
        let (one, two) = (lines.line(first.start), lines.line(span.start));
        let message = format!(
            "The key `{}` stands here twice: on line {one} and on line {two}.",
            brief(&key)
        );
        faults
            .add(Code::DuplicateKey, span, message)
            .help("Keep one of the two, with what stands below either. If they belong to different things, did you mean to indent one of them further?");
        return None;
    }
    Some((key, span))
}

fn bad_key(node: &Node, faults: &mut Faults) {
    let message = match node.content {
        Content::Empty => "A key is missing here, before the `:`.".to_owned(),
        _ => format!("A key is one word or text; here it is {}.", node.describe()),
    };
    let help = "Write `key: value`. Text that begins with a bracket needs quotes.";
    faults.add(Code::BadKey, node.span, message).help(help);
}
