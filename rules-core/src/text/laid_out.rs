//! A tree written out again, in its own order and with every figure as it was typed.
//!
//! A document that somebody edits must not change where they did not touch it: so `0.10` stays `0.10`, and keys stay in
//! their order, which a value of a programming language would not keep.

use super::visible::{escape, replaced};
use super::{Content, Entry, Node};

/// What is wider than this is written over several lines.
const WIDTH: usize = 110;

/// The tree as JSON in one line. What it writes, [`read`](super::read) reads as the same tree.
pub fn to_json_text(node: &Node) -> String {
    match &node.content {
        Content::Empty => "null".to_owned(),
        Content::Scalar { text, quoted } if *quoted || !is_literal(text) => in_quotes(text),
        Content::Scalar { text, .. } => text.clone(),
        Content::List(items) => format!("[{}]", joined(items.iter().map(to_json_text))),
        Content::Map(entries) => {
            let pairs = entries
                .iter()
                .map(|entry| format!("{}: {}", in_quotes(&entry.key), to_json_text(&entry.value)));
            format!("{{{}}}", joined(pairs))
        }
    }
}

/// The tree as YAML for people: what is short in one line, the rest a key to a line.
pub fn to_yaml_text(node: &Node) -> String {
    match &node.content {
        Content::List(items) if !items.is_empty() => block_list(items, 0),
        Content::Map(entries) if !entries.is_empty() => block_map(entries, 0),
        _ => format!("{}\n", flow(node)),
    }
}

/// A part as it would be written in a sentence: in one line, with `…` for what is long in it.
pub(crate) fn in_short(node: &Node) -> String {
    const LONGEST: usize = 90;
    let whole = flow(node);
    let entries = node.as_map().filter(|_| whole.chars().count() > LONGEST);
    entries.map_or(whole, |entries| {
        let pairs = entries
            .iter()
            .map(|entry| format!("{}: {}", scalar(&entry.key, false), if_short(&entry.value)));
        format!("{{{}}}", joined(pairs))
    })
}

fn if_short(node: &Node) -> String {
    const LONGEST: usize = 40;
    let whole = flow_item(node);
    match whole.chars().count() > LONGEST {
        true => "…".to_owned(),
        false => whole,
    }
}

fn block_map(entries: &[Entry], indent: usize) -> String {
    let lines = entries.iter().map(|entry| {
        let key = scalar(&entry.key, false);
        match below(&entry.value, indent, key.len() + 2) {
            Some(block) => format!("{}{key}:\n{block}", blanks(indent)),
            None => {
                format!("{}{key}: {}", blanks(indent), flow(&entry.value))
                    .trim_end()
                    .to_owned()
                    + "\n"
            }
        }
    });
    lines.collect()
}

fn block_list(items: &[Node], indent: usize) -> String {
    let lines = items.iter().map(|item| match below(item, indent, 2) {
        // The first line of what is below stands behind the dash.
        Some(block) => format!("{}- {}", blanks(indent), block.trim_start()),
        None => format!("{}- {}\n", blanks(indent), flow(item)),
    });
    lines.collect()
}

/// What is too wide for its line, as lines of their own.
fn below(node: &Node, indent: usize, before: usize) -> Option<String> {
    let wide = indent + before + flow(node).chars().count() > WIDTH;
    match &node.content {
        Content::List(items) if wide => Some(block_list(items, indent + 2)),
        Content::Map(entries) if wide => Some(block_map(entries, indent + 2)),
        _ => None,
    }
}

fn flow(node: &Node) -> String {
    match &node.content {
        Content::Empty => String::new(),
        Content::Scalar { text, quoted } => scalar(text, *quoted),
        Content::List(items) => format!("[{}]", joined(items.iter().map(flow_item))),
        Content::Map(entries) => {
            let pairs = entries
                .iter()
                .map(|entry| format!("{}: {}", scalar(&entry.key, false), flow_item(&entry.value)));
            format!("{{{}}}", joined(pairs))
        }
    }
}

/// Nothing at all between two commas would read as no item.
fn flow_item(node: &Node) -> String {
    match node.is_empty() {
        true => "~".to_owned(),
        false => flow(node),
    }
}

/// A word as it stands where that reads back as the same, else in quotes.
fn scalar(text: &str, quoted: bool) -> String {
    let bare = is_bare(text) && !(quoted && (is_literal(text) || text == "null"));
    match bare {
        true => text.to_owned(),
        false => in_quotes(text),
    }
}

/// Whether YAML takes a text without quotes as just this text, in brackets too.
fn is_bare(text: &str) -> bool {
    let inner = |c: char| c.is_alphanumeric() || " _./()+-±°²³'\"".contains(c);
    let number = text.starts_with('-') && is_literal(text);
    (number || text.starts_with(char::is_alphanumeric))
        && !text.ends_with(' ')
        && text.chars().all(inner)
}

/// Whether JSON has a number or a truth value of this spelling.
fn is_literal(text: &str) -> bool {
    let value = serde_json::from_str(text);
    matches!(
        value,
        Ok(serde_json::Value::Number(_) | serde_json::Value::Bool(_))
    ) && text.trim() == text
}

/// The text in double quotes, as both JSON and YAML read it.
pub(crate) fn in_quotes(text: &str) -> String {
    // A text can always be written.
    let quoted = serde_json::to_string(text).unwrap_or_default();
    // JSON would write a character beyond U+FFFF as two escapes, which YAML does not join again.
    let put = |c: char, text: &mut String| match u32::from(c) > 0xffff {
        true => text.push(c),
        false => escape(c, text),
    };
    replaced(&quoted, put).into_owned()
}

fn joined(parts: impl Iterator<Item = String>) -> String {
    parts.collect::<Vec<_>>().join(", ")
}

fn blanks(count: usize) -> String {
    " ".repeat(count)
}
