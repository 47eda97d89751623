//! The grammar of the files that people write: one declaration for each map, with its keys and what may follow each.
//!
//! The readers take keys only through these tables, so they can answer a misspelt key with the known ones. The JSON
//! schemas and the reference page are built from them. What words mean together is left to the readers.

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

/// A map: its name in a sentence, its keys, and how they depend on each other.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Declaration<K: ?Sized = [Key]> {
    /// Its name in a sentence, such as `a distance`.
    pub what: &'static str,
    /// What it means, in a sentence; empty if its key says that.
    pub means: &'static str,
    /// An example, as written in a file; empty if none is needed.
    pub example: &'static str,
    /// How its keys depend on each other.
    pub ties: &'static [Tie],
    /// Groups of keys that it shares with other maps.
    pub groups: &'static [&'static [Key]],
    /// Keys that people are likely to write here by mistake; the reader explains them itself.
    pub refused: &'static [&'static str],
    /// Words that people write instead of its keys, each with the key.
    pub others: &'static [(&'static str, &'static str)],
    /// Its keys.
    pub keys: K,
}

/// A map with `N` keys.
pub(crate) type Keys<const N: usize> = Declaration<[Key; N]>;

/// A key of a map.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Key {
    pub name: &'static str,
    /// Whether it must be written.
    pub needed: bool,
    /// What may follow it.
    pub syntax: Syntax,
    /// What it means, in a sentence; empty if the name says it all.
    pub means: &'static str,
}

/// How the keys of a map depend on each other. A set counts as written only if all its keys are.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Tie {
    /// Exactly one of these sets is written.
    One(&'static [&'static [&'static str]]),
    /// At least one of these sets is written.
    Some(&'static [&'static [&'static str]]),
    /// The first key needs the second.
    Needs(&'static str, &'static str),
}

/// What may be written in a place.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Syntax {
    /// Anything; the vocabulary or the context decides.
    Any,
    /// A plain text.
    Text,
    /// A word, or yes or no.
    Word,
    /// A text, a number, or yes or no.
    Scalar,
    /// A text for people, which may be written in several languages.
    Told,
    YesNo,
    /// A short name, such as every rule, thing and document has.
    ShortName,
    /// An id in a plan.
    PlanId,
    /// A text of this pattern, with examples.
    Pattern(&'static str, &'static [&'static str]),
    /// An amount of a dimension with its unit; `None` means any dimension.
    Amount(Option<Dimension>),
    /// A length, which takes the plan's unit if it has none.
    Length,
    /// The declaration of that name.
    Named(&'static str),
    /// One of these words.
    Words(&'static [&'static str]),
    /// This word, with what it means.
    Choice(&'static str, &'static str),
    /// One of these words, each with what it means.
    Meanings(&'static [(&'static str, &'static str)]),
    /// Any of these.
    AnyOf(&'static [Syntax]),
    /// A list of at least this many.
    List(&'static Syntax, usize),
    /// A list of two.
    Pair(&'static Syntax),
    /// One item, or a list of one or more.
    OneOrMore(&'static Syntax),
    /// This, or nothing after the key.
    OrNothing(&'static Syntax),
    /// A map from short names to these.
    ByName(&'static Syntax),
    /// A map from any keys to these.
    Each(&'static Syntax),
    /// A map with this key alone.
    Alone(&'static str, &'static Syntax),
    /// A map that is declared elsewhere and has at least these keys.
    Open(&'static [&'static str]),
    /// A map.
    Map(&'static Declaration),
    /// This, with a sentence that says what it is.
    Says(&'static str, &'static Syntax),
}

/// The words of a table of words and meanings.
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
        others: &[],
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
    /// Says what it means.
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

    /// Adds groups of keys that it shares with other maps.
    pub const fn with(self, groups: &'static [&'static [Key]]) -> Self {
        Self { groups, ..self }
    }

    /// Names the keys that the reader explains itself as wrong here.
    pub const fn refusing(self, refused: &'static [&'static str]) -> Self {
        Self { refused, ..self }
    }

    /// Gives the words that people write instead of its keys.
    pub const fn or_as_people_say(self, others: &'static [(&'static str, &'static str)]) -> Self {
        Self { others, ..self }
    }

    /// Gives its name in a sentence, such as `a distance`.
    pub const fn called(self, what: &'static str) -> Self {
        Self { what, ..self }
    }

    /// The entries of its keys, in order; reports missing and unknown keys.
    pub fn read<'a>(&self, node: &'a Node, faults: &mut Faults) -> Option<[Option<&'a Entry>; N]> {
        let mut map = self.begun(node, faults)?;
        let entries = map.keys(&self.keys, faults);
        map.finish(faults);
        Some(entries)
    }

    /// A reader that knows all keys. A node that is not a map gives a fault with an example.
    pub fn begun<'a>(&self, node: &'a Node, faults: &mut Faults) -> Option<MapReader<'a>> {
        let map = MapReader::new(node, self.what, faults);
        if let (None, false, Some(fault)) = (&map, self.example.is_empty(), faults.list.last_mut())
        {
            fault.help(format!(
                "Write it as keys with values, as in `{}`.",
                self.example
            ));
        }
        map.map(|map| self.known_to(map))
    }

    /// The entry of a key that is needed here, though not in every such map. A missing one is a fault.
    pub fn must_have<'a>(
        &self,
        node: &'a Node,
        key: &'static str,
        faults: &mut Faults,
    ) -> Option<&'a Entry> {
        let mut map = self.known_to(MapReader::new(node, self.what, faults)?);
        let means = self.keys.iter().find(|known| known.name == key);
        let entry = map.need(key, means.map_or("", |key| key.means), faults);
        map.finish_again(faults);
        entry
    }

    /// Whether one of some keys is written, but not as it is spelt: whoever [reads](Self::read) the map says so.
    pub fn misspells(&self, node: &Node, keys: &[&str]) -> bool {
        MapReader::new(node, self.what, &mut Faults::default())
            .is_some_and(|map| self.known_to(map).misspells(keys.iter().copied()))
    }

    /// A reader that knows all keys.
    fn known_to<'a>(&self, mut map: MapReader<'a>) -> MapReader<'a> {
        let others = self.groups.iter().copied().flatten();
        map.know(self.keys.iter().chain(others).map(|key| key.name));
        map.refuse(self.refused.iter().copied());
        map.instead_of(self.others);
        map.as_in(self.example);
        map
    }
}

impl<'a> MapReader<'a> {
    /// The entries of some keys, in order. A missing needed key is a fault.
    pub(crate) fn keys<const N: usize>(
        &mut self,
        keys: &[Key; N],
        faults: &mut Faults,
    ) -> [Option<&'a Entry>; N] {
        keys.map(|key| match key.needed {
            true => self.need(key.name, key.means, faults),
            false => self.take(key.name),
        })
    }
}

#[cfg(test)]
mod grammar_tests;
