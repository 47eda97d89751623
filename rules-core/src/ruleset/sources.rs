//! Where the values of a rule set were read, how good a witness that place is, and when it is to be read again.

use super::named_terms::terms_named;
use super::{Rule, RuleSet};
use crate::grammar::GRADES;
use crate::words::Word;

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

impl Source {
    /// Whether it should have been read again by that day (a number of days since 1970-01-01).
    pub fn is_overdue(&self, on: i128) -> bool {
        self.again.is_some_and(|again| on > again)
    }
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
    /// All of them, the best first.
    pub const ALL: [Self; 6] = [
        Self::Law,
        Self::Authority,
        Self::Copy,
        Self::Restatement,
        Self::Trade,
        Self::Memory,
    ];

    /// Its word in files and lists.
    pub fn word(self) -> &'static str {
        let mut words = GRADES.iter().zip(Self::ALL);
        let known = words.find(|(_, grade)| *grade == self);
        known.map_or("memory", |((word, _), _)| word)
    }

    /// Where values of it come from, in a sentence: `3 from a copy of the law`.
    pub fn origin(self) -> Word {
        match self {
            Self::Law => Word::FromLaw,
            Self::Authority => Word::FromAuthority,
            Self::Copy => Word::FromCopy,
            Self::Restatement => Word::FromRestatement,
            Self::Trade => Word::FromTrade,
            Self::Memory => Word::FromMemory,
        }
    }

    /// Whether it is neither the law nor a page of the authority that applies it.
    pub fn is_second_hand(self) -> bool {
        self > Self::Authority
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

/// What a value belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Holder {
    /// A rule.
    Rule,
    /// A term.
    Term,
    /// A decision.
    Decision,
    /// A paper.
    Paper,
    /// A step.
    Step,
    /// A question of the file's own.
    Question,
}

impl Holder {
    /// Its word in lists.
    pub fn word(self) -> &'static str {
        match self {
            Self::Rule => "rule",
            Self::Term => "term",
            Self::Decision => "decision",
            Self::Paper => "paper",
            Self::Step => "step",
            Self::Question => "question",
        }
    }
}

/// A value of a rule set, and what it rests on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SourcedValue<'r> {
    /// What it belongs to.
    pub holder: Holder,
    /// The short name of that.
    pub id: &'r str,
    /// Which value of it, where its sources stand for one and not for the whole.
    pub value: Option<&'r str>,
    /// Where it was read; empty for a rule that names no source in a file that names some.
    pub cited: Vec<&'r Cited>,
    /// How well it is known: as well as the best of its sources.
    pub grade: Grade,
    /// The layer that it comes from.
    pub layer: usize,
}

/// The values that these sources stand for, in the order in which they are named, each with its sources.
fn values_of(cited: &[Cited]) -> Vec<(Option<&str>, Vec<&Cited>)> {
    let mut values: Vec<(Option<&str>, Vec<&Cited>)> = Vec::new();
    for one in cited {
        let value = one.value.as_deref();
        match values.iter_mut().find(|(other, _)| *other == value) {
            Some((_, sources)) => sources.push(one),
            None => values.push((value, vec![one])),
        }
    }
    values
}

impl RuleSet {
    /// All values that name sources, its rules first: a rule, term, decision, paper, step or question is one value, or as
    /// many as its sources tell apart. A rule that names none counts as one from memory, where its file has sources.
    pub fn sourced_values(&self) -> Vec<SourcedValue<'_>> {
        let rules = self.rules.iter();
        let of_rules = rules.flat_map(|rule| self.own_values(rule));
        let others = self.citing().into_iter();
        let of_others = others.flat_map(|(holder, id, cited)| self.values_in(holder, id, cited));
        of_rules.chain(of_others).collect()
    }

    /// All that names sources beside the rules.
    fn citing(&self) -> Vec<(Holder, &str, &[Cited])> {
        let mut all: Vec<(Holder, &str, &[Cited])> = Vec::new();
        let mut add = |holder, id, cited| all.push((holder, id, cited));
        (self.terms.iter()).for_each(|it| add(Holder::Term, &it.id, &it.cited));
        (self.decisions.iter()).for_each(|it| add(Holder::Decision, &it.id, &it.cited));
        (self.documents.iter()).for_each(|it| add(Holder::Paper, &it.id, &it.cited));
        (self.duties.iter()).for_each(|it| add(Holder::Step, &it.id, &it.cited));
        (self.questions.iter()).for_each(|it| add(Holder::Question, &it.id, &it.cited));
        all
    }

    /// The values of something that names these sources.
    pub fn values_in<'r>(
        &'r self,
        holder: Holder,
        id: &'r str,
        cited: &'r [Cited],
    ) -> Vec<SourcedValue<'r>> {
        let values = values_of(cited).into_iter();
        let values = values.filter_map(|(value, cited)| {
            let sources = cited.iter().filter_map(|one| self.sources.get(one.source));
            let grade = sources.clone().map(|source| source.grade).min()?;
            let layer = sources.map(|source| source.layer).min()?;
            Some(SourcedValue {
                holder,
                id,
                value,
                cited,
                grade,
                layer,
            })
        });
        values.collect()
    }

    /// The values that a rule rests on: its own, then those of the terms that it names. None where its file names no sources.
    pub fn values_under<'r>(&'r self, rule: &'r Rule) -> Vec<SourcedValue<'r>> {
        let named = terms_named(rule);
        let terms = self.terms.iter();
        let terms = terms.filter(|term| named.contains(term.id.as_str()));
        let of_terms = terms.flat_map(|it| self.values_in(Holder::Term, &it.id, &it.cited));
        let own = self.own_values(rule).into_iter();
        own.chain(of_terms).collect()
    }

    fn own_values<'r>(&'r self, rule: &'r Rule) -> Vec<SourcedValue<'r>> {
        let unsourced = rule.cited.is_empty() && self.names_sources(rule.layer);
        let from_memory = unsourced.then(|| SourcedValue {
            holder: Holder::Rule,
            id: &rule.id,
            value: None,
            cited: Vec::new(),
            grade: Grade::Memory,
            layer: rule.layer,
        });
        let sourced = self.values_in(Holder::Rule, &rule.id, &rule.cited);
        let sourced = sourced.into_iter().map(|value| SourcedValue {
            layer: rule.layer,
            ..value
        });
        from_memory.into_iter().chain(sourced).collect()
    }

    /// How well the values of a rule are known; `None` where its file names no sources at all.
    pub fn grade(&self, rule: &Rule) -> Option<Grade> {
        let from_memory = || self.names_sources(rule.layer).then_some(Grade::Memory);
        grade_of(&self.sources, &rule.cited).or_else(from_memory)
    }

    /// Whether a layer's file names sources.
    pub fn names_sources(&self, layer: usize) -> bool {
        self.sources.iter().any(|source| source.layer == layer)
    }

    /// The days on which its own sources were read: the oldest and the newest that somebody noted.
    pub fn read_between(&self) -> Option<(i128, i128)> {
        let own = self.sources.iter().filter(|source| source.layer == 0);
        let days = || own.clone().filter_map(|source| source.read);
        days().min().zip(days().max())
    }
}
