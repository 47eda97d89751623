//! The grammar of the files that people write: one declaration for each map, with its keys and what may stand after each.
//!
//! The readers take keys only through these tables, so that a misspelt key is answered with those that are known; the
//! JSON schemas and the reference page are drawn from them. What words mean together is left to the readers.

mod head;
mod measures;
mod outlines;
mod own;
mod papers;
pub(crate) mod plan;
mod requirements;
mod rules;
mod things;

pub(crate) use head::*;
pub(crate) use measures::*;
pub(crate) use outlines::*;
pub(crate) use own::*;
pub(crate) use papers::*;
pub(crate) use requirements::*;
pub(crate) use rules::*;
pub(crate) use things::*;

use crate::quantity::Dimension;
use crate::text::{Entry, Faults, MapReader, Node};

/// A map: how a sentence names it, its keys, and which of them go together.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Declaration<K: ?Sized = [Key]> {
    /// As in `a distance`.
    pub what: &'static str,
    /// What it says, in a sentence; empty where that stands beside its key.
    pub means: &'static str,
    /// An example, as it is written; empty where none is needed.
    pub example: &'static str,
    /// Which keys depend on each other.
    pub ties: &'static [Tie],
    /// Keys that other maps have, too.
    pub groups: &'static [&'static [Key]],
    /// Keys that somebody may well write here, of which the reader says by itself why they are wrong.
    pub refused: &'static [&'static str],
    /// Its keys.
    pub keys: K,
}

/// A map with so many keys.
pub(crate) type Keys<const N: usize> = Declaration<[Key; N]>;

/// A key of a map.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Key {
    pub name: &'static str,
    /// Whether it must be written.
    pub needed: bool,
    /// What may stand after it.
    pub syntax: Syntax,
    /// What it means, in a sentence; empty where the name says it all.
    pub means: &'static str,
}

