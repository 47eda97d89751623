//! Figures as people type them, in their own language, and as a plan has them.

use crate::edit::amount::scalar;
use crate::text::{Content, Node, Span};

/// The languages of which the decimal sign is a comma.
const WITH_COMMA: [&str; 2] = ["nb", "fr"];

/// What was typed into a field for a figure, as the plan has it: a bare figure gets the unit that stands beside the field, and
/// a decimal comma becomes a point if the language writes one. All else stays as it was typed. `None` if nothing was typed.
pub fn figure(typed: &str, unit: &str, language: &str) -> Option<Node> {
    let text = match WITH_COMMA.contains(&language) {
        true => other_sign(typed.trim(), ',', '.'),
        false => typed.trim().to_owned(),
    };
    if text.is_empty() {
        return None;
    }
    let content = match (is_bare(&text), unit) {
        (true, "") => return Some(scalar(text)),
        (true, unit) => format!("{text} {unit}"),
        (false, _) => text,
    };
    Some(Node {
        span: Span::default(),
        content: Content::Scalar {
            text: content,
            quoted: true,
        },
    })
}

/// A figure of the plan, as a person who reads this language would have typed it.
pub fn shown(text: &str, language: &str) -> String {
    match WITH_COMMA.contains(&language) {
        true => other_sign(text, '.', ','),
        false => text.to_owned(),
    }
}

/// With another decimal sign in each number that has one such sign and none of the other kind. What has several, such as a
/// day or a number in groups, stays.
fn other_sign(text: &str, from: char, to: char) -> String {
    let in_number = |c: char| c.is_ascii_digit() || c == from || c == to;
    let mut changed = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(start) = rest.find(in_number) {
        let (before, number) = rest.split_at(start);
        let end = number.find(|c| !in_number(c)).unwrap_or(number.len());
        let (number, after) = number.split_at(end);
        changed.push_str(before);
        changed.push_str(&with_sign(number, from, to));
        rest = after;
    }
    changed + rest
}

fn with_sign(number: &str, from: char, to: char) -> String {
    let parts: Vec<&str> = number.split([from, to]).collect();
    match parts.as_slice() {
        [whole, behind] if !whole.is_empty() && !behind.is_empty() => {
            number.replace(from, to.encode_utf8(&mut [0; 4]))
        }
        _ => number.to_owned(),
    }
}

/// Whether this is a number and nothing else.
fn is_bare(text: &str) -> bool {
    let digits = |text: &str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    let number = text.strip_prefix(['+', '-']).unwrap_or(text);
    match number.split_once('.') {
        Some((whole, behind)) => digits(whole) && digits(behind),
        None => digits(number),
    }
}
