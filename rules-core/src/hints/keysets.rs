//! The words and the maps that may stand in a place.

use crate::grammar::{Declaration, Key, Syntax, Tie};
use crate::vocabulary::{FactId, KindId};

/// What a place takes.
#[derive(Debug, Clone, Copy)]
pub(super) enum Takes {
    /// What a table of the grammar says.
    Syntax(&'static Syntax),
    /// A plan.
    Plan,
    /// A thing of a kind; none where a key in it says which.
    Thing(Option<KindId>),
    /// What can be stated for a fact.
    Fact(FactId),
}

/// A word that may stand in a place, with its sentence.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Word {
    pub word: String,
    pub says: String,
}

/// A key that may stand in a map.
#[derive(Debug, Clone)]
pub(super) struct Known {
    pub name: String,
    pub says: String,
    pub takes: Takes,
}

/// A map that may stand in a place.
#[derive(Debug, Clone, Default)]
pub(super) struct Keyset {
    pub what: &'static str,
    pub means: &'static str,
    pub example: &'static str,
    pub keys: Vec<Known>,
    /// What people say instead of a key.
    pub others: &'static [(&'static str, &'static str)],
    ties: &'static [Tie],
}

/// All that may stand in a place.
#[derive(Debug, Default)]
pub(super) struct Open {
    pub words: Vec<Word>,
    pub maps: Vec<Keyset>,
    /// The parts of a list.
    pub parts: Vec<Takes>,
    /// What follows each name of the writer's own choosing.
    pub named: Vec<Takes>,
    /// What else, in words.
    pub other: Vec<String>,
}

pub(super) type Given<'g> = &'g [(&'g str, &'g str)];

pub(super) fn word(word: &str, says: &str) -> Word {
    let (word, says) = (word.to_owned(), says.to_owned());
    Word { word, says }
}

pub(super) fn known(key: &'static Key) -> Known {
    Known {
        name: key.name.to_owned(),
        says: key.means.to_owned(),
        takes: Takes::Syntax(&key.syntax),
    }
}

impl Keyset {
    pub(super) fn of(declaration: &'static Declaration) -> Self {
        let groups = declaration.groups.iter().copied().flatten();
        Self {
            what: declaration.what,
            means: declaration.means,
            example: declaration.example,
            keys: declaration.keys.iter().chain(groups).map(known).collect(),
            others: declaration.others,
            ties: declaration.ties,
        }
    }

    pub(super) fn of_keys(
        what: &'static str,
        keys: impl IntoIterator<Item = &'static Key>,
    ) -> Self {
        Self {
            what,
            keys: keys.into_iter().map(known).collect(),
            ..Self::default()
        }
    }

    pub fn has(&self, name: &str) -> bool {
        self.keys.iter().any(|key| key.name == name)
    }

    /// The keys that may still be written beside some others.
    pub fn still(&self, given: Given<'_>) -> impl Iterator<Item = &Known> {
        let written = |name: &str| given.iter().any(|(key, _)| *key == name);
        let barred = self.ties.iter().flat_map(move |tie| match tie {
            Tie::One(sets) if sets.iter().any(|set| set.iter().all(|key| written(key))) => {
                sets.iter().flat_map(|set| set.iter().copied()).collect()
            }
            Tie::Needs(key, other) if !written(other) => vec![*key],
            _ => Vec::new(),
        });
        let barred: Vec<&str> = barred.collect();
        self.keys
            .iter()
            .filter(move |key| !written(&key.name) && !barred.contains(&key.name.as_str()))
    }
}

impl Open {
    pub(super) fn map(&mut self, declaration: &'static Declaration) {
        self.maps.push(Keyset::of(declaration));
    }

    pub(super) fn says(&mut self, other: impl Into<String>) {
        self.other.push(other.into());
    }

    /// The maps that have all of some keys; all of them where none has.
    pub fn fitting(&self, given: Given<'_>) -> Vec<&Keyset> {
        let has_all = |map: &&Keyset| given.iter().all(|(key, _)| map.has(key));
        let fitting: Vec<_> = self.maps.iter().filter(has_all).collect();
        match fitting.is_empty() {
            true => self.maps.iter().collect(),
            false => fitting,
        }
    }
}
