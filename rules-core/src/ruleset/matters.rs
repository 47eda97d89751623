//! Of which matters a rule set speaks: what its binding rules and its own questions read.
//!
//! A rule speaks of what it requires and of the things for each of which it is judged. What only says when it applies or
//! chooses among things does not count: a distance that gives way to a zoning plan says nothing of that plan. Where a
//! rule requires only a paper, or leaves all to the authority, it speaks of what it applies to.

use std::collections::BTreeSet;
use std::sync::Arc;

use super::{
    Area, Bound, Distance, Enclosure, Once, Operand, Requirement, Row, RowTest, Rule, RuleSet,
    Selection, ShareOf, Sound, Strength, Table, Then, Value, Which, Zone,
};
use crate::vocabulary::{FactId, KindId, Matter, Vocabulary};

/// The kind whose facts are the answers to a rule set's questions.
const ANSWERS: &str = "answers";
/// From whom a barrier keeps the pool, where that is whoever comes out of the house.
const DWELLING: &str = "dwelling";

impl RuleSet {
    /// The matters of which its files speak in binding rules, in questions that something uses, or in papers and steps.
    pub fn speaks_of(&self) -> BTreeSet<Matter> {
        let binding = self
            .rules
            .iter()
            .filter(|rule| rule.strength == Strength::Must);
        let rules = binding.flat_map(|rule| matters_of(rule, &self.vocabulary));
        rules
            .chain(self.questions_used())
            .chain(self.papers())
            .collect()
    }

    fn papers(&self) -> Option<Matter> {
        let none = self.decisions.is_empty() && self.documents.is_empty() && self.duties.is_empty();
        (!none).then_some(Matter::Papers)
    }

    /// The matters of the questions on which a class, a paper or a step depends.
    fn questions_used(&self) -> BTreeSet<Matter> {
        let mut walk = Walk {
            only: self.vocabulary.kind_named(ANSWERS),
            ..Walk::new(&self.vocabulary, true)
        };
        for decision in &self.decisions {
            walk.table(&decision.table, |_, _| {});
        }
        let papers = self.documents.iter().filter_map(|it| it.when.as_ref());
        let steps = self.duties.iter().filter_map(|it| it.when.as_ref());
        for condition in papers.chain(steps) {
            walk.requirement(&condition.requirement);
        }
        walk.found
    }
}

/// The matters of which a rule speaks.
pub fn matters_of(rule: &Rule, vocabulary: &Vocabulary) -> BTreeSet<Matter> {
    let mut required = Walk::new(vocabulary, false);
    required.required(rule);
    if !required.found.is_empty() {
        return required.found;
    }
    let mut all = Walk::new(vocabulary, true);
    all.required(rule);
    for condition in rule.when.iter().chain(&rule.unless) {
        all.requirement(condition);
    }
    all.found
}

struct Walk<'v> {
    vocabulary: &'v Vocabulary,
    /// Whether conditions count as well: what chooses among things, and the tests of rows.
    conditions: bool,
    /// Only facts of this kind count.
    only: Option<KindId>,
    found: BTreeSet<Matter>,
    /// The terms that were gone through.
    terms: Once,
}

impl<'v> Walk<'v> {
    fn new(vocabulary: &'v Vocabulary, conditions: bool) -> Self {
        Self {
            vocabulary,
            conditions,
            only: None,
            found: BTreeSet::new(),
            terms: Once::default(),
        }
    }

    /// Goes through what a term says, where that was not done before.
    fn term<T>(&mut self, said: &Arc<T>, go: fn(&mut Self, &T)) {
        if self.terms.is_first(said) {
            go(self, said);
        }
    }

    fn note(&mut self, matter: Option<Matter>) {
        if self.only.is_none() {
            self.found.extend(matter);
        }
    }

    fn fact(&mut self, fact: FactId) {
        let of = self.vocabulary.fact(fact).kind;
        if self.only.is_none_or(|only| only == of) {
            self.found.extend(self.vocabulary.matter_of(fact));
        }
    }

    fn kind(&mut self, kind: KindId) {
        self.note(self.vocabulary.kind(kind).matter);
    }

    fn required(&mut self, rule: &Rule) {
        rule.each.iter().for_each(|each| self.selection(each));
        self.requirement(&rule.require);
        for relief in &rule.reliefs {
            self.requirement(&relief.require);
        }
    }

