//! The papers that are not in hand, and which of them are taken to be.

use std::collections::{BTreeMap, BTreeSet};

use super::judging::Asked;
use crate::check::Governed;
use crate::plan::{DocumentState, Papers, ThingIndex};
use crate::ruleset::pieces::{Piece, of_rule};
use crate::ruleset::{Rule, RuleSet};

/// A paper that may still be got.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Paper {
    /// Its id in the rule set.
    pub id: String,
    /// What it is.
    pub title: String,
    /// The thing that it is for, where there is one for each.
    pub thing: Option<ThingIndex>,
    /// The binding rules that read it.
    rules: Asked,
}

impl Paper {
    /// Whether one of these rules reads it.
    pub fn is_read_by(&self, rules: &Asked) -> bool {
        self.rules.iter().any(|rule| rules.contains(rule))
    }
}

/// Which papers are taken to be in hand, besides those that are.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Given {
    /// The plan as it is: a paper that is not in hand may still be got, or not.
    AsStated,
    /// These, each a bit by its place in the list, and no others.
    Only(u32),
}

impl Given {
    /// The most papers to weigh.
    pub const MOST: usize = 8;
    /// No paper that is not in hand.
    pub const NONE: Given = Given::Only(0);

    /// The first so many papers.
    pub fn all(many: usize) -> Given {
        Given::Only((0..many).fold(0, |bits, at| bits | bit(at)))
    }

    /// One paper.
    pub fn one(at: usize) -> Given {
        Given::Only(bit(at))
    }

    /// Whether it includes the paper at a place of the list.
    pub fn has(self, at: usize) -> bool {
        matches!(self, Given::Only(bits) if bits & bit(at) != 0)
    }

    /// As far as a rule reads these papers: rules that read none of them are judged alike whatever is given.
    pub fn read_by(self, rule: usize, papers: &[Paper]) -> Given {
        let Given::Only(bits) = self else {
            return self;
        };
        let read = papers.iter().enumerate();
        let read = read.filter(|(_, paper)| paper.rules.contains(&rule));
        match read.fold(0, |bits, (at, _)| bits | bit(at)) {
            0 => Given::AsStated,
            read => Given::Only(bits & read),
        }
    }
}

fn bit(at: usize) -> u32 {
    u32::try_from(at)
        .ok()
        .and_then(|at| 1_u32.checked_shl(at))
        .unwrap_or(0)
}

/// The papers that are not in hand and that a binding rule reads. One that was asked for and refused is not among them.
pub(super) fn papers((rules, found): (&RuleSet, &Governed<'_>), ids: &[String]) -> Vec<Paper> {
    let readers = readers(rules);
    let needs = found.findings.documents.iter();
    let to_get = needs.filter(|need| need.state == DocumentState::NotYet);
    let paper = |need: &crate::check::DocumentNeed| {
        let document = found.rules.documents.get(need.document)?;
        let reads = |rule: &usize| {
            let id = ids.get(*rule).map_or("", String::as_str);
            readers.contains(&(id, document.id.as_str()))
        };
        Some(Paper {
            id: document.id.clone(),
            title: document.title.clone(),
            thing: need.thing,
            rules: (0..ids.len()).filter(reads).collect(),
        })
    };
    to_get
        .filter_map(paper)
        .filter(|paper| !paper.rules.is_empty())
        .collect()
}

/// The ids of each rule and each document that it reads, in any edition.
fn readers(rules: &RuleSet) -> BTreeSet<(&str, &str)> {
    let editions = std::iter::successors(Some(rules), |it| it.earlier.as_deref());
    let mut readers = BTreeSet::new();
    for edition in editions {
        for rule in edition.all_rules() {
            readers.extend(
                read(rule, edition)
                    .into_iter()
                    .map(|id| (rule.id.as_str(), id)),
            );
        }
    }
    readers
}

fn read<'r>(rule: &'r Rule, rules: &'r RuleSet) -> Vec<&'r str> {
    let mut read = Vec::new();
    of_rule(rule, &mut |piece| {
        if let Piece::Paper(paper) = piece {
            read.extend(rules.documents.get(paper).map(|it| it.id.as_str()));
        }
    });
    read
}

/// What a plan states of its documents, with these papers in hand.
pub(super) fn documents(
    stated: &BTreeMap<String, Papers>,
    papers: &[Paper],
    given: Given,
) -> BTreeMap<String, Papers> {
    let mut documents = stated.clone();
    if given == Given::AsStated {
        return documents;
    }
    for (at, paper) in papers.iter().enumerate() {
        let state = match given.has(at) {
            true => DocumentState::InHand,
            false => DocumentState::Refused,
        };
        let known = documents.entry(paper.id.clone()).or_default();
        match paper.thing {
            Some(thing) => drop(known.of.insert(thing, state)),
            None => known.whole = Some(state),
        }
    }
    documents
}
