//! What a rule requires.

use super::Syntax::{List, Named, Text, YesNo};
use super::things::{REQUIREMENT, THINGS};
use super::{Key, Measure, Syntax, may, measure_named, need};

/// A way to combine requirements.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Combination {
    All,
    Any,
    Not,
    Meets,
    Have,
    Each,
    Refer,
}

const REQUIREMENTS: Syntax = List(&REQUIREMENT, 1);

/// The combinations with their keys.
pub(crate) const COMBINATIONS: [(Combination, Key); 7] = [
    (
        Combination::All,
        may("all-of", REQUIREMENTS).says("All of these must hold."),
    ),
    (
        Combination::Any,
        may("any-of", REQUIREMENTS).says("At least one of these must hold."),
    ),
    (
        Combination::Not,
        may("not", REQUIREMENT).says("This must not hold."),
    ),
    (
        Combination::Meets,
        may("meets", Text).says("What this term says must hold."),
    ),
    (
        Combination::Have,
        may("have", Text).says("This document must be in hand."),
    ),
    (Combination::Each, EACH),
    (
        Combination::Refer,
        may("refer", YesNo).says("This is for the authority."),
    ),
];

/// A key that lets a file building on this one change a requirement.
pub(crate) const PART: Key =
    may("id", Text).says("A name by which another file can change this part.");

/// The kind of thing that a term is about.
pub(crate) const TERM_OF: Key = may("of", Named("kind-name")).says("It is about one of these.");

pub(crate) const EACH: Key =
    need("each", THINGS).says("What is required must hold of each of these.");
pub(crate) const REQUIRE: Key = need("require", REQUIREMENT).says("What must hold of each.");

/// What a requirement is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Main {
    Combination(Combination),
    Measure(Measure),
}

/// The keys that say what a requirement is.
pub(crate) fn mains() -> impl Iterator<Item = &'static str> {
    let measures = super::MEASURES.iter().map(|measure| measure.key.name);
    measures.chain(COMBINATIONS.iter().map(|(_, key)| key.name))
}

/// The sort of requirement that a key stands for.
pub(crate) fn main_named(key: &str) -> Option<Main> {
    let combination = COMBINATIONS.iter().find(|(_, known)| known.name == key);
    let combination = combination.map(|(combination, _)| Main::Combination(*combination));
    combination.or_else(|| measure_named(key).map(Main::Measure))
}
