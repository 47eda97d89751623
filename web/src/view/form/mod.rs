//! The particulars: the questions in the order a person would answer them, one part open at a time.

mod choice;
mod entry;
mod field;
mod lot;
mod outline;
mod parts;
mod pool;
mod sure;
mod things;

use std::collections::BTreeSet;

use rules_core::FaultRow;
use rules_core::asked::{Asked, AskedFact, AskedKind, Because};
use rules_core::session::{Rules, at};
use rules_core::text::Node;

use crate::looks::Looks;
use crate::plan::field_of;
use crate::view::keyed::{El, el};
use crate::words::count;

pub use entry::{Entry, with_entry};
pub use lot::faces_proposed;

/// What a result still waits for.
pub struct StillOpen {
    /// The ids of the rules that are open.
    pub rules: BTreeSet<String>,
    /// The paths of the answers that it asks for, such as the day that says which edition governs.
    pub paths: BTreeSet<String>,
}

/// What the form is about.
#[derive(Clone, Copy)]
pub struct Form<'a> {
    /// The plan.
    pub plan: &'a Node,
    /// The rules.
    pub rules: &'a Rules,
    /// What the rules ask; `None` if they cannot be read.
    pub asked: Option<&'a Asked>,
    /// What is wrong with the plan.
    pub faults: &'a [FaultRow],
    /// What is still open; `None` if there is no result.
    pub open: Option<&'a StillOpen>,
    /// What is shown.
    pub looks: &'a Looks,
    /// The unit of a bare figure.
    pub unit: &'a str,
}

impl<'a> Form<'a> {
    /// The value at a path of the plan.
    pub fn at(&self, path: &str) -> Option<&'a Node> {
        at(self.plan, path).filter(|node| !node.is_empty())
    }

    /// What is wrong at a path.
    pub fn faults_at(&self, path: &str) -> Vec<&'a FaultRow> {
        let faults = self.faults.iter();
        faults
            .filter(|row| row.path.as_deref() == Some(path))
            .collect()
    }

    /// What the rules ask about a kind.
    pub fn asked_of(&self, kind: &str) -> Option<&'a AskedKind> {
        self.asked?.kind(kind)
    }

    /// The questions about the facts of the thing at a path. Those on which no open rule depends are folded away.
    pub fn facts(&self, facts: &'a [AskedFact], path: &str) -> Vec<El> {
        let below = |fact: &AskedFact| format!("{path}.{}", fact.id);
        let question = |fact: &'a AskedFact| self.question(&below(fact), self.fact(fact));
        let (now, later): (Vec<_>, Vec<_>) = facts
            .iter()
            .partition(|fact| self.is_wanted(&below(fact), &fact.why));
        let later = later.into_iter().map(question).collect();
        now.into_iter()
            .map(question)
            .chain(self.folded_away(path, "field.later", later))
            .collect()
    }

    /// Whether a question is asked openly: the result asks for it, a rule that reads the answer is open, or it was
    /// answered.
    pub fn is_wanted(&self, path: &str, why: &[Because]) -> bool {
        let waits = |open: &StillOpen| {
            let reads = |because: &Because| open.rules.contains(&because.rule);
            open.paths.contains(path) || why.iter().any(reads)
        };
        self.open.is_none_or(waits) || self.at(path).is_some()
    }

    /// Questions on which no open rule depends.
    pub fn folded_away(&self, path: &str, words: &str, later: Vec<El>) -> Option<El> {
        if later.is_empty() {
            return None;
        }
        let id = format!("{}-{}", field_of(path), words.replace('.', "-"));
        let summary = el("summary").with(count(words, later.len()));
        let about = el("details").class("about later").id(id);
        Some(about.with(summary).with(later))
    }
}
