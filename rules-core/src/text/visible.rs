//! The one door through which text goes to a person.
//!
//! What a file says may hold characters that nobody sees and that do something: they steer a terminal, turn a line round,
//! begin a new one, or hide between letters. Here each of them becomes a sign that says which it is, `‹U+001B›`. Letters
//! of all languages, accents and emoji stay as they are.

use std::borrow::Cow;
use std::fmt::{self, Write};
use std::ops::Deref;

/// Lines for a person to read, with nothing in them that could hide.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Visible(String);

impl Visible {
    /// No line yet.
    pub fn new() -> Self {
        Self::default()
    }

    /// Adds a line. Whatever stands in it, it is one line.
    pub fn line(&mut self, text: impl AsRef<str>) {
        self.0.push_str(&one_line(text.as_ref()));
        self.0.push('\n');
    }

    /// Adds a line whose text, behind the margin, is marked with one of the terminal's codes (ECMA-48, "select graphic
    /// rendition").
    pub fn marked(&mut self, margin: &str, text: &str, code: &'static str) {
        let (margin, text) = (one_line(margin), one_line(text));
        self.0
            .push_str(&format!("{margin}\u{1b}[{code}m{text}\u{1b}[0m\n"));
    }

    /// Adds an empty line.
    pub fn gap(&mut self) {
        self.0.push('\n');
    }

    /// Adds an empty line, unless nothing stands before it.
    pub fn part(&mut self) {
        if !self.0.is_empty() {
            self.gap();
        }
    }

    /// Adds what was laid out elsewhere.
    pub fn add(&mut self, more: &Visible) {
        self.0.push_str(&more.0);
    }
}

impl Deref for Visible {
    type Target = str;

    fn deref(&self) -> &str {
        &self.0
    }
}

/// A text of lines, each of which it ends itself.
impl From<&str> for Visible {
    fn from(text: &str) -> Self {
        let mut shown = Self::new();
        shown.extend(text.lines());
        shown
    }
}

impl From<Visible> for String {
    fn from(shown: Visible) -> Self {
        shown.0
    }
}

impl PartialEq<&str> for Visible {
    fn eq(&self, other: &&str) -> bool {
        self.0 == *other
    }
}

impl fmt::Display for Visible {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.0)
    }
}

impl<T: AsRef<str>> Extend<T> for Visible {
    fn extend<I: IntoIterator<Item = T>>(&mut self, lines: I) {
        lines.into_iter().for_each(|line| self.line(line));
    }
}

/// The text in one line: tabs and line ends become spaces, and what hides becomes a sign.
pub fn one_line(text: &str) -> Cow<'_, str> {
    replaced(text, |c, shown| match is_blank(c) {
        true => shown.push(' '),
        false => sign(c, shown),
    })
}

/// A name in one line, to the letter: tabs and line ends become signs, too.
pub fn exact_name(name: &str) -> Cow<'_, str> {
    replaced(name, sign)
}

/// A text within XML or HTML that nobody can take for anything but text. What hides is shown, so that XML can hold all that is left.
pub(crate) fn escaped(text: &str) -> Cow<'_, str> {
    let text = one_line(text);
    if !text.contains(['&', '<', '>', '"', '\'']) {
        return text;
    }
    let mut safe = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => safe.push_str("&amp;"),
            '<' => safe.push_str("&lt;"),
            '>' => safe.push_str("&gt;"),
            '"' => safe.push_str("&quot;"),
            '\'' => safe.push_str("&#39;"),
            c => safe.push(c),
        }
    }
    safe.into()
}

/// JSON whose texts hold nothing that hides: each such character is written as JSON's own escape, so that the texts read
/// back as they were.
pub fn plain_json(json: String) -> String {
    let escaped = replaced(&json, |c, plain| match c {
        // Between the values: within a text it is escaped already.
        '\n' => plain.push('\n'),
        c => escape(c, plain),
    });
    match escaped {
        Cow::Borrowed(_) => json,
        Cow::Owned(escaped) => escaped,
    }
}

/// The character as JSON and YAML escape it in quotes; JSON has only halves for those beyond U+FFFF.
pub(super) fn escape(c: char, text: &mut String) {
    for unit in c.encode_utf16(&mut [0; 2]) {
        // Writing to a text cannot fail.
        let _ = write!(text, "\\u{unit:04x}");
    }
}

fn sign(c: char, shown: &mut String) {
    let _ = write!(shown, "‹U+{:04X}›", u32::from(c));
}

fn is_blank(c: char) -> bool {
    matches!(c, '\t' | '\n' | '\r')
}

