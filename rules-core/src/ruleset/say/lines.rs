//! A sentence and the lines listed under it.

use crate::text::capitalised;

/// One line of a read-back, and the lines that it introduces.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Line {
    /// What it says, without the full stop or the colon at its end.
    pub text: String,
    /// What is listed under it.
    pub under: Vec<Line>,
}

impl Line {
    /// A line under which nothing is listed.
    pub fn new(text: impl Into<String>) -> Self {
        Self {
            text: text.into(),
            under: Vec::new(),
        }
    }

    /// The same with something before it.
    pub(super) fn led_by(self, lead: &str) -> Self {
        let text = if lead.is_empty() {
            capitalised(&self.text)
        } else {
            format!("{lead}{}", lower(&self.text))
        };
        Self { text, ..self }
    }

    /// The text as a sentence, or as the head of a list.
    pub fn sentence(&self) -> String {
        format!(
            "{}{}",
            self.text,
            match self.under.is_empty() {
                true if self.text.ends_with('.') => "",
                true => ".",
                false => ":",
            }
        )
    }
}

/// A phrase with a small letter at its beginning.
pub(super) fn lower(phrase: &str) -> String {
    let mut rest = phrase.chars();
    let first = rest.next().map(|c| c.to_lowercase().to_string());
    first.unwrap_or_default() + rest.as_str()
}
