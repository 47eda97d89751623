//! One comparison of a value with a bound.

use super::compare::{Standing, standing};
use super::judge::{Asked, Judge};
use super::scene::Env;
use super::value::{Cuts, Val, Way, limit_of};
use super::{Reading, Truth};
use std::sync::Arc;

use crate::plan::Words;
use crate::quantity::Interval;
use crate::ruleset::{Bound, Choice, Value};

/// Takes readings for one judgement.
pub(crate) struct Readings<'j, 'a, 'e> {
    pub(crate) judge: &'j Judge<'a>,
    pub(crate) env: &'j Env<'e>,
    pub(crate) asked: Asked,
}

impl<'a> Readings<'_, 'a, '_> {
    /// Compares a value with a bound; the reading only where somebody will ask what was measured.
    pub(crate) fn take(
        &self,
        value: &'a Value,
        bound: &'a Bound,
    ) -> (Standing, Option<Reading<'a>>) {
        let limit = limit_of(bound).map(|limit| self.judge.value(limit, self.env, &[]));
        let cuts = limit.as_ref().map_or_else(|| amounts_of(bound), Val::ends);
        let found = self.judge.value(value, self.env, &cuts);
        let standing = standing(&found, bound, limit.as_ref(), self.asked);
        let asked = self.judge.keeps(self.asked) && !standing.void;
        let reading =
            asked.then(|| self.reading((value, &found), (bound, limit.as_ref()), standing));
        (standing, reading)
    }

    fn reading(
        &self,
        (value, found): (&'a Value, &Val),
        (bound, limit): (&'a Bound, Option<&Val>),
        standing: Standing,
    ) -> Reading<'a> {
        let measured = found.range();
        let unit = limit.and_then(|limit| limit.unit).or(found.unit);
        Reading {
            value,
            bound,
            measured,
            drawn: self.as_drawn(value, measured, standing.truth),
            words: words_of(found),
            may_be_none: found.may_be_nothing(),
            limit: limit.and_then(Val::range),
            dimension: found.dimension,
            unit: unit
                .filter(|unit| unit.dimension() == found.dimension)
                .or(found.unit),
            truth: standing.truth,
            margin: standing.room.margin(),
            witness: found.witness,
            blur: found.blur,
        }
    }

    /// What was measured, were everything exactly as drawn: of interest only where the comparison is open.
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

fn amounts_of(bound: &Bound) -> Cuts {
    let amount = |choice: &Choice| match choice {
        Choice::Amount(amount) => Some(*amount),
        _ => None,
    };
    match bound {
        Bound::Is(choices) => choices.iter().filter_map(amount).collect(),
        _ => Cuts::new(),
    }
}

fn words_of(found: &Val) -> Option<Arc<Words>> {
    found.ways.iter().find_map(|way| match way {
        Way::Words(words) => Some(words.clone()),
        _ => None,
    })
}
