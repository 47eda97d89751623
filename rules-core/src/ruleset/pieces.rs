//! What a rule is made of, down to the facts and outlines that it reads.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::visit::{Visit, within};
use super::{
    Condition, DocumentIndex, Enclosure, Once, Part, Requirement, Rule, RuleSet, Selection, Test,
    Value, Which,
};
use crate::vocabulary::{FactId, KindId};

/// One piece of a rule.
#[derive(Debug, Clone, Copy)]
pub enum Piece<'r> {
    /// A value and its bounds.
    Test,
    /// A fact.
    Fact(FactId),
    /// An outline.
    Outline(&'r Part),
    /// Things that are selected.
    Selection(&'r Selection),
    /// A barrier.
    Enclosure(&'r Enclosure),
    /// A paper that must be in hand.
    Paper(DocumentIndex),
}

/// Shows each piece of a rule, with those of the terms that it names.
pub fn of_rule<'r>(rule: &'r Rule, see: &mut dyn FnMut(Piece<'r>)) {
    let see = &mut |piece, _: &[KindId]| see(piece);
    let mut pieces = Pieces::new(see);
    pieces.list(rule.when.iter().chain(&rule.unless));
    rule.each.iter().for_each(|each| pieces.selection(each));
    pieces.requirement(&rule.require);
    for relief in &rule.reliefs {
        pieces.list(relief.when.iter().chain([&relief.require]));
    }
    if let Some(in_force) = &rule.in_force {
        let conditions = in_force.or_when.iter().chain(&in_force.unless);
        pieces.list(conditions.map(|condition: &Condition| &condition.requirement));
    }
}

/// Shows each piece of a value, with those of the terms that it names.
pub fn of_value<'r>(value: &'r Value, see: &mut dyn FnMut(Piece<'r>)) {
    Pieces::new(&mut |piece, _| see(piece)).value(value);
}

/// Shows each piece of a selection, including the terms it names.
pub fn of_selection<'r>(selection: &'r Selection, see: &mut dyn FnMut(Piece<'r>)) {
    Pieces::new(&mut |piece, _| see(piece)).selection(selection);
}

/// Shows each piece of a requirement, with those of the terms that it names, and the kinds of what is chosen around it.
pub fn of_requirement<'r>(requirement: &'r Requirement, see: &mut dyn FnMut(Piece<'r>, &[KindId])) {
    Pieces::new(see).requirement(requirement);
}

/// The barriers whose gaps a requirement asks for.
pub fn enclosures(requirement: &Requirement) -> Vec<&Enclosure> {
    let mut found = Vec::new();
    let mut see = |piece, _: &[KindId]| {
        if let Piece::Enclosure(enclosure) = piece {
            found.push(enclosure);
        }
    };
    of_requirement(requirement, &mut see);
    found
}

/// Whether a requirement speaks of the thing for which a kind's name stands around it.
pub fn speaks_of(requirement: &Requirement, kind: KindId, rules: &RuleSet) -> bool {
    let mut speaks = false;
    let mut see = |piece: Piece<'_>, own: &[KindId]| {
        let named = match piece {
            Piece::Fact(fact) => Some(rules.vocabulary.fact(fact).kind),
            Piece::Outline(part) => match part.which {
                Which::Bound(kind) => Some(kind),
                Which::Meant(ref selection) => Some(selection.kind),
                Which::All(_) => None,
            },
            Piece::Paper(paper) => {
                let each = rules.documents.get(paper).and_then(|it| it.each.as_ref());
                each.map(|each| each.kind)
            }
            Piece::Selection(selection) => selection.part_of,
            Piece::Test | Piece::Enclosure(_) => None,
        };
        speaks |= named == Some(kind) && !own.contains(&kind);
    };
    of_requirement(requirement, &mut see);
    speaks
}

struct Pieces<'s, 'r> {
    /// Who sees each piece, and the kinds whose names stand for things that are chosen within what is gone through.
    see: &'s mut dyn FnMut(Piece<'r>, &[KindId]),
    own: Vec<KindId>,
    /// The terms that were gone through, each beside the kinds whose names stand for what is chosen around it.
    terms: BTreeMap<Vec<KindId>, Once>,
}

impl<'s, 'r> Pieces<'s, 'r> {
    fn new(see: &'s mut dyn FnMut(Piece<'r>, &[KindId])) -> Self {
        Pieces {
            see,
            own: Vec::new(),
            terms: BTreeMap::new(),
        }
    }

    fn show(&mut self, piece: Piece<'r>) {
        (self.see)(piece, &self.own);
    }

    fn list(&mut self, list: impl IntoIterator<Item = &'r Requirement>) {
        list.into_iter().for_each(|one| self.requirement(one));
    }
}

impl<'r> Visit<'r> for Pieces<'_, 'r> {
    fn term<T>(&mut self, said: &'r Arc<T>, go: fn(&mut Self, &'r T)) {
        if self
            .terms
            .entry(self.own.clone())
            .or_default()
            .is_first(said)
        {
            go(self, said);
        }
    }

    fn of_each(&mut self, selection: &'r Selection, go: impl FnOnce(&mut Self)) {
        self.own.push(selection.kind);
        go(self);
        self.own.pop();
    }

    fn test(&mut self, test: &'r Test) {
        self.show(Piece::Test);
        within::test(self, test);
    }

    fn fact(&mut self, fact: FactId) {
        self.show(Piece::Fact(fact));
    }

    fn paper(&mut self, paper: DocumentIndex) {
        self.show(Piece::Paper(paper));
    }

    fn value(&mut self, value: &'r Value) {
        if let Value::Enclosure(enclosure) = value {
            self.show(Piece::Enclosure(enclosure));
        }
        within::value(self, value);
    }

    fn part(&mut self, part: &'r Part) {
        self.show(Piece::Outline(part));
        within::part(self, part);
    }

    fn selection(&mut self, selection: &'r Selection) {
        self.show(Piece::Selection(selection));
        within::selection(self, selection);
    }
}
