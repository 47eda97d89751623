//! How SVG is written: elements, escaped text, and coordinates in whole millimetres of ground.

use std::borrow::Cow;
use std::fmt::Write;

/// One element as it is written.
pub(super) struct El(String, &'static str);

/// Begins an element.
pub(super) fn el(name: &'static str) -> El {
    El(format!("<{name}"), name)
}

impl El {
    /// With an attribute.
    pub fn with(mut self, name: &str, value: impl AsRef<str>) -> Self {
        let value = escaped(value.as_ref());
        for piece in [" ", name, "=\"", &value, "\""] {
            self.0.push_str(piece);
        }
        self
    }

    /// With an attribute, where there is a value for it.
    pub fn with_some(self, name: &str, value: Option<impl AsRef<str>>) -> Self {
        match value {
            Some(value) => self.with(name, value),
            None => self,
        }
    }

    /// With a coordinate or a length on the ground, in millimetres.
    pub fn at(mut self, name: &str, millimetres: f64) -> Self {
        let _ = write!(self.0, " {name}=\"{}\"", mm(millimetres));
        self
    }

    /// Without anything in it.
    pub fn empty(self) -> String {
        self.0 + "/>"
    }

    /// With this in it, and more to come.
    pub fn opening(self, inner: &str) -> String {
        format!("{}>{inner}", self.0)
    }

    /// With this in it.
    pub fn holding(self, inner: &str) -> String {
        format!("{}>{inner}</{}>", self.0, self.1)
    }

    /// With this text in it.
    pub fn saying(self, text: &str) -> String {
        self.holding(&escaped(text))
    }
}

/// What a pointer or a screen reader tells of an element.
pub(super) fn title(text: &str) -> String {
    el("title").saying(text)
}

/// A text that nobody can take for anything but text; what XML cannot hold becomes a sign that says so.
pub(super) fn escaped(text: &str) -> Cow<'_, str> {
    let plain = |byte: u8| (b' '..0x7f).contains(&byte) && !b"&<>\"'".contains(&byte);
    if text.bytes().all(plain) {
        return text.into();
    }
    let mut safe = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => safe.push_str("&amp;"),
            '<' => safe.push_str("&lt;"),
            '>' => safe.push_str("&gt;"),
            '"' => safe.push_str("&quot;"),
            '\'' => safe.push_str("&#39;"),
            '\t' | '\n' | '\r' => safe.push(' '),
            c if c.is_control() || matches!(c, '\u{fffe}' | '\u{ffff}') => safe.push('\u{fffd}'),
            c => safe.push(c),
        }
    }
    safe.into()
}

/// A number of millimetres, to the nearest whole one.
#[expect(
    clippy::cast_possible_truncation,
    reason = "places on a sheet are far below what an i64 holds, and a cast beyond stops at the end"
)]
pub(super) fn mm(millimetres: f64) -> String {
    (millimetres.round() as i64).to_string()
}
