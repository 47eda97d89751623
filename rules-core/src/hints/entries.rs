//! Where each rule, case and other entry of a file begins and ends.

use super::rough::{Rough, rough};
use crate::ruleset::say::Sort;

/// An entry of a file: a rule, a case, a term.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    /// The key under which it stands, such as `rules`.
    pub section: String,
    /// Its short name.
    pub id: String,
    /// Its first byte.
    pub start: usize,
    /// One past its last byte.
    pub end: usize,
}

/// The keys that name an entry; each entry has one of them.
const NAMES: [&str; 5] = ["id", "case", "replaces", "withdraws", "adds-to"];

/// The entries of a file in their order, also where the file cannot be read.
pub fn entries(text: &str) -> Vec<Entry> {
    let shape = rough(text);
    let sections = shape.pairs().iter();
    sections
        .flat_map(|section| {
            let name = word(text, section.key);
            of_section(text, name, &section.value)
        })
        .collect()
}

fn word(text: &str, (start, end): (usize, usize)) -> &str {
    let word = text.get(start..end).unwrap_or_default();
    word.trim_matches(['"', '\''])
}

fn of_section(text: &str, section: &str, value: &Rough) -> Vec<Entry> {
    let entry = |id: &str, start: usize, end: usize| Entry {
        section: section.to_owned(),
        id: id.to_owned(),
        start,
        end,
    };
    let listed = value.items().iter().filter_map(|item| {
        let id = named(text, item)?;
        Some(entry(id, item.start, item.end))
    });
    let keyed = value.pairs().iter();
    let keyed = keyed.map(|pair| entry(word(text, pair.key), pair.key.0, pair.value.end));
    listed.chain(keyed).collect()
}

fn named<'t>(text: &'t str, item: &Rough) -> Option<&'t str> {
    let pairs = item.pairs();
    let found = NAMES.iter().find_map(|name| {
        let mut pairs = pairs.iter();
        pairs.find(|pair| word(text, pair.key) == *name)
    })?;
    Some(word(text, (found.value.start, found.value.end)))
}

/// Where the part of a file under this key ends; none if it has none.
pub fn end_of_section(text: &str, section: &str) -> Option<usize> {
    let shape = rough(text);
    let mut sections = shape.pairs().iter();
    let found = sections.find(|pair| word(text, pair.key) == section)?;
    Some(found.value.end)
}

/// The key of a rule file under which what is read back of this sort stands.
pub fn section_of(sort: Sort) -> &'static str {
    match sort {
        Sort::Scope => "scope",
        Sort::Kinds => "kinds",
        Sort::Questions => "questions",
        Sort::Words => "terms",
        Sort::Rules => "rules",
        Sort::Decisions => "decide",
        Sort::Papers => "documents",
        Sort::Steps => "do",
        Sort::Cautions => "cautions",
        Sort::Sources => "sources",
    }
}
