//! A read-back as text and as Markdown.

use std::borrow::Cow;

use super::{Line, ReadBack, Said};
use crate::text::{Visible, one_line};

/// How headings and sentences are written.
struct Form {
    heading: fn(usize, &str, &mut Visible),
    sentence: fn(&str) -> Cow<'_, str>,
}

const TEXT: Form = Form {
    heading: underlined,
    sentence: |text| text.into(),
};

const MARKDOWN: Form = Form {
    heading: |level, title, out| {
        out.line(format!("{} {}", "#".repeat(level), plain_markdown(title)));
    },
    sentence: plain_markdown,
};

impl ReadBack {
    /// The read-back as plain text.
    pub fn to_text(&self) -> Visible {
        self.laid_out(&TEXT)
    }

    /// The read-back as Markdown.
    pub fn to_markdown(&self) -> Visible {
        self.laid_out(&MARKDOWN)
    }

    fn laid_out(&self, form: &Form) -> Visible {
        let mut out = Visible::new();
        (form.heading)(1, &self.title, &mut out);
        for line in &self.head {
            out.gap();
            out.line((form.sentence)(&line.sentence()));
        }
        for group in self.groups.iter().filter(|group| !group.said.is_empty()) {
            out.gap();
            (form.heading)(2, group.sort.title(), &mut out);
            for said in &group.said {
                said.lay_out(form, &mut out);
            }
        }
        out
    }
}

impl Said {
    fn lay_out(&self, form: &Form, out: &mut Visible) {
        let clause = self.clause.as_ref().map(|clause| format!(" ({clause})"));
        let title = format!("{}{}", self.title, clause.unwrap_or_default());
        out.gap();
        (form.heading)(3, &title, out);
        out.add(&self.text_in(form));
    }

    /// What it says, without its title.
    pub fn text(&self) -> Visible {
        self.text_in(&TEXT)
    }

    fn text_in(&self, form: &Form) -> Visible {
        let mut text = Visible::new();
        for line in &self.lines {
            text.gap();
            text.line((form.sentence)(&line.sentence()));
            if !line.under.is_empty() {
                text.gap();
                list(&line.under, 0, form, &mut text);
            }
        }
        text
    }
}

fn list(lines: &[Line], depth: usize, form: &Form, text: &mut Visible) {
    for line in lines {
        let sentence = line.sentence();
        let sentence = (form.sentence)(&sentence);
        text.line(format!("{}- {sentence}", "  ".repeat(depth)));
        list(&line.under, depth + 1, form, text);
    }
}

fn underlined(level: usize, title: &str, out: &mut Visible) {
    out.line(title);
    let width = one_line(title).chars().count();
    match level {
        1 => out.line("=".repeat(width)),
        2 => out.line("-".repeat(width)),
        _ => {}
    }
}

/// A text that Markdown takes for text and nothing else (CommonMark 0.31, section 2.4: any ASCII punctuation may stand
/// behind a backslash).
fn plain_markdown(text: &str) -> Cow<'_, str> {
    const MARKS: &[char] = &['\\', '*', '_', '[', ']', '<', '>', '&'];
    if !text.contains(MARKS) {
        return text.into();
    }
    let mut plain = String::with_capacity(text.len());
    for c in text.chars() {
        if MARKS.contains(&c) {
            plain.push('\\');
        }
        plain.push(c);
    }
    plain.into()
}