/// The text with something else in the place of each character that hides where it stands.
pub(super) fn replaced(text: &str, put: impl Fn(char, &mut String)) -> Cow<'_, str> {
    if text.bytes().all(|byte| matches!(byte, b' '..=b'~')) {
        return text.into();
    }
    let mut shown = String::with_capacity(text.len());
    for (c, hidden) in told_apart(text) {
        match hidden {
            true => put(c, &mut shown),
            false => shown.push(c),
        }
    }
    shown.into()
}

/// Each character, and whether it hides where it stands.
fn told_apart(text: &str) -> impl Iterator<Item = (char, bool)> {
    let mut before = Before::default();
    let mut rest = text.chars().peekable();
    std::iter::from_fn(move || {
        let c = rest.next()?;
        let hidden = hides(c) && !before.needs(c, rest.peek().copied());
        before.pass(c);
        Some((c, hidden))
    })
}

/// Each character as it is shown, with what a tab is shown as.
pub(super) fn each_shown<'t>(text: &'t str, tab: &'t str) -> impl Iterator<Item = (char, String)> {
    told_apart(text).map(move |(c, hidden)| {
        let mut shown = String::new();
        match (c, hidden) {
            ('\t', _) => shown.push_str(tab),
            (_, true) => sign(c, &mut shown),
            (_, false) => shown.push(c),
        }
        (c, shown)
    })
}

/// Whether nobody sees a character: controls, separators of lines, what is no character at all, and all that Unicode
/// says is not drawn (its property `Default_Ignorable_Code_Point`, and the marks of annotations).
fn hides(c: char) -> bool {
    if matches!(c, ' '..='~') {
        return false;
    }
    let no_character = u32::from(c) & 0xfffe == 0xfffe;
    c.is_control()
        || no_character
        || matches!(
            c,
            '\u{ad}'
                | '\u{34f}'
                | '\u{61c}'
                | '\u{115f}'..='\u{1160}'
                | '\u{17b4}'..='\u{17b5}'
                | '\u{180b}'..='\u{180f}'
                | '\u{200b}'..='\u{200f}'
                | '\u{2028}'..='\u{202e}'
                | '\u{2060}'..='\u{206f}'
                | '\u{3164}'
                | '\u{fdd0}'..='\u{fdef}'
                | '\u{fe00}'..='\u{fe0f}'
                | '\u{feff}'
                | '\u{ffa0}'
                | '\u{fff0}'..='\u{fffb}'
                | '\u{1bca0}'..='\u{1bca3}'
                | '\u{1d173}'..='\u{1d17a}'
                | '\u{e0000}'..='\u{e0fff}'
        )
}

/// What stands before a character: some that nobody sees belong to the spelling of what they follow.
#[derive(Default)]
struct Before {
    last: Option<char>,
    /// How many letters of a region's flag stand behind the flag itself.
    flag: Option<u8>,
}

/// A region's flag has at most so many letters.
const MOST_OF_A_FLAG: u8 = 6;

impl Before {
    /// Whether what stands before it, and the character after it, need this one.
    fn needs(&self, c: char, next: Option<char>) -> bool {
        let Some(last) = self.last else {
            return false;
        };
        match c {
            // The form of the character before it: that of an emoji, a Chinese or a Mongolian letter.
            '\u{fe00}'..='\u{fe0f}'
            | '\u{e0100}'..='\u{e01ef}'
            | '\u{180b}'..='\u{180d}'
            | '\u{180f}' => !hides(last) && !last.is_whitespace(),
            // Letters that join, as in Persian and in the scripts of India, and emoji made of several.
            '\u{200c}' | '\u{200d}' | '\u{180e}' => {
                is_joining(last) || (is_of_emoji(last) && next.is_some_and(is_of_emoji))
            }
            '\u{e0030}'..='\u{e0039}' | '\u{e0061}'..='\u{e007a}' => {
                self.flag.is_some_and(|letters| letters < MOST_OF_A_FLAG)
            }
            '\u{e007f}' => self.flag.is_some_and(|letters| letters > 0),
            _ => false,
        }
    }

    fn pass(&mut self, c: char) {
        self.flag = match (c, self.flag) {
            ('\u{1f3f4}', _) => Some(0),
            ('\u{e0030}'..='\u{e007a}', Some(letters)) => Some(letters.saturating_add(1)),
            _ => None,
        };
        self.last = Some(c);
    }
}

/// Letters and marks of the scripts from Arabic to Burmese and from Khmer to Mongolian.
fn is_joining(c: char) -> bool {
    matches!(c, '\u{620}'..='\u{109f}' | '\u{1780}'..='\u{17b3}' | '\u{17b6}'..='\u{180a}' | '\u{1820}'..='\u{18aa}')
}

/// Pictures, their colours, and the mark that makes a picture of a sign.
fn is_of_emoji(c: char) -> bool {
    matches!(c, '\u{2190}'..='\u{2bff}' | '\u{3030}'..='\u{303d}' | '\u{fe0f}' | '\u{1f000}'..='\u{1faff}')
}
