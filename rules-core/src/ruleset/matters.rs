//! Of which matters a rule set speaks: what its binding rules and its own questions read.
//!
//! A rule speaks of what it requires and of the things for each of which it is judged. What only says when it applies or
//! chooses among things does not count: a distance that gives way to a zoning plan says nothing of that plan. Where a
//! rule requires only a paper, or leaves all to the authority, it speaks of what it applies to.

use std::collections::BTreeSet;
use std::sync::Arc;

use super::visit::{Visit, within};
use super::{Once, Part, Requirement, RowTest, Rule, RuleSet, Selection, ShareOf, Strength, Value};
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

/// The matter that a measure belongs to, whatever it is measured on.
fn own_matter(value: &Value) -> Option<Matter> {
    match value {
        Value::Area(area) => match area.share_of {
            Some(ShareOf::Outlines(_)) => Some(Matter::Zoning),
            _ => None,
        },
        Value::Enclosure(enclosure) => {
            let house = enclosure.from.iter().any(|from| from == DWELLING);
            house.then_some(Matter::HouseDoors)
        }
        Value::Sound(_) => Some(Matter::Noise),
        Value::Level(level) => level.ground.then_some(Matter::Ground),
        Value::Volume(volume) if volume.as_water => Some(Matter::Structure),
        Value::Volume(_) => Some(Matter::Ground),
        Value::Stated(_)
        | Value::Fact(_)
        | Value::Distance(_)
        | Value::Length { .. }
        | Value::Count(_)
        | Value::Fall(_)
        | Value::Height(_)
        | Value::Margin(_)
        | Value::Width(_)
        | Value::Table(_)
        | Value::Largest(_)
        | Value::Smallest(_)
        | Value::Sum(_)
        | Value::Difference(_)
        | Value::Product(_)
        | Value::Root(_)
        | Value::Over { .. }
        | Value::Named { .. } => None,
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

    fn value(&mut self, value: &'r Value) {
        match value {
            // A share of cover is a matter of land use, whatever the cover is.
            Value::Area(area) if matches!(area.share_of, Some(ShareOf::Outlines(_))) => {
                self.operand(&area.of);
                area.within.iter().for_each(|zone| self.zone(zone));
            }
            // The length of a fall only says where it is; it is no matter of its own.
            Value::Fall(fall) => {
                self.operand(&fall.from);
                self.operand(&fall.to);
            }
            Value::Volume(volume) => {
                self.operand(&volume.over);
                volume.within.iter().for_each(|zone| self.zone(zone));
            }
            // The distance around it only says what it stands over; it is no matter of its own.
            Value::Height(height) => {
                self.operand(&height.of);
                height.over.iter().for_each(|over| self.operand(over));
            }
            other => within::value(self, other),
        }
        self.note(own_matter(value));
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
