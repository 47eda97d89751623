//! Where the values of a rule set were read, how good a witness that place is, and when it is to be read again.

use super::{Rule, RuleSet};

/// A source's place in [`RuleSet::sources`].
pub type SourceIndex = usize;

/// A text in which values of a rule set were read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Source {
    /// Its short name in its file.
    pub id: String,
    /// What it is called.
    pub title: String,
    /// Its address.
    pub at: Option<String>,
    /// How good a witness it is.
    pub grade: Grade,
    /// The day on which it was read (days since 1970-01-01); `None` where nobody noted it.
    pub read: Option<i128>,
    /// The day after which it must be read again.
    pub again: Option<i128>,
    /// A note for the reader.
    pub note: Option<String>,
    /// The layer whose file names it: a place in [`RuleSet::layers`].
    pub layer: usize,
}

/// How good a witness a source is, the best first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Grade {
    /// The law itself, where the state publishes it.
    Law,
    /// A page of the authority that applies it.
    Authority,
    /// A copy of the law's text by somebody else.
    Copy,
    /// The law in somebody else's words.
    Restatement,
    /// What the trade says.
    Trade,
    /// Nobody looked it up.
    Memory,
}

impl Grade {
    /// The words of files, the best first.
    pub const ALL: [(&'static str, Self); 6] = [
        ("law", Self::Law),
        ("authority", Self::Authority),
        ("copy", Self::Copy),
        ("restatement", Self::Restatement),
        ("trade", Self::Trade),
        ("memory", Self::Memory),
    ];

    /// Its word in files and lists.
    pub fn word(self) -> &'static str {
        let known = Self::ALL.iter().find(|(_, grade)| *grade == self);
        known.map_or("memory", |(word, _)| word)
    }
}

/// A source where it is named.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cited {
    /// The source.
    pub source: SourceIndex,
    /// The clause or page in it.
    pub clause: Option<String>,
    /// The value that stands there, where it does not stand for all of the rule.
    pub value: Option<String>,
}

/// A question of a rule file's own, and where it comes from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Question {
    /// Its short name.
    pub id: String,
    /// What it asks.
    pub ask: String,
    /// Where it comes from.
    pub cited: Vec<Cited>,
    /// The layer that it comes from.
    pub layer: usize,
}

/// How well what names these sources is known: of several sources for the same the best counts, and of several values
/// the one that is known worst. `None` where none is named.
pub fn grade_of(sources: &[Source], cited: &[Cited]) -> Option<Grade> {
    let of = |value: &Option<String>| {
        let same = cited.iter().filter(|other| &other.value == value);
        let known = same.filter_map(|cited| sources.get(cited.source));
        known.map(|source| source.grade).min()
    };
    cited.iter().filter_map(|one| of(&one.value)).max()
}

impl RuleSet {
    /// How well the values of a rule are known; `None` where its file names no sources at all.
    pub fn grade(&self, rule: &Rule) -> Option<Grade> {
        let from_memory = || self.names_sources(rule.layer).then_some(Grade::Memory);
        grade_of(&self.sources, &rule.cited).or_else(from_memory)
    }

    /// Whether a layer's file names sources.
    pub fn names_sources(&self, layer: usize) -> bool {
        self.sources.iter().any(|source| source.layer == layer)
    }

    /// The first day after which a rule must be compared with its sources again.
    pub fn to_be_read_again(&self, rule: &Rule) -> Option<i128> {
        let sources = rule.cited.iter();
        let sources = sources.filter_map(|cited| self.sources.get(cited.source)?.again);
        sources.chain(rule.again).min()
    }

    /// The days on which its own sources were read: the oldest and the newest that somebody noted.
    pub fn read_between(&self) -> Option<(i128, i128)> {
        let own = self.sources.iter().filter(|source| source.layer == 0);
        let days = || own.clone().filter_map(|source| source.read);
        days().min().zip(days().max())
    }
}
