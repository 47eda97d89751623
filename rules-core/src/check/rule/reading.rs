//! One comparison of a value with a bound.

use std::sync::Arc;

use crate::check::judge::compare::{Comparison, Standing, standing};
use crate::check::judge::possible::{Alternative, PossibleValue};
use crate::check::judge::{Ask, Judge, Role};
use crate::check::world::dependency::Thresholds;
use crate::check::world::env::Env;
use crate::check::{Reading, Truth};
use crate::plan::Words;
use crate::quantity::Interval;
use crate::ruleset::{Along, Bound, Choice, Test, Value};
use crate::work;

/// The steps that a kept reading costs, since it takes memory as well as time.
const KEPT: u64 = 40;

/// Takes readings for one judgement.
pub(crate) struct Readings<'j, 'a, 'e> {
    pub(crate) judge: &'j Judge<'a>,
    pub(crate) env: &'j Env<'e>,
    pub(crate) ask: Ask,
}

impl<'a> Readings<'_, 'a, '_> {
    /// Compares a value with a bound; gives the reading only where it is kept for the report.
    pub(crate) fn take(
        &self,
        (test, at): (&'a Arc<Test>, usize),
        comparison: Comparison<'a>,
    ) -> (Standing, Option<Reading>) {
        let (value, bound) = (&test.value, comparison.bound);
        let limit = bound
            .limit()
            .map(|limit| self.judge.value(limit, self.env, &[]));
        let thresholds = limit
            .as_ref()
            .map_or_else(|| amounts_of(bound), PossibleValue::ends);
        let found = self.judge.value(value, self.env, &thresholds);
        // Where a value changes along a thing, a prohibition holds at every place of it.
        let holds = match (comparison.holds, self.ask) {
            (
                None,
                Ask {
                    role: Role::Required,
                    negated: true,
                },
            ) => Some(Along::Anywhere),
            (holds, _) => holds,
        };
        let comparison = Comparison {
            holds,
            ..comparison
        };
        let standing = match self.between(value, &found, comparison) {
            Some(between) => Standing::of(between),
            None => standing(&found, limit.as_ref(), comparison),
        };
        let standing = match self.ask.negated {
            true => standing.negated(),
            false => standing,
        };
        let asked = self.judge.keeps(self.ask.role) && standing.truth != Truth::NOT_APPLICABLE;
        if asked {
            work::step(KEPT);
        }
        let reading = asked.then(|| self.reading((test, at), (&found, limit.as_ref()), standing));
        (standing, reading)
    }

    /// Whether a fact that changes along its thing has one of some amounts anywhere. `None` unless all of those that it can
    /// have lie between its lowest and its highest.
    fn between(
        &self,
        value: &Value,
        found: &PossibleValue,
        asked: Comparison<'_>,
    ) -> Option<Truth> {
        let (Value::Fact(fact), Bound::Is(choices), Some(Along::Anywhere)) =
            (value, asked.bound, asked.holds)
        else {
            return None;
        };
        let [Alternative::Amount { least, most }] = found.ways.as_slice() else {
            return None;
        };
        let alike = choices.iter().map(|choice| match choice {
            Choice::Amount(amount, unit) if unit.dimension() == found.dimension => Some(*amount),
            _ => None,
        });
        let mut amounts = alike.collect::<Option<Vec<i128>>>()?;
        amounts.retain(|amount| least.hull(*most).contains(*amount));
        let between = |amount: &i128| least.high < *amount && *amount < most.low;
        let all_between = !amounts.is_empty() && amounts.iter().all(between);
        all_between.then(|| self.judge.scene.has_between(*fact, self.env, &amounts))
    }

    fn reading(
        &self,
        (test, at): (&'a Arc<Test>, usize),
        (found, limit): (&PossibleValue, Option<&PossibleValue>),
        standing: Standing,
    ) -> Reading {
        let value = &test.value;
        let measured = found.range();
        let unit = limit.and_then(|limit| limit.unit).or(found.unit);
        Reading {
            test: self.asked(test, at),
            bound: if self.ask.negated { 0 } else { at },
            negated: self.ask.negated,
            measured,
            drawn: self.as_drawn(value, measured, standing.truth),
            along: self.along(value),
            words: words_of(found),
            may_be_none: found.may_be_nothing(),
            limit: limit.and_then(PossibleValue::range),
            dimension: found.dimension,
            unit: unit
                .filter(|unit| unit.dimension() == found.dimension)
                .or(found.unit),
            truth: standing.truth,
            margin: standing.slack.margin(),
            witness: found.witness,
            tolerance: found.tolerance,
        }
    }

    /// The test as it must hold: under a `not`, with the opposite bound.
    fn asked(&self, test: &Arc<Test>, at: usize) -> Arc<Test> {
        match test.bounds.get(at) {
            Some(bound) if self.ask.negated => Arc::new(Test {
                value: test.value.clone(),
                bounds: vec![opposite(bound)],
                holds: test.holds,
                span: test.span,
            }),
            _ => Arc::clone(test),
        }
    }

    /// The range over which a fact changes along its thing, where it was read at one place of it.
    fn along(&self, value: &Value) -> Option<Interval> {
        match value {
            Value::Fact(fact) => self.judge.scene.along(*fact, self.env),
            Value::Named { value, .. } => self.along(value),
            _ => None,
        }
    }

    /// The measured value if everything is exactly as drawn; it is computed only where the comparison is open.
    fn as_drawn(
        &self,
        value: &'a Value,
        measured: Option<Interval>,
        truth: Truth,
    ) -> Option<Interval> {
        let measured = measured?;
        if measured.is_exact() || !truth.is_open() || self.judge.scene.as_drawn {
            return Some(measured);
        }
        let judge = self.judge.in_scene(self.judge.scene.drawn_exactly());
        judge.value(value, self.env, &[]).range()
    }
}

fn amounts_of(bound: &Bound) -> Thresholds {
    let amount = |choice: &Choice| match choice {
        Choice::Amount(amount, _) => Some(*amount),
        _ => None,
    };
    match bound {
        Bound::Is(choices) => choices.iter().filter_map(amount).collect(),
        _ => Thresholds::new(),
    }
}

fn words_of(found: &PossibleValue) -> Option<Arc<Words>> {
    found.ways.iter().find_map(|way| match way {
        Alternative::Words(words) => Some(words.clone()),
        _ => None,
    })
}

/// The bound that is met exactly where another is not. Words have no such bound, so a reading says that they are not allowed.
fn opposite(bound: &Bound) -> Bound {
    match bound {
        Bound::AtLeast(value) => Bound::LessThan(value.clone()),
        Bound::AtMost(value) => Bound::MoreThan(value.clone()),
        Bound::MoreThan(value) => Bound::AtMost(value.clone()),
        Bound::LessThan(value) => Bound::AtLeast(value.clone()),
        Bound::Is(choices) => Bound::Is(choices.clone()),
    }
}
