//! Of which matters a rule set speaks: what its binding rules and its own questions read.
//!
//! A rule speaks of what it requires and of the things for each of which it is judged. What only says when it applies or
//! chooses among things does not count: a distance that gives way to a zoning plan says nothing of that plan. Where a
//! rule requires only a paper, or leaves all to the authority, it speaks of what it applies to.

use std::collections::BTreeSet;
use std::sync::Arc;

use super::visit::{Visit, within};
use super::{
    Area, Enclosure, Fall, HeightOver, LevelOf, Once, Part, Requirement, RowTest, Rule, RuleSet,
    Selection, ShareOf, Sound, Strength, Value, Volume,
};
use crate::vocabulary::{FactId, KindId, Matter, Role, Vocabulary};

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
            only: self.vocabulary.with_role(Role::Answers),
            ..Walk::new(&self.vocabulary, true)
        };
        for decision in &self.decisions {
            within::table(&mut walk, &decision.table, |_, _| {});
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

    fn note(&mut self, matter: Option<Matter>) {
        if self.only.is_none() {
            self.found.extend(matter);
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
}

impl<'r> Visit<'r> for Walk<'_> {
    fn term<T>(&mut self, said: &'r Arc<T>, go: fn(&mut Self, &'r T)) {
        if self.terms.is_first(said) {
            go(self, said);
        }
    }

    fn fact(&mut self, fact: FactId) {
        let of = self.vocabulary.fact(fact).kind;
        if self.only.is_none_or(|only| only == of) {
            self.found.extend(self.vocabulary.matter_of(fact));
        }
    }

    fn chosen_by(&mut self, by: &'r Value) {
        if self.conditions {
            self.value(by);
        }
    }

    fn row_test(&mut self, test: &'r RowTest) {
        if self.conditions {
            within::row_test(self, test);
        }
    }

    fn filter(&mut self, filter: &'r Requirement) {
        if self.conditions {
            self.requirement(filter);
        }
    }

    /// How much of something is covered is a matter of land use, whatever covers it.
    fn area(&mut self, area: &'r Area) {
        self.operand(&area.of);
        area.within.iter().for_each(|zone| self.zone(zone));
        match &area.share_of {
            Some(ShareOf::Value(value)) => self.value(value),
            Some(ShareOf::Outlines(_)) => self.note(Some(Matter::Zoning)),
            None => {}
        }
    }

    fn enclosure(&mut self, enclosure: &'r Enclosure) {
        within::enclosure(self, enclosure);
        if enclosure.from.iter().any(|from| from == DWELLING) {
            self.note(Some(Matter::HouseDoors));
        }
    }

    fn sound(&mut self, sound: &'r Sound) {
        within::sound(self, sound);
        self.note(Some(Matter::Noise));
    }

    fn level(&mut self, level: &'r LevelOf) {
        self.operand(&level.of);
        self.note(level.ground.then_some(Matter::Ground));
    }

    /// How far it runs says only where it falls.
    fn fall(&mut self, fall: &'r Fall) {
        self.operand(&fall.from);
        self.operand(&fall.to);
    }

    fn volume(&mut self, volume: &'r Volume) {
        self.operand(&volume.over);
        volume.within.iter().for_each(|zone| self.zone(zone));
        self.note(Some(match volume.as_water {
            true => Matter::Structure,
            false => Matter::Ground,
        }));
    }

    /// How near it is looked for says only over what it stands.
    fn height(&mut self, height: &'r HeightOver) {
        self.operand(&height.of);
        height.over.iter().for_each(|over| self.operand(over));
    }

    fn part(&mut self, part: &'r Part) {
        self.kind(self.vocabulary.outline(part.outline).kind);
        within::part(self, part);
    }

    fn selection(&mut self, selection: &'r Selection) {
        self.kind(selection.kind);
        within::selection(self, selection);
    }
}
