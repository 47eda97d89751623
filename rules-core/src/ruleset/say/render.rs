//! A read-back as text and as Markdown.

use super::{Line, ReadBack, Said};

impl ReadBack {
    /// The read-back as plain text.
    pub fn to_text(&self) -> String {
        self.laid_out(&|level, title| match level {
            1 => format!("{title}\n{}\n", "=".repeat(title.chars().count())),
            2 => format!("{title}\n{}\n", "-".repeat(title.chars().count())),
            _ => format!("{title}\n"),
        })
    }

    /// The read-back as Markdown.
    pub fn to_markdown(&self) -> String {
        self.laid_out(&|level, title| format!("{} {title}\n", "#".repeat(level)))
    }

    fn laid_out(&self, head: &dyn Fn(usize, &str) -> String) -> String {
        let mut text = head(1, &self.title);
        for line in &self.head {
            text += &format!("\n{}\n", line.sentence());
        }
        for (title, group) in [
            ("Words", &self.terms),
            ("Rules", &self.rules),
            ("Decisions", &self.decisions),
        ] {
            if group.is_empty() {
                continue;
            }
            text += &format!("\n{}", head(2, title));
            for said in group {
                text += &said_laid_out(said, head);
            }
        }
        text
    }
}

fn said_laid_out(said: &Said, head: &dyn Fn(usize, &str) -> String) -> String {
    let clause = said.clause.as_ref().map(|clause| format!(" ({clause})"));
    let title = format!("{}{}", said.title, clause.unwrap_or_default());
    format!("\n{}{}", head(3, &title), said.text())
}

impl Said {
    /// What it says, without its title.
    pub fn text(&self) -> String {
        let mut text = String::new();
        for line in &self.lines {
            text += &format!("\n{}\n", line.sentence());
            if !line.under.is_empty() {
                text.push('\n');
                list(&line.under, 0, &mut text);
            }
        }
        text
    }

    /// The same with more lines at its end.
    pub fn with(mut self, more: impl IntoIterator<Item = String>) -> Self {
        self.lines.extend(more.into_iter().map(Line::new));
        self
    }
}

fn list(lines: &[Line], depth: usize, text: &mut String) {
    for line in lines {
        *text += &format!("{}- {}\n", "  ".repeat(depth), line.sentence());
        list(&line.under, depth + 1, text);
    }
}
