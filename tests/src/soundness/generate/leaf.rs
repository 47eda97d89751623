//! Random values and tests, with limits near the world's own values.

use std::sync::Arc;

use rules_core::quantity::{Dimension, Interval, Unit};
use rules_core::ruleset::{
    Along, Bound, Choice, IfNone, Requirement, Row, RowTest, Scope, Selection, Stated, Table, Test,
    Then, Value,
};
use rules_core::text::Span;
use rules_core::vocabulary::{FactId, KindId, Number};

use super::rules::Maker;
use crate::soundness::evaluate::Evaluator;
use crate::soundness::walk;
use crate::soundness::world::Held;

/// An amount as a rule would state it.
pub fn stated(amount: i128, dimension: Dimension) -> Value {
    let unit = match dimension {
        Dimension::Length => Unit::METRE,
        Dimension::Area => Unit::SQUARE_METRE,
        Dimension::Sound => Unit::DECIBEL,
        Dimension::Date => Unit::DATE,
        Dimension::Days => Unit::DAY,
        Dimension::Months => Unit::MONTH,
        _ => Unit::ONE,
    };
    Value::Stated(Stated {
        range: Interval {
            low: amount,
            high: amount,
        },
        dimension,
        unit,
    })
}

impl Maker<'_> {
    /// An `if-none`, in about half of all places.
    pub(super) fn if_none(&mut self) -> Option<IfNone> {
        if !self.solid && self.random.chance(50) {
            return None;
        }
        let all = [IfNone::Passes, IfNone::Fails, IfNone::Refer];
        let end = if self.referring { 3 } else { 2 };
        Some(all[self.random.below(end)])
    }

    /// The kinds whose facts can be named here.
    fn known(&self, scope: &[KindId]) -> Vec<KindId> {
        let mut kinds = vec![self.words.lot, self.words.alarm];
        kinds.extend(scope.iter().rev().chain(scope));
        kinds
    }

    pub(super) fn fact_of(
        &mut self,
        scope: &[KindId],
        fits: impl Fn(&Self, FactId) -> bool,
    ) -> FactId {
        loop {
            let kinds = self.known(scope);
            let kind = *self.random.pick(&kinds);
            let fact = *self.random.pick(self.words.facts(kind));
            if fits(self, fact) && (!self.solid || self.certain(fact)) {
                return fact;
            }
        }
    }

    pub(super) fn certain(&self, fact: FactId) -> bool {
        let entry = self.words.vocabulary.fact(fact);
        !entry.none && entry.kind != self.words.alarm
    }

    /// A selection of things not bound yet, by a fact or by distance.
    pub(super) fn selection(&mut self, scope: &[KindId], kind: KindId) -> Selection {
        let mut inner = scope.to_vec();
        inner.push(kind);
        let referring = std::mem::replace(&mut self.referring, false);
        let filter = match self.random.weighted(&[
            5,
            4 * usize::from(self.filters),
            usize::from(self.filters && scope.len() < 2 && !self.solid),
        ]) {
            0 => None,
            1 => {
                // Mostly by a fact of the thing itself.
                let about = [kind];
                let about = if self.solid || self.random.chance(80) {
                    &about[..]
                } else {
                    &inner[..]
                };
                Some(self.fact_test(about))
            }
            _ => Some(self.distance_test(&inner)),
        };
        self.referring = referring;
        let mut selection = Selection {
            term: None,
            kind,
            closed: None,
            part_of: self.part_of(scope, kind),
            filter: filter.map(Arc::new),
            zone: None,
            if_none: self.if_none(),
        };
        selection.closed = self.closed(scope, &selection);
        selection
    }

    /// The kind of which the things must be part, now and then: one that is bound, and of which they can be.
    fn part_of(&self, scope: &[KindId], kind: KindId) -> Option<KindId> {
        let mut apart = self.random.apart();
        let rank = self.words.rank(kind)?;
        let whole = |of: &&KindId| self.words.rank(**of).is_some_and(|own| own < rank);
        let wholes: Vec<&KindId> = scope.iter().filter(whole).collect();
        let may = self.filters && !self.solid && !wholes.is_empty();
        (may && apart.chance(40)).then(|| **apart.pick(&wholes))
    }

    /// The same, sometimes limited to a zone.
    pub(super) fn selection_in_zone(&mut self, scope: &[KindId], kind: KindId) -> Selection {
        let mut selection = self.selection(scope, kind);
        if !self.solid && self.filters && self.random.chance(20) {
            selection.zone = Some(Arc::new(self.zone(scope)));
            selection.closed = None;
        }
        selection
    }

    /// What a selection depends on, if a term is to stand for it; `None` for one written where it is used.
    fn closed(&mut self, scope: &[KindId], selection: &Selection) -> Option<Scope> {
        let others = scope.iter().filter(|kind| **kind != self.words.pool);
        let closed = others.count() < 2 && self.random.chance(15);
        closed.then(|| self.depends(scope, |speaks| walk::selection(selection, speaks)))
    }

    /// A kind with any number of things that is not bound yet.
    pub(super) fn other_kind(&mut self, scope: &[KindId]) -> KindId {
        loop {
            let kind = *self.random.pick(&self.words.many);
            if !scope.contains(&kind) {
                return kind;
            }
        }
    }

    /// A limit near the value in the world, as a rule would state it.
    pub(super) fn near(&mut self, scope: &[KindId], value: &Value, dimension: Dimension) -> Value {
        let bound = self.some_subjects(scope);
        let evaluator = Evaluator {
            world: self.world,
            rules: self.rules,
            plan: None,
        };
        let so = evaluator.number(self.random, &bound, value);
        let so = so.unwrap_or_else(|| self.random.wide(0, 10) * 1_000_000_000);
        let unit = match dimension {
            Dimension::Area => 1_000_000_000_000_000_000,
            Dimension::Date => 1,
            _ => 1_000_000_000,
        };
        let by = match self.random.below(5) {
            0 => 0,
            1 => 1,
            2 => (unit / 100).max(1),
            3 => (unit / 4).max(30),
            _ => 4 * unit.max(100),
        };
        let by = self.random.wide(-by, by);
        // A negative count or date is no use; a negative length is a good test.
        stated(so + by, dimension)
    }

    /// The kinds in scope, each bound to some thing of the world.
    fn some_subjects(&mut self, scope: &[KindId]) -> Vec<(KindId, usize)> {
        let mut bound = Vec::new();
        for kind in scope {
            let things: Vec<usize> = self.world.of_kind(*kind).collect();
            if !things.is_empty() {
                bound.push((*kind, *self.random.pick(&things)));
            }
        }
        bound
    }

    pub(super) fn one_bound(&mut self, limit: Value) -> Bound {
        match self.random.below(4) {
            0 => Bound::AtLeast(limit),
            1 => Bound::AtMost(limit),
            2 => Bound::MoreThan(limit),
            _ => Bound::LessThan(limit),
        }
    }

    fn tested(&mut self, scope: &[KindId], value: Value, dimension: Dimension) -> Requirement {
        let limit = match self.random.weighted(&[8, 1, 1]) {
            1 if dimension == Dimension::Length => self.length(scope, 0),
            2 => self.table_of(scope, |maker| maker.near(scope, &value, dimension)),
            _ => self.near(scope, &value, dimension),
        };
        let mut bounds = vec![self.one_bound(limit)];
        if self.random.chance(10) {
            let other = self.near(scope, &value, dimension);
            bounds.push(self.one_bound(other));
        }
        test(value, bounds)
    }

    /// A table by a fact or by conditions; `make` makes what its rows give.
    pub(super) fn rows<T>(
        &mut self,
        scope: &[KindId],
        mut give: impl FnMut(&mut Self) -> T,
    ) -> Table<T> {
        let fact = self.fact_of(scope, |maker, fact| maker.certain(fact));
        let by_conditions = self.random.chance(30);
        let mut tests = Vec::new();
        for _ in 0..self.random.between(1, 2) {
            tests.push(match by_conditions {
                true => {
                    let referring = std::mem::replace(&mut self.referring, false);
                    let when = self.fact_test(scope);
                    self.referring = referring;
                    RowTest::When(when)
                }
                false => RowTest::Bounds(vec![self.fact_bound(scope, fact)]),
            });
        }
        tests.push(RowTest::Otherwise);
        let rows = tests.into_iter().map(|test| {
            let refer = self.referring && self.random.chance(12);
            let then = if refer {
                Then::Refer
            } else {
                Then::Give(give(self))
            };
            Row {
                test,
                then,
                span: Span::default(),
            }
        });
        let rows = rows.collect();
        let by = (!by_conditions).then_some(Value::Fact(fact));
        Table {
            by,
            rows,
            span: Span::default(),
        }
    }

    fn table_of(&mut self, scope: &[KindId], give: impl FnMut(&mut Self) -> Value) -> Value {
        Value::Table(Box::new(self.rows(scope, give)))
    }

    fn fact_bound(&mut self, scope: &[KindId], fact: FactId) -> Bound {
        let entry = self.words.vocabulary.fact(fact);
        let may_be_none =
            entry.none || self.words.vocabulary.kind(entry.kind).number == Number::AtMostOne;
        if may_be_none && self.random.chance(20) {
            return Bound::Is(vec![Choice::None]);
        }
        match self.words.dimension(fact) {
            Some(dimension) => {
                let limit = self.near(scope, &Value::Fact(fact), dimension);
                match limit {
                    Value::Stated(stated) if self.random.chance(8) => {
                        Bound::Is(vec![Choice::Amount(stated.range.low, stated.unit)])
                    }
                    limit => self.one_bound(limit),
                }
            }
            None => {
                let words = self.words.words(fact);
                let mut choices = vec![Choice::Word(self.random.pick(&words).clone())];
                if self.random.chance(30) {
                    choices.push(Choice::Word(self.random.pick(&words).clone()));
                }
                choices.dedup();
                Bound::Is(choices)
            }
        }
    }

    pub(super) fn fact_test(&mut self, scope: &[KindId]) -> Requirement {
        let along = self.changing(scope);
        if !along.is_empty() && self.random.chance(25) {
            let fact = *self.random.pick(&along);
            return self.test_of(scope, fact);
        }
        // Words and yes or no are asked about more often than amounts.
        let amount = self.random.chance(50);
        let fact = self.fact_of(scope, |maker, fact| {
            let entry = maker.words.vocabulary.fact(fact);
            let own =
                scope.is_empty() || scope.contains(&entry.kind) || entry.kind == maker.words.lot;
            own && (maker.words.dimension(fact).is_some() == amount || maker.solid)
                || entry.none
                || (!own && entry.kind == maker.words.alarm)
        });
        self.test_of(scope, fact)
    }

    /// The facts that vary along one of the things in scope.
    fn changing(&self, scope: &[KindId]) -> Vec<FactId> {
        let things = self.world.things.iter();
        let spoken = things.filter(|thing| scope.contains(&thing.kind));
        let facts = spoken.flat_map(|thing| &thing.facts);
        facts
            .filter(|(_, held)| matches!(held, Held::Along(_)))
            .map(|(fact, _)| *fact)
            .collect()
    }

    fn test_of(&mut self, scope: &[KindId], fact: FactId) -> Requirement {
        let bounds = vec![self.fact_bound(scope, fact)];
        let along = [Along::Anywhere, Along::AllAlong];
        let holds =
            (self.words.changes(fact) && self.random.chance(25)).then(|| *self.random.pick(&along));
        Requirement::Test(Arc::new(Test {
            value: Value::Fact(fact),
            bounds,
            holds,
            span: Span::default(),
        }))
    }

    pub(super) fn distance_test(&mut self, scope: &[KindId]) -> Requirement {
        let value = self.distance_value(scope);
        let limit = self.near(scope, &value, Dimension::Length);
        let bound = self.one_bound(limit);
        test(value, vec![bound])
    }

    fn count_test(&mut self, scope: &[KindId]) -> Requirement {
        let kind = self.other_kind(scope);
        self.count_of(scope, kind)
    }

    pub(super) fn count_of(&mut self, scope: &[KindId], kind: KindId) -> Requirement {
        let selection = self.selection_in_zone(scope, kind);
        let limit = stated(self.random.wide(0, 3) * 1_000_000_000, Dimension::Number);
        let bound = self.one_bound(limit);
        test(Value::Count(selection), vec![bound])
    }

    /// One test.
    pub(super) fn leaf(&mut self, scope: &[KindId]) -> Requirement {
        if self.solid {
            return self.solid_leaf(scope);
        }
        match self.random.weighted(&[30, 30, 12, 12, 8, 3]) {
            0 => self.fact_test(scope),
            1 => self.distance_test(scope),
            2 => {
                let value = self.length(scope, 2);
                self.tested(scope, value, Dimension::Length)
            }
            3 => self.count_test(scope),
            4 => {
                let (value, dimension) = self.area(scope);
                self.tested(scope, value, dimension)
            }
            _ => {
                let value = self.distance_value(scope);
                self.tested(scope, value, Dimension::Length)
            }
        }
    }
}

impl Maker<'_> {
    /// A test of something that is certainly there.
    fn solid_leaf(&mut self, scope: &[KindId]) -> Requirement {
        match (self.random.weighted(&[6, 3, 2, 1]), scope.last()) {
            (1, Some(kind)) => {
                let value = self.to_lot(*kind);
                let limit = self.near(scope, &value, Dimension::Length);
                let bound = self.one_bound(limit);
                test(value, vec![bound])
            }
            (2, _) if scope.len() < 3 && self.each.is_none() => self.count_test(scope),
            (3, _) => {
                let (value, dimension) = self.area(scope);
                let limit = self.near(scope, &value, dimension);
                let bound = self.one_bound(limit);
                test(value, vec![bound])
            }
            _ => self.fact_test(scope),
        }
    }
}

pub(super) fn test(value: Value, bounds: Vec<Bound>) -> Requirement {
    Requirement::Test(Arc::new(Test {
        value,
        bounds,
        holds: None,
        span: Span::default(),
    }))
}