/// How keys of one map depend on each other. Each set of keys stands for all of them together.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Tie {
    /// Just one of these is written.
    One(&'static [&'static [&'static str]]),
    /// At least one of these is written.
    Some(&'static [&'static [&'static str]]),
    /// Whoever writes the first key writes the second, too.
    Needs(&'static str, &'static str),
}

/// What may stand somewhere.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Syntax {
    /// Whatever the vocabulary or the place says.
    Any,
    /// A text as it stands.
    Text,
    /// A word, or yes or no.
    Word,
    /// A text, a number, or yes or no.
    Scalar,
    /// A text for people, which may be written in several languages.
    Told,
    YesNo,
    /// A short name, as every rule, thing and document has one.
    ShortName,
    /// An id in a plan.
    PlanId,
    /// A text of this pattern, with examples.
    Pattern(&'static str, &'static [&'static str]),
    /// An amount of a dimension with its unit; `None`: of any.
    Amount(Option<Dimension>),
    /// A length, which takes the plan's unit where it has none.
    Length,
    /// What is declared under that name.
    Named(&'static str),
    /// One of these words.
    Words(&'static [&'static str]),
    /// This word, with what it means.
    Choice(&'static str, &'static str),
    /// One of these words, each with what it means.
    Meanings(&'static [(&'static str, &'static str)]),
    /// Any of these.
    AnyOf(&'static [Syntax]),
    /// A list of at least so many.
    List(&'static Syntax, usize),
    /// A list of two.
    Pair(&'static Syntax),
    /// One, or a list of some.
    OneOrMore(&'static Syntax),
    /// This, or nothing after the key.
    OrNothing(&'static Syntax),
    /// A map in which each short name stands for one of these.
    ByName(&'static Syntax),
    /// A map in which each key stands for one of these.
    Each(&'static Syntax),
    /// A map with this key alone.
    Alone(&'static str, &'static Syntax),
    /// A map with at least these keys, which is declared elsewhere.
    Open(&'static [&'static str]),
    /// A map.
    Map(&'static Declaration),
    /// With a sentence that says what it is.
    Says(&'static str, &'static Syntax),
}

/// The words of a table that says what each means.
pub(crate) fn words<const N: usize>(
    table: &[(&'static str, &'static str); N],
) -> [&'static str; N] {
    table.map(|(word, _)| word)
}

/// A map with these keys.
pub(crate) const fn keys<const N: usize>(keys: [Key; N]) -> Keys<N> {
    Declaration {
        what: "such a map",
        means: "",
        example: "",
        ties: &[],
        groups: &[],
        refused: &[],
        keys,
    }
}

/// A key that must be written.
pub(crate) const fn need(name: &'static str, syntax: Syntax) -> Key {
    Key {
        name,
        needed: true,
        syntax,
        means: "",
    }
}

/// A key that may be written.
pub(crate) const fn may(name: &'static str, syntax: Syntax) -> Key {
    Key {
        needed: false,
        ..need(name, syntax)
    }
}

impl Key {
    /// Says what it means.
    pub const fn says(self, means: &'static str) -> Self {
        Self { means, ..self }
    }
}

/// A day.
pub(crate) const DAY: Syntax = Syntax::Amount(Some(Dimension::Date));

// Keys that many maps have.
pub(crate) const ID: Key = need("id", Syntax::ShortName).says("A short name of its own.");
pub(crate) const CITED: Key =
    may("source", Syntax::OneOrMore(&Syntax::Named("citation"))).says("Where it was read.");
pub(crate) const NOTE: Key = may("note", Syntax::Told);

impl<const N: usize> Keys<N> {
    /// Says what it says.
    pub const fn says(self, means: &'static str) -> Self {
        Self { means, ..self }
    }

    /// Shows how it is written.
    pub const fn example(self, example: &'static str) -> Self {
        Self { example, ..self }
    }

    /// Says how its keys depend on each other.
    pub const fn tied(self, ties: &'static [Tie]) -> Self {
        Self { ties, ..self }
    }

    /// Adds keys that other maps have, too.
    pub const fn with(self, groups: &'static [&'static [Key]]) -> Self {
        Self { groups, ..self }
    }

    /// Names keys of which the reader says by itself why they are wrong here.
    pub const fn refusing(self, refused: &'static [&'static str]) -> Self {
        Self { refused, ..self }
    }

    /// How a sentence names it, as in `a distance`.
    pub const fn called(self, what: &'static str) -> Self {
        Self { what, ..self }
    }

    /// The entries of its keys, in their order; says what is missing, and which keys nobody knows.
    pub fn read<'a>(&self, node: &'a Node, faults: &mut Faults) -> Option<[Option<&'a Entry>; N]> {
        let mut map = MapReader::new(node, self.what, faults)?;
        map.refuse(self.refused.iter().copied());
        let entries = map.keys(&self.keys, faults);
        map.finish(faults);
        Some(entries)
    }

    /// The entry of a key that must be written here, though not in every such map; that it is missing is a fault.
    pub fn must_have<'a>(
        &self,
        node: &'a Node,
        key: &'static str,
        faults: &mut Faults,
    ) -> Option<&'a Entry> {
        let mut map = self.known_to(MapReader::new(node, self.what, faults)?);
        let entry = map.need(key, faults);
        map.finish_again(faults);
        entry
    }

    /// Whether one of some keys is written, but not as it is spelt: whoever [reads](Self::read) the map says so.
    pub fn misspells(&self, node: &Node, keys: &[&str]) -> bool {
        let map = MapReader::new(node, self.what, &mut Faults::default());
        map.is_some_and(|map| self.known_to(map).misspells(keys.iter().copied()))
    }

    /// A reader that knows all keys.
    fn known_to<'a>(&self, mut map: MapReader<'a>) -> MapReader<'a> {
        let others = self.groups.iter().copied().flatten();
        map.know(self.keys.iter().chain(others).map(|key| key.name));
        map.refuse(self.refused.iter().copied());
        map
    }
}

impl<'a> MapReader<'a> {
    /// The entries of some keys, in their order; what must be written and is not is a fault.
    pub(crate) fn keys<const N: usize>(
        &mut self,
        keys: &[Key; N],
        faults: &mut Faults,
    ) -> [Option<&'a Entry>; N] {
        keys.map(|key| match key.needed {
            true => self.need(key.name, faults),
            false => self.take(key.name),
        })
    }
}

#[cfg(test)]
mod grammar_tests;
