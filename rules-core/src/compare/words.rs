//! The changes as text.

use super::{Changed, Changes, PlanCompared};
use crate::check::{Outcome, Verdict};
use crate::ruleset::say::Said;
use crate::text::Visible;
use crate::words::Language;

impl Changes {
    /// The changes as text.
    pub fn to_text(&self) -> Visible {
        let groups = [
            ("Terms", &self.terms),
            ("Rules", &self.rules),
            ("Decisions", &self.decisions),
            ("Steps", &self.duties),
        ];
        let mut text = Visible::new();
        for (title, changed) in groups {
            if !changed.is_empty() {
                text.line(title);
                changed.add_to(&mut text);
                text.gap();
            }
        }
        if text.is_empty() {
            text.line("Both say the same.");
        }
        text
    }
}

impl Changed {
    fn add_to(&self, text: &mut Visible) {
        let whole = |lead, said| (format!("  {lead}: {}", head(said)), lines(said, "    "));
        let added = self.added.iter().map(|said| whole("New", said));
        let removed = self.removed.iter().map(|said| whole("Gone", said));
        for (head, lines) in added.chain(removed) {
            text.gap();
            text.line(head);
            text.extend(lines);
        }
        for (then, now) in &self.changed {
            text.gap();
            text.line(format!("  Changed: {}", head(now)));
            if (&then.title, &then.clause) != (&now.title, &now.clause) {
                text.line(format!("    before: {}", head(then)));
            }
            text.extend(difference(then, now));
        }
    }
}

/// The lines that only one of both has.
fn difference(then: &Said, now: &Said) -> Vec<String> {
    let [before, after] = [then, now].map(|said| lines(said, ""));
    let only = |one: &[String], other: &[String], lead: &str| -> Vec<String> {
        let new = one.iter().filter(|line| !other.contains(line));
        new.map(|line| format!("    {lead} {}", line.trim()))
            .collect()
    };
    [
        only(&before, &after, "before:"),
        only(&after, &before, "now:   "),
    ]
    .concat()
}

fn head(said: &Said) -> String {
    let clause = said.clause.as_ref().map(|clause| format!(", {clause}"));
    format!(
        "{} (`{}`{})",
        said.title,
        said.id,
        clause.unwrap_or_default()
    )
}

fn lines(said: &Said, margin: &str) -> Vec<String> {
    let text = said.text();
    let lines = text.lines().filter(|line| !line.trim().is_empty());
    lines.map(|line| format!("{margin}{line}")).collect()
}

fn in_english(verdict: Verdict) -> &'static str {
    verdict.said().in_language(Language::English)
}

impl PlanCompared {
    /// What changes for the plan of that file, as text.
    pub fn to_text(&self, file: &str) -> Visible {
        let (then, now) = self.verdict;
        let verdict = match then == now {
            true => format!("as before: {}", in_english(now)),
            false => format!("before: {} Now: {}", in_english(then), in_english(now)),
        };
        let mut text = Visible::new();
        text.line(format!("{file}: {}", self.title));
        text.line(format!("  {verdict}"));
        if self.rules.is_empty() {
            text.line("  No rule comes out differently.");
        }
        for (rule, then, now) in &self.rules {
            text.line(format!("  {rule}: {}, now {}", word(*then), word(*now)));
        }
        text
    }
}

fn word(outcome: Option<Outcome>) -> &'static str {
    outcome.map_or("no such rule", Outcome::word)
}
