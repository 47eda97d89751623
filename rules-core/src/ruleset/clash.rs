//! Words that two rule sets use for different things: a question, a paper, a kind or a fact that each has of its own.
//!
//! The ids of what a rule set adds belong to it. Under one id two rule sets mean the same only where they have it from a
//! file that both build on.

use std::collections::BTreeMap;

use super::{Document, RuleSet};
use crate::vocabulary::{Fact, Kind, Outline, Vocabulary};

/// What stands between the short name of a rule set and a word of it: `florida/counts-on-barrier`.
pub(crate) const OF: char = '/';

/// A word with the name of its rule set.
pub(crate) fn with_name(rule_set: &str, word: &str) -> String {
    format!("{rule_set}{OF}{word}")
}

/// Under which name papers stand in a plan, as kinds stand under theirs.
pub(crate) const PAPERS: &str = "documents";

/// What one rule set means by a word.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Meant<'r> {
    /// The short name of the rule set.
    pub rule_set: &'r str,
    /// What it asks or says of it.
    pub says: &'r str,
}

/// The words that several of these rule sets use, and not for the same, each with what every one of them means:
/// `answers.in-flood-area`, `pool.greatest-width`, `moon-gate`, `documents.site-plan`.
pub(crate) fn clashes<'r>(sets: &[&'r RuleSet]) -> BTreeMap<String, Vec<Meant<'r>>> {
    let mut words: BTreeMap<String, Vec<(&'r RuleSet, Own<'r>)>> = BTreeMap::new();
    for rules in sets {
        for (word, own) in own_words(rules) {
            words.entry(word).or_default().push((rules, own));
        }
    }
    words.retain(|_, uses| clash(uses));
    let meant = |(rules, own): &(&'r RuleSet, Own<'r>)| Meant {
        rule_set: &rules.id,
        says: own.says(),
    };
    let all = words.into_iter();
    all.map(|(word, uses)| (word, uses.iter().map(meant).collect()))
        .collect()
}

fn clash(uses: &[(&RuleSet, Own<'_>)]) -> bool {
    let Some(((first, meaning), others)) = uses.split_first() else {
        return false;
    };
    let same = |(rules, own): &(&RuleSet, Own<'_>)| own == meaning && share_a_file(first, rules);
    !others.iter().all(same)
}

fn share_a_file(one: &RuleSet, other: &RuleSet) -> bool {
    let mut layers = one.layers.iter();
    layers.any(|layer| other.layers.contains(layer))
}

/// Something that a rule set adds to what the program knows.
#[derive(Debug, Clone, Copy)]
enum Own<'r> {
    Kind(&'r Kind),
    Outline(&'r Outline),
    Fact(&'r Fact),
    Paper(&'r Document),
}

impl<'r> Own<'r> {
    fn says(self) -> &'r str {
        match self {
            Self::Kind(kind) => &kind.said,
            Self::Outline(outline) => &outline.said,
            Self::Fact(fact) => &fact.ask,
            Self::Paper(paper) => &paper.title,
        }
    }
}

/// Both say the same, wherever they stand in the table of their rule set.
impl PartialEq for Own<'_> {
    fn eq(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Kind(a), Self::Kind(b)) => {
                (&a.said, a.number, &a.ask, a.matter) == (&b.said, b.number, &b.ask, b.matter)
            }
            (Self::Outline(a), Self::Outline(b)) => {
                (&a.said, a.shape, a.none) == (&b.said, b.shape, b.none)
            }
            (Self::Fact(a), Self::Fact(b)) => {
                (&a.said, &a.ask, &a.how) == (&b.said, &b.ask, &b.how)
                    && (&a.answer, a.varies, a.none) == (&b.answer, b.varies, b.none)
            }
            (Self::Paper(a), Self::Paper(b)) => {
                (&a.title, &a.from, &a.form) == (&b.title, &b.from, &b.form)
                    && a.each.is_some() == b.each.is_some()
            }
            _ => false,
        }
    }
}

/// All that a rule set adds: what its vocabulary has beyond the program's own, and its papers, those of earlier editions
/// too.
fn own_words(rules: &RuleSet) -> BTreeMap<String, Own<'_>> {
    let vocabulary = &rules.vocabulary;
    let standard = Vocabulary::standard();
    let mut words = BTreeMap::new();
    for (id, kind) in vocabulary.kinds() {
        if standard.kind_named(&kind.name).is_none() {
            words.insert(kind.name.clone(), Own::Kind(kind));
        }
        for outline in &vocabulary.kind(id).outlines {
            let path = vocabulary.outline_path(*outline);
            if standard.path(&path).is_none() {
                words.insert(path, Own::Outline(vocabulary.outline(*outline)));
            }
        }
        for fact in &vocabulary.kind(id).facts {
            let path = vocabulary.fact_path(*fact);
            if standard.path(&path).is_none() {
                words.insert(path, Own::Fact(vocabulary.fact(*fact)));
            }
        }
    }
    let editions = std::iter::successors(Some(rules), |rules| rules.earlier.as_deref());
    for paper in editions.flat_map(|edition| &edition.documents) {
        let word = format!("{PAPERS}.{}", paper.id);
        words.entry(word).or_insert(Own::Paper(paper));
    }
    words
}
