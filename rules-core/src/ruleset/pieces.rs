//! What a rule is made of, down to the facts and outlines that it reads.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::{
    Area, Bound, Condition, Distance, DocumentIndex, Enclosure, Once, Operand, Part, Requirement,
    RowTest, Rule, RuleSet, Selection, ShareOf, Surface, Table, Test, Then, Value, Volume, Which,
    Zone,
};
use crate::vocabulary::{FactId, KindId};

/// One piece of a rule.
#[derive(Debug, Clone, Copy)]
pub enum Piece<'r> {
    /// A value and its bounds.
    Test(&'r Test),
    /// A fact, and whether it is meant all along its thing and not at one place.
    Fact(FactId, bool),
    /// An outline.
    Outline(&'r Part),
    /// Things that are selected.
    Selection(&'r Selection),
    /// A barrier.
    Enclosure(&'r Enclosure),
    /// A paper that must be in hand.
    Paper(DocumentIndex),
    /// A defined term, by its name.
    Term(&'r str),
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

/// Shows each piece of a requirement, with those of the terms that it names.
pub fn of_requirement<'r>(requirement: &'r Requirement, see: &mut dyn FnMut(Piece<'r>)) {
    Pieces::new(&mut |piece, _| see(piece)).requirement(requirement);
}

/// Shows each piece of a value, with those of the terms that it names.
pub fn of_value<'r>(value: &'r Value, see: &mut dyn FnMut(Piece<'r>)) {
    Pieces::new(&mut |piece, _| see(piece)).value(value);
}

/// Whether a requirement speaks of the thing for which a kind's name stands around it.
pub fn speaks_of(requirement: &Requirement, kind: KindId, rules: &RuleSet) -> bool {
    let mut speaks = false;
    let mut see = |piece: Piece<'_>, own: &[KindId]| {
        let named = match piece {
            Piece::Fact(fact, _) => Some(rules.vocabulary.fact(fact).kind),
            Piece::Outline(part) => match part.which {
                Which::Bound(kind) => Some(kind),
                Which::All(_) => None,
            },
            Piece::Paper(paper) => {
                let each = rules.documents.get(paper).and_then(|it| it.each.as_ref());
                each.map(|each| each.kind)
            }
            Piece::Test(_) | Piece::Selection(_) | Piece::Enclosure(_) | Piece::Term(_) => None,
        };
        speaks |= named == Some(kind) && !own.contains(&kind);
    };
    Pieces::new(&mut see).requirement(requirement);
    speaks
}

struct Pieces<'s, 'r> {
    /// Who sees each piece, and the kinds whose names stand for things that are chosen within what is gone through.
    see: &'s mut dyn FnMut(Piece<'r>, &[KindId]),
    whole: bool,
    own: Vec<KindId>,
    /// The terms that were gone through, each beside all that it may mean another thing by: whether facts are meant all
    /// along, and the kinds whose names stand for what is chosen around it.
    terms: BTreeMap<(bool, Vec<KindId>), Once>,
}

impl<'s, 'r> Pieces<'s, 'r> {
    fn new(see: &'s mut dyn FnMut(Piece<'r>, &[KindId])) -> Self {
        Pieces {
            see,
            whole: false,
            own: Vec::new(),
            terms: BTreeMap::new(),
        }
    }

    fn show(&mut self, piece: Piece<'r>) {
        (self.see)(piece, &self.own);
    }

    /// Goes through what a term says, where that was not done before.
    fn term<T>(&mut self, name: &'r str, said: &'r Arc<T>, go: fn(&mut Self, &'r T)) {
        self.show(Piece::Term(name));
        let around = (self.whole, self.own.clone());
        if self.terms.entry(around).or_default().is_first(said) {
            go(self, said);
        }
    }

    /// Goes through something in which a kind's name stands for each of the things that are selected.
    fn of_each(&mut self, selection: &'r Selection, go: impl FnOnce(&mut Self)) {
        self.own.push(selection.kind);
        go(self);
        self.own.pop();
    }

    fn list(&mut self, list: impl IntoIterator<Item = &'r Requirement>) {
        list.into_iter().for_each(|one| self.requirement(one));
    }

    fn requirement(&mut self, requirement: &'r Requirement) {
        match requirement {
            Requirement::Test(test) => self.test(test),
            Requirement::All(list) | Requirement::Any(list) => self.list(list),
            Requirement::Count { of, bounds } => {
                self.list(of);
                self.bounds(bounds);
            }
            Requirement::Not(inner) => self.requirement(inner),
            Requirement::Each(each) => {
                self.selection(&each.selection);
                self.of_each(&each.selection, |pieces| pieces.requirement(&each.require));
            }
            Requirement::Table(table) => self.table(table, Self::requirement),
            Requirement::Meets { term, requirement } => {
                self.term(&term.name, requirement, Self::requirement);
            }
            Requirement::Have(paper) => self.show(Piece::Paper(*paper)),
            Requirement::Refer => {}
        }
    }

    fn test(&mut self, test: &'r Test) {
        self.show(Piece::Test(test));
        let outer = self.whole;
        self.whole |= test.holds.is_some();
        self.value(&test.value);
        self.bounds(&test.bounds);
        self.whole = outer;
    }

    fn bounds(&mut self, bounds: &'r [Bound]) {
        for bound in bounds {
            match bound {
                Bound::AtLeast(value)
                | Bound::AtMost(value)
                | Bound::MoreThan(value)
                | Bound::LessThan(value) => self.value(value),
                Bound::Is(_) => {}
            }
        }
    }

    fn table<T>(&mut self, table: &'r Table<T>, then: fn(&mut Self, &'r T)) {
        self.values(&table.by);
        for row in &table.rows {
            match &row.test {
                RowTest::Bounds(bounds) => self.bounds(bounds),
                RowTest::When(when) => self.requirement(when),
                RowTest::Otherwise => {}
            }
            if let Then::Give(given) = &row.then {
                then(self, given);
            }
        }
    }

    fn values(&mut self, values: impl IntoIterator<Item = &'r Value>) {
        values.into_iter().for_each(|value| self.value(value));
    }

    fn value(&mut self, value: &'r Value) {
        match value {
            Value::Stated(_) => {}
            Value::Fact(fact) => self.show(Piece::Fact(*fact, self.whole)),
            Value::Distance(distance) => self.distance(distance),
            Value::Area(area) => self.area(area),
            Value::Length { of, within } => {
                self.operand(of);
                within.iter().for_each(|zone| self.zone(zone));
            }
            Value::Count(selection) => self.selection(selection),
            Value::Enclosure(enclosure) => {
                self.show(Piece::Enclosure(enclosure));
                self.operands([&enclosure.of, &enclosure.made_of]);
            }
            Value::Sound(sound) => self.operands([&sound.from, &sound.at]),
            Value::Level(level) => self.operand(&level.of),
            Value::Fall(fall) => {
                self.operands([&fall.from, &fall.to]);
                self.values(&fall.run);
            }
            Value::Volume(volume) => self.volume(volume),
            Value::Height(height) => {
                self.operands([&height.of].into_iter().chain(&height.over));
                self.value(&height.within);
            }
            Value::Table(table) => self.table(table, Self::value),
            Value::Largest(list)
            | Value::Smallest(list)
            | Value::Sum(list)
            | Value::Difference(list)
            | Value::Product(list) => self.values(list),
            Value::Over { of, take, .. } => {
                self.selection(of);
                self.of_each(of, |pieces| pieces.value(take));
            }
            Value::Named { term, value, .. } => self.term(&term.name, value, Self::value),
        }
    }

    fn distance(&mut self, distance: &'r Distance) {
        self.operands([&distance.from, &distance.to]);
    }

    fn area(&mut self, area: &'r Area) {
        self.operand(&area.of);
        area.within.iter().for_each(|zone| self.zone(zone));
        match &area.share_of {
            Some(ShareOf::Outlines(whole)) => self.operand(whole),
            Some(ShareOf::Value(whole)) => self.value(whole),
            None => {}
        }
    }

    fn volume(&mut self, volume: &'r Volume) {
        self.operand(&volume.over);
        volume.within.iter().for_each(|zone| self.zone(zone));
        for surface in [&volume.from, &volume.to] {
            if let Surface::At(level) = surface {
                self.value(level);
            }
        }
    }

    fn operands(&mut self, operands: impl IntoIterator<Item = &'r Operand>) {
        operands
            .into_iter()
            .for_each(|operand| self.operand(operand));
    }

    fn operand(&mut self, operand: &'r Operand) {
        let term = operand.term.iter();
        term.for_each(|term| self.show(Piece::Term(term)));
        for part in operand.parts.iter() {
            self.show(Piece::Outline(part));
            if let Which::All(selection) = &part.which {
                self.selection(selection);
            }
        }
    }

    fn selection(&mut self, selection: &'r Selection) {
        let term = selection.term.iter();
        term.for_each(|term| self.show(Piece::Term(term)));
        self.show(Piece::Selection(selection));
        self.of_each(selection, |pieces| {
            pieces.list(selection.filter.as_deref());
            selection.zone.iter().for_each(|zone| pieces.zone(zone));
        });
    }

    fn zone(&mut self, zone: &'r Zone) {
        match zone {
            Zone::Inside(area) => self.operand(area),
            Zone::Around { of, by } => {
                self.operand(of);
                self.value(by);
            }
            Zone::Between(one, other) => self.operands([one, other]),
            Zone::Corner { of, legs } => {
                self.operands([&of.0, &of.1]);
                self.value(legs);
            }
            Zone::Not(inner) => self.zone(inner),
            Zone::Named { term, zone } => self.term(&term.name, zone, Self::zone),
        }
    }
}
