//! Single values and keys: how long they are, what counts as nothing, what may be a key.

use crate::faults::Code;
use std::collections::BTreeMap;

use super::kit::brief;
use super::looks::{self, blank_after_sign};
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

/// The place of the `:` in a key that should be a key and its value, as in `{fact:pool.depth}`.
pub(super) fn colon_without_space(key: &str, span: Span, value: &Node) -> Option<usize> {
    let bare =
        value.is_empty() && value.span.start <= span.end && span.end - span.start == key.len();
    let at = key.find(':').filter(|at| bare && *at > 0)?;
    let address = key.get(at..).is_some_and(|rest| rest.starts_with("://"));
    let word = key
        .get(..at)
        .is_some_and(|word| word.chars().all(|c| c.is_ascii_lowercase() || c == '-'));
    (word && !address).then_some(at)
}

/// The two parts of a key that should be a key and its value, as in `{from = pool.water}`.
pub(super) fn equals_for_colon<'k>(
    key: &'k str,
    span: Span,
    value: &Node,
) -> Option<(&'k str, &'k str)> {
    let bare =
        value.is_empty() && value.span.start <= span.end && span.end - span.start == key.len();
    let (name, rest) = key.split_once('=').filter(|_| bare)?;
    let (name, rest) = (name.trim(), rest.trim());
    let word = !name.is_empty() && name.chars().all(|c| c.is_ascii_lowercase() || c == '-');
    (word && !rest.is_empty()).then_some((name, rest))
}

/// Keys after which several things may hold together.
const HOLDING: [&str; 4] = ["require", "when", "unless", "where"];

/// The key that a node is, unless it is no key or stands twice. `again` notes for an item of a list that its first key
/// came again, after which nothing is said of the others.
pub(super) fn key_of(
    node: Node,
    (seen, again): (&BTreeMap<String, Span>, Option<&mut bool>),
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
    if let Some(at) = blank_after_sign(&key).filter(|_| !quoted) {
        let said = &looks::BLANK;
        faults
            .add(said.code, at.from(span.start), said.message)
            .help(said.help);
        return None;
    }
    if let Some(first) = seen.get(&key) {
        let (one, two) = (lines.line(first.start), lines.line(span.start));
        let is_first = seen.values().all(|other| other.start >= first.start);
        let new_item = again.is_some() && is_first && one < two;
        if let Some(again) = again {
            if *again {
                return None;
            }
            *again = new_item;
        }
        let line = lines.line_text(two).trim_end();
        let has_more_below = line.ends_with(':');
        let message = format!(
            "The key `{}` is here twice: on line {one} and on line {two}.",
            brief(&key)
        );
        let help = match HOLDING.contains(&key.as_str()) {
            _ if new_item => format!("Does a new item begin here? Then put `- ` in place of the two blanks before `{}`. Otherwise keep one of the two.", brief(&key)),
            false if has_more_below && one < two => format!("Put what is below it under the first `{}`, on line {one}, and take this line out. If they belong to different things, indent one of them further.", brief(&key)),
            false if is_first && begins_line(lines, span.start) => format!("If each begins a thing of its own, make a list of them: put `- ` before both `{}`, and two more spaces before the lines that belong to each. Otherwise keep one of the two.", brief(&key)),
            true => format!("Keep one of the two, with both in it as a list: `{key}: [{{…}}, {{…}}]`. If they belong to different things, indent one of them further."),
            false => "Keep one of the two. If they belong to different things, indent one of them further.".to_owned(),
        };
        faults.add(Code::DuplicateKey, span, message).help(help);
        return None;
    }
    Some((key, span))
}

/// Whether a byte is the first on its line, after blanks.
fn begins_line(lines: &Lines, byte: usize) -> bool {
    let line = lines.line(byte);
    let before = byte.saturating_sub(lines.start(line));
    before > 0
        && lines
            .line_text(line)
            .get(..before)
            .is_some_and(|it| it.trim().is_empty())
}

fn bad_key(node: &Node, faults: &mut Faults) {
    let message = match node.content {
        Content::Empty => "A key is missing here, before the `:`.".to_owned(),
        _ => format!("A key is one word or text; here it is {}.", node.describe()),
    };
    let help = "Write `key: value`. Text that begins with a bracket needs quotes.";
    faults.add(Code::BadKey, node.span, message).help(help);
}
