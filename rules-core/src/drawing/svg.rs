//! Writing SVG: elements, escaped text, and coordinates in whole millimetres of ground.

use crate::text::escaped;

/// An element being written: its text so far, and its name.
pub(super) struct El(String, &'static str);

/// Nearly every element fits in this many bytes, so it need not be reallocated while it is written.
const ROOM: usize = 240;

/// Begins an element.
pub(super) fn el(name: &'static str) -> El {
    let mut text = String::with_capacity(ROOM);
    text.push('<');
    text.push_str(name);
    El(text, name)
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

    /// With a coordinate or a length on the ground, in millimetres, as an attribute.
    pub fn at(mut self, name: &str, millimetres: f64) -> Self {
        for piece in [" ", name, "=\"", &mm(millimetres), "\""] {
            self.0.push_str(piece);
        }
        self
    }

    /// Closes the element with nothing in it.
    pub fn empty(self) -> String {
        self.0 + "/>"
    }

    /// The opening tag and this content, left open for more.
    pub fn opening(mut self, inner: &str) -> String {
        self.0.push('>');
        self.0.push_str(inner);
        self.0
    }

    /// Closes the element with this SVG in it.
    pub fn holding(self, inner: &str) -> String {
        let name = self.1;
        let mut text = self.opening(inner);
        for piece in ["</", name, ">"] {
            text.push_str(piece);
        }
        text
    }

    /// Closes the element with this text in it.
    pub fn saying(self, text: &str) -> String {
        self.holding(&escaped(text))
    }
}

/// The title that a pointer shows and a screen reader reads out.
pub(super) fn title(text: &str) -> String {
    el("title").saying(text)
}

/// Millimetres, rounded to a whole number.
#[expect(
    clippy::cast_possible_truncation,
    reason = "places on a sheet are far below what an i64 holds, and a cast beyond stops at the end"
)]
pub(super) fn mm(millimetres: f64) -> String {
    (millimetres.round() as i64).to_string()
}
