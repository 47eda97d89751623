//! The one door for YAML and JSON: limits, then the tree with its places, then all that is wrong with it.
//!
//! The parser gives a flat row of events, so that nothing here or there calls itself: depth costs no stack.

use super::tree::Builder;
use super::{Content, Faults, Lines, Node, Span};
use crate::faults::Code;

/// The longest text that is read, in bytes: 2 MB.
pub const MAX_BYTES: usize = 2_000_000;
/// How deep lists and maps may stand inside each other.
pub const MAX_DEPTH: usize = 64;
/// How many keys, values, lists and maps a text may have.
pub const MAX_NODES: usize = 200_000;

/// Reads bytes that should be UTF-8 text. Places count in the text that [`decode`] gives.
///
/// # Errors
/// As [`decode`] and [`read`].
pub fn read_bytes(bytes: &[u8]) -> Result<Node, Faults> {
    read(decode(bytes)?)
}

/// The text of a file, without the byte-order mark that may stand before it.
///
/// # Errors
/// `not-utf8` with the number of the first byte that belongs to no character; `too-long`.
pub fn decode(bytes: &[u8]) -> Result<&str, Faults> {
    let mut faults = Faults::default();
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    // How packed files begin, and those of word processors among them.
    if bytes.starts_with(b"PK\x03\x04") {
        faults
            .add_whole(
                Code::NotUtf8,
                "This is a file of a word processor, or one that is packed, not plain text.",
            )
            .help("Copy its text into a plain text editor, and save it there.");
        return Err(faults);
    }
    if too_long(bytes.len(), &mut faults) {
        return Err(faults);
    }
    std::str::from_utf8(bytes).map_err(|error| {
        let at = error.valid_up_to();
        let valid = String::from_utf8_lossy(bytes.get(..at).unwrap_or_default());
        let line = Lines::new(&valid).line(at);
        let message = format!(
            "The file is not UTF-8 text: byte {at}, on line {line}, belongs to no character."
        );
        faults
            .add_whole(Code::NotUtf8, message)
            .help("Save the file again with the encoding UTF-8.");
        faults
    })
}

/// Reads YAML or JSON text, of which the top is a map.
///
/// # Errors
/// Every fault that can be found in one go. A fault of YAML itself ends the reading, so that more may come to light
/// when it is mended.
pub fn read(text: &str) -> Result<Node, Faults> {
    let mut faults = Faults::default();
    if too_long(text.len(), &mut faults) || has_control(text, &mut faults) {
        return Err(faults);
    }
    not_plain_text(text, &mut faults);
    if !faults.is_empty() {
        return Err(faults);
    }
    super::looks::odd_indents(text, &mut faults);
    if !faults.is_empty() {
        return Err(faults);
    }
    let (root, mut faults) = Builder::read(text);
    if faults.is_empty() {
        check_top(root.as_ref(), &mut faults);
    }
    match root {
        Some(root) if faults.is_empty() => Ok(root),
        _ => Err(faults),
    }
}

/// What files of other programs begin with.
const OF_OTHERS: [(&str, &str, &str); 4] = [
    (
        "{\\rtf",
        "This is a file of a word processor, not plain text.",
        "Save it as “plain text”.",
    ),
    (
        "<!DOCTYPE",
        "This is a page of a browser, not plain text.",
        "Save its text as “plain text”.",
    ),
    (
        "<html",
        "This is a page of a browser, not plain text.",
        "Save its text as “plain text”.",
    ),
    (
        "```",
        "A line of three back-quotes belongs to the page from which this was copied.",
        "Take out the lines with three back-quotes.",
    ),
];

/// Says of a file that another program wrote what it is.
fn not_plain_text(text: &str, faults: &mut Faults) {
    let start = text.len() - text.trim_start().len();
    let said = text.get(start..).unwrap_or_default();
    let other = OF_OTHERS
        .iter()
        .find(|(begins, _, _)| said.starts_with(begins));
    if let Some((_, message, help)) = other {
        let end = start + said.lines().next().unwrap_or_default().len();
        faults
            .add(Code::TopNotAMap, Span::new(start, end), *message)
            .help(*help);
    }
}

fn check_top(root: Option<&Node>, faults: &mut Faults) {
    match root.map(|root| (root, &root.content)) {
        Some((_, Content::Map(_))) => {}
        None | Some((_, Content::Empty)) => {
            faults
                .add_whole(Code::EmptyFile, "Nothing is written in the file.")
                .help("Comments alone do not count.");
        }
        Some((root, _)) => {
            let message = format!(
                "The file should begin with a key, as in `key: value`; it has {} instead.",
                root.describe()
            );
            faults.add(Code::TopNotAMap, root.span, message).help(
                "Put every part of the file under a key of its own, with a space after the `:`.",
            );
        }
    }
}

fn too_long(bytes: usize, faults: &mut Faults) -> bool {
    let long = bytes > MAX_BYTES;
    if long {
        faults.list.extend(longer_than_read().list);
    }
    long
}

/// What is wrong with a file of more than [`MAX_BYTES`] bytes, so that whoever knows its length need not read it.
pub fn longer_than_read() -> Faults {
    let mut faults = Faults::default();
    faults
        .add_whole(
            Code::TooLong,
            format!("The file is longer than {MAX_BYTES} bytes, and is not read."),
        )
        .help("A plan or a rule set is far shorter; is this the right file?");
    faults
}

/// The parser takes a zero byte for the end of the text; and does not count a byte-order mark: what it would
/// pass over in silence is refused here.
fn has_control(text: &str, faults: &mut Faults) -> bool {
    let allowed = |c: char| matches!(c, '\t' | '\n' | '\r' | '\u{85}');
    let bad = |c: char| (c.is_control() && !allowed(c)) || c == '\u{feff}';
    let mut found = text
        .char_indices()
        .filter(|&(_, c)| bad(c))
        .take(super::MAX_SHOWN)
        .peekable();
    let any = found.peek().is_some();
    for (start, c) in found {
        let end = start + c.len_utf8();
        let message = format!(
            "There is a character here that cannot be seen (U+{:04X}).",
            u32::from(c)
        );
        faults
            .add(Code::ControlCharacter, Span::new(start, end), message)
            .help("Take it out; is this a text file?");
    }
    any
}
