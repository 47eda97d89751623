//! The changes as text.

use super::{Change, Changed, Changes, ListCompared, PlanCompared, RuleCompared};
use crate::check::{Outcome, Verdict};
use crate::ruleset::say::{Line, Said, Sort};
use crate::text::Visible;
use crate::words::Language;

impl Changes {
    /// The changes as text.
    pub fn to_text(&self) -> Visible {
        let mut text = Visible::new();
        if let Some((then, now)) = &self.head {
            text.line("Of itself");
            text.extend(apart(&sentences(then, ""), &sentences(now, "")));
            text.gap();
        }
        for (sort, changed) in &self.groups {
            text.line(sort.title());
            changed.add_to(&mut text);
            text.gap();
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
        for (then, now) in &self.renamed {
            text.gap();
            text.line(format!("  Renamed, and says the same: {}", head(now)));
            text.line(format!("    before: {}", head(then)));
        }
        for change in &self.changed {
            let Change { then, now, effect } = change;
            text.gap();
            text.line(format!("  Changed: {}", head(now)));
            if let Some(effect) = effect {
                text.line(format!("    {}.", effect.sentence));
            }
            if then == now {
                text.line("    It says what it said; a term that it names means something else.");
            }
            if (&then.title, &then.clause) != (&now.title, &now.clause) {
                text.line(format!("    before: {}", head(then)));
            }
            text.extend(apart(&lines(then, ""), &lines(now, "")));
        }
    }
}

/// The lines that only one of both has.
fn apart(before: &[String], after: &[String]) -> Vec<String> {
    let only = |one: &[String], other: &[String], lead: &str| -> Vec<String> {
        let new = one.iter().filter(|line| !other.contains(line));
        new.map(|line| format!("    {lead} {}", line.trim()))
            .collect()
    };
    [
        only(before, after, "before:"),
        only(after, before, "now:   "),
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
    sentences(&said.lines, margin)
}

/// Lines and what is listed under them, each in a line of its own.
fn sentences(lines: &[Line], margin: &str) -> Vec<String> {
    let mut all = Vec::new();
    for line in lines {
        all.push(format!("{margin}{}", line.sentence()));
        let under = sentences(&line.under, "");
        all.extend(under.iter().map(|line| format!("{margin}- {line}")));
    }
    all
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
        for rule in &self.rules {
            rule.add_to(&mut text);
        }
        for (sort, list) in &self.lists {
            text.line(format!("  {}", listed_as(*sort)));
            list.iter().for_each(|one| one.add_to(&mut text));
        }
        text
    }
}

impl RuleCompared {
    fn add_to(&self, text: &mut Visible) {
        let word = |before| self.outcome(before).map_or("no such rule", Outcome::word);
        let outcome = match self.outcome(true) == self.outcome(false) {
            true => format!("{} as before, by another figure", word(false)),
            false => format!("{}, now {}", word(true), word(false)),
        };
        text.line(format!("  {} (`{}`): {outcome}", self.title, self.id));
        let (then, now) = &self.outcomes;
        for (lead, told) in [("before:", then), ("now:   ", now)] {
            let Some(told) = told else { continue };
            text.line(format!("    {lead} {}", told.sentence));
            text.extend((told.measured.iter()).map(|from| format!("            {from}")));
        }
    }
}

impl ListCompared {
    fn add_to(&self, text: &mut Visible) {
        let lines = match (&self.then, &self.now) {
            (Some(then), Some(now)) => {
                vec![format!("    before: {then}"), format!("    now:    {now}")]
            }
            (Some(then), None) => vec![format!("    no more: {then}")],
            (None, now) => now.iter().map(|now| format!("    new: {now}")).collect(),
        };
        text.extend(lines);
    }
}

/// What of a report an entry belongs to.
fn listed_as(sort: Sort) -> &'static str {
    match sort {
        Sort::Decisions => "Classes",
        Sort::Questions => "What is still missing",
        Sort::Scope => "Matters to ask about",
        sort => sort.title(),
    }
}
