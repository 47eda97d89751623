//! Looking up names from files in the table.

use super::fact::WHETHER;
use super::{Fact, FactId, KindId, OutlineId, Phrase, Vocabulary};

/// What a name such as `gate`, `gate.latch` or `gate.latch-height` stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Named {
    /// A kind of thing.
    Kind(KindId),
    /// An outline of a kind.
    Outline(OutlineId),
    /// A fact of a kind.
    Fact(FactId),
}

impl Vocabulary {
    /// What a name stands for: `gate` is a kind, `pool.water` an outline, `gate.latch-height` a fact.
    ///
    /// `None` where the table does not know the kind, or the kind has no such outline or fact.
    pub fn path(&self, name: &str) -> Option<Named> {
        let Some((kind, part)) = name.split_once('.') else {
            return self.kind_named(name).map(Named::Kind);
        };
        let kind = self.kind_named(kind)?;
        let outline = self.outline_named(kind, part).map(Named::Outline);
        outline.or_else(|| self.fact_named(kind, part).map(Named::Fact))
    }

    /// The names of all kinds, for "did you mean".
    pub fn kind_names(&self) -> impl Iterator<Item = &str> {
        self.kinds().map(|(_, kind)| kind.name.as_str())
    }

    /// The names of a kind's outlines, for "did you mean".
    pub fn outline_names(&self, kind: KindId) -> impl Iterator<Item = &str> {
        let outlines = self.kind(kind).outlines.iter();
        outlines.map(|id| self.outline(*id).name.as_str())
    }

    /// The names of a kind's facts, for "did you mean".
    pub fn fact_names(&self, kind: KindId) -> impl Iterator<Item = &str> {
        let facts = self.kind(kind).facts.iter();
        facts.map(|id| self.fact(*id).name.as_str())
    }
}

impl Fact {
    /// Its name in the middle of a sentence: `the height of the latch`, `whether the gate closes by itself`.
    pub fn phrase(&self) -> String {
        match self.phrase {
            Phrase::Whether | Phrase::Clause => self.said.clone(),
            Phrase::Noun => format!("the {}", self.said),
        }
    }

    /// What is so or is not: `the gate closes by itself`; none where the name is no such clause.
    pub fn clause(&self) -> Option<&str> {
        let is_clause = self.phrase == Phrase::Whether;
        is_clause.then(|| self.said.trim_start_matches(WHETHER))
    }
}