    fn requirement(&mut self, requirement: &Requirement) {
        match requirement {
            Requirement::Test(test) => {
                self.value(&test.value);
                self.bounds(&test.bounds);
            }
            Requirement::All(list) | Requirement::Any(list) => {
                list.iter().for_each(|member| self.requirement(member));
            }
            Requirement::Not(inner) => self.requirement(inner),
            Requirement::Count { of, bounds } => {
                of.iter().for_each(|member| self.requirement(member));
                self.bounds(bounds);
            }
            Requirement::Each(each) => {
                self.selection(&each.selection);
                self.requirement(&each.require);
            }
            Requirement::Table(table) => self.table(table, Self::requirement),
            Requirement::Meets { requirement, .. } => self.term(requirement, Self::requirement),
            Requirement::Have(_) | Requirement::Refer => {}
        }
    }

    fn bounds(&mut self, bounds: &[Bound]) {
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

    fn table<T>(&mut self, table: &Table<T>, then: impl Fn(&mut Self, &T)) {
        if self.conditions {
            table.by.iter().for_each(|by| self.value(by));
        }
        for Row {
            test, then: give, ..
        } in &table.rows
        {
            match test {
                RowTest::Bounds(bounds) if self.conditions => self.bounds(bounds),
                RowTest::When(requirement) if self.conditions => self.requirement(requirement),
                _ => {}
            }
            if let Then::Give(given) = give {
                then(self, given);
            }
        }
    }

    fn value(&mut self, value: &Value) {
        match value {
            Value::Stated(_) => {}
            Value::Fact(fact) => self.fact(*fact),
            Value::Distance(distance) => self.distance(distance),
            Value::Area(area) => self.area(area),
            Value::Length { of, within } => {
                self.operand(of);
                within.iter().for_each(|zone| self.zone(zone));
            }
            Value::Count(selection) => self.selection(selection),
            Value::Enclosure(enclosure) => self.enclosure(enclosure),
            Value::Sound(sound) => self.sound(sound),
            Value::Level(level) => {
                self.operand(&level.of);
                self.note(level.ground.then_some(Matter::Ground));
            }
            Value::Fall(fall) => {
                self.operand(&fall.from);
                self.operand(&fall.to);
            }
            Value::Volume(volume) => {
                self.operand(&volume.over);
                volume.within.iter().for_each(|zone| self.zone(zone));
                self.note(Some(match volume.as_water {
                    true => Matter::Structure,
                    false => Matter::Ground,
                }));
            }
            Value::Height(height) => {
                self.operand(&height.of);
                height.over.iter().for_each(|over| self.operand(over));
            }
            Value::Table(table) => self.table(table, Self::value),
            Value::Largest(list)
            | Value::Smallest(list)
            | Value::Sum(list)
            | Value::Difference(list)
            | Value::Product(list) => list.iter().for_each(|member| self.value(member)),
            Value::Over { of, take, .. } => {
                self.selection(of);
                self.value(take);
            }
            Value::Named { value, .. } => self.term(value, Self::value),
        }
    }

    fn distance(&mut self, distance: &Distance) {
        self.operand(&distance.from);
        self.operand(&distance.to);
    }

    /// How much of something is covered is a matter of land use, whatever covers it.
    fn area(&mut self, area: &Area) {
        self.operand(&area.of);
        area.within.iter().for_each(|zone| self.zone(zone));
        match &area.share_of {
            Some(ShareOf::Value(value)) => self.value(value),
            Some(ShareOf::Outlines(_)) => self.note(Some(Matter::Zoning)),
            None => {}
        }
    }

    fn enclosure(&mut self, enclosure: &Enclosure) {
        self.operand(&enclosure.of);
        self.operand(&enclosure.made_of);
        if enclosure.from.iter().any(|from| from == DWELLING) {
            self.note(Some(Matter::HouseDoors));
        }
    }

    fn sound(&mut self, sound: &Sound) {
        self.operand(&sound.from);
        self.operand(&sound.at);
        self.note(Some(Matter::Noise));
    }

    fn operand(&mut self, operand: &Operand) {
        for part in operand.parts.iter() {
            self.kind(self.vocabulary.outline(part.outline).kind);
            if let Which::All(selection) = &part.which {
                self.selection(selection);
            }
        }
    }

    fn selection(&mut self, selection: &Selection) {
        self.kind(selection.kind);
        selection.zone.iter().for_each(|zone| self.zone(zone));
        if let (true, Some(filter)) = (self.conditions, &selection.filter) {
            self.requirement(filter);
        }
    }

    fn zone(&mut self, zone: &Zone) {
        match zone {
            Zone::Inside(operand) => self.operand(operand),
            Zone::Around { of, by } => {
                self.operand(of);
                self.value(by);
            }
            Zone::Between(one, other) => {
                self.operand(one);
                self.operand(other);
            }
            Zone::Corner { of, legs } => {
                self.operand(&of.0);
                self.operand(&of.1);
                self.value(legs);
            }
            Zone::Not(inner) => self.zone(inner),
            Zone::Named { zone, .. } => self.term(zone, Self::zone),
        }
    }
}
