//! The changes as text.

use super::{Changed, Changes, PlanCompared};
use crate::check::Outcome;
use crate::ruleset::say::Said;

impl Changes {
    /// The changes as text.
    pub fn to_text(&self) -> String {
        let groups = [
            ("Terms", &self.terms),
            ("Rules", &self.rules),
            ("Decisions", &self.decisions),
            ("Steps", &self.duties),
        ];
        let changed = groups
            .into_iter()
            .filter(|(_, changed)| !changed.is_empty());
        let text: String = changed
            .map(|(title, changed)| format!("{title}\n{}\n", changed.to_text()))
            .collect();
        match text.is_empty() {
            true => "Both say the same.\n".to_owned(),
            false => text,
        }
    }
}

impl Changed {
    fn to_text(&self) -> String {
        let mut text = String::new();
        for said in &self.added {
            text += &format!("\n  New: {}\n{}", head(said), lines(said, "    "));
        }
        for said in &self.removed {
            text += &format!("\n  Gone: {}\n{}", head(said), lines(said, "    "));
        }
        for (then, now) in &self.changed {
            text += &format!("\n  Changed: {}\n", head(now));
            let differs = (&then.title, &then.clause) != (&now.title, &now.clause);
            if differs {
                text += &format!("    before: {}\n", head(then));
            }
            text += &difference(then, now);
        }
        text
    }
}

/// The lines that only one of both has.
fn difference(then: &Said, now: &Said) -> String {
    let [before, after] = [then, now].map(|said| lines(said, ""));
    let only = |one: &str, other: &str, lead: &str| -> String {
        let new = one
            .lines()
            .filter(|line| !other.lines().any(|same| same == *line));
        new.map(|line| format!("    {lead} {}\n", line.trim()))
            .collect()
    };
    only(&before, &after, "before:") + &only(&after, &before, "now:   ")
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

fn lines(said: &Said, margin: &str) -> String {
    let text = said.text();
    let lines = text.lines().filter(|line| !line.trim().is_empty());
    lines.map(|line| format!("{margin}{line}\n")).collect()
}

impl PlanCompared {
    /// What changes for the plan, as text.
    pub fn to_text(&self) -> String {
        let (then, now) = self.verdict;
        let verdict = match then == now {
            true => format!("as before: {}", now.sentence()),
            false => format!("before: {} Now: {}", then.sentence(), now.sentence()),
        };
        let mut text = format!("{}\n  {verdict}\n", self.title);
        if self.rules.is_empty() {
            text += "  No rule comes out otherwise.\n";
        }
        for (rule, then, now) in &self.rules {
            text += &format!("  {rule}: {}, now {}\n", word(*then), word(*now));
        }
        text
    }
}

fn word(outcome: Option<Outcome>) -> &'static str {
    outcome.map_or("no such rule", Outcome::word)
}
