//! The possible values of whatever a rule measures, and which things it selects.

pub(super) mod approaches;
pub(super) mod between;
pub(super) mod combine;
pub(super) mod cover;
pub(super) mod distance;
pub(super) mod enclosure;
pub(super) mod extent;
pub(super) mod far;
pub(super) mod ground;
pub(crate) mod heights;
pub(super) mod holes;
pub(super) mod indoors;
pub(crate) mod levels;
pub(super) mod lines;
pub(super) mod margin;
pub(super) mod nearest;
pub(super) mod passage;
pub(super) mod region;
pub(super) mod select;
pub(super) mod several;
pub(super) mod side_yard;
pub(super) mod sound;
pub(super) mod tolerance;
pub(super) mod total;
pub(super) mod way;
pub(super) mod wires;
pub(super) mod zone;

use super::Truth;
use super::judge::{Judge, Role};
use crate::check::judge::compare::{Comparison, standing};
use crate::check::judge::possible::{Alternative, Alternatives, PossibleValue};
use crate::check::value::combine::{difference, fold, product, root};
use crate::check::value::total::Total;
use crate::check::world::dependency::Thresholds;
use crate::check::world::env::Env;
use crate::quantity::{Dimension, Interval, NO_HIGH, ONE};
use crate::ruleset::{Bound, Over, RowTest, Selection, Table, Then, Value};
use crate::work;

impl<'a> Judge<'a> {
    /// The possible values of something; `thresholds` are the amounts that it will be compared with.
    pub(crate) fn value(
        &self,
        value: &'a Value,
        env: &Env<'_>,
        thresholds: &[i128],
    ) -> PossibleValue {
        if work::step_is_too_many() {
            return PossibleValue::of(vec![Alternative::Refer], Dimension::Number);
        }
        let of_list = |list: &'a [Value]| {
            list.iter()
                .map(|member| self.value(member, env, &[]))
                .collect::<Vec<_>>()
        };
        match value {
            Value::Stated(stated) => PossibleValue {
                unit: Some(stated.unit),
                ..PossibleValue::amount(stated.range, stated.dimension)
            },
            Value::Fact(fact) => self.fact_value(*fact, env, thresholds),
            Value::Distance(distance) => self.distance(distance, env),
            Value::Area(area) => self.area(area, env),
            Value::Length { of, within } => self.length(of, within.as_deref(), env),
            Value::Count(selection) => self.number_of(selection, env),
            Value::Enclosure(enclosure) => self.enclosure(enclosure, env),
            Value::Sound(sound) => self.sound(sound, env),
            Value::Level(level) => self.level(level, env),
            Value::Fall(fall) => self.fall(fall, env),
            Value::Volume(volume) => self.volume(volume, env),
            Value::Height(height) => self.height_over(height, env),
            Value::Margin(margin) => self.margin(margin, env),
            Value::Width(of) => self.width(of, env),
            Value::Table(table) => self.table_value(table, env),
            Value::Largest(list) => fold(of_list(list), Interval::max),
            Value::Smallest(list) => fold(of_list(list), Interval::min),
            Value::Sum(list) => fold(of_list(list), Interval::add),
            Value::Difference(list) => difference(of_list(list)),
            Value::Product(list) => product(of_list(list)),
            Value::Root(of) => root(self.value(of, env, &[])),
            Value::Over { how, of, take } => self.over(*how, of, take, env),
            Value::Named { term, value, .. } => self.term_value((term, value), env, thresholds),
        }
    }

    /// The whole numbers below and above a value, where it is exact; both are the same where it is whole.
    pub(crate) fn whole_numbers(&self, value: &'a Value, env: &Env<'_>) -> Option<(i128, i128)> {
        let range = self.value(value, env, &[]).range()?;
        let below = range.low.div_euclid(ONE);
        let above = below + i128::from(range.low.rem_euclid(ONE) != 0);
        range.is_exact().then_some((below, above))
    }

    fn fact_value(
        &self,
        fact: crate::vocabulary::FactId,
        env: &Env<'_>,
        thresholds: &[i128],
    ) -> PossibleValue {
        let seen = self.scene.fact_here(fact, env, thresholds);
        let view = &seen.view;
        let mut ways = Alternatives::new();
        if view.none {
            ways.push(Alternative::Nothing);
        }
        if let Some(amount) = view.amount {
            ways.push(Alternative::Amount {
                least: amount.least,
                most: amount.most,
            });
        }
        ways.extend(view.words.clone().map(Alternative::Words));
        let dimension = view
            .amount
            .map_or(Dimension::Number, |amount| amount.dimension);
        PossibleValue {
            unit: view.amount.and_then(|amount| amount.unit),
            ..PossibleValue::of(ways, dimension)
        }
    }

    fn number_of(&self, selection: &'a Selection, env: &Env<'_>) -> PossibleValue {
        let members = self.members(selection, env);
        let count = |number: usize| {
            i128::try_from(number)
                .unwrap_or(NO_HIGH)
                .saturating_mul(ONE)
        };
        let high = if members.unseen() {
            NO_HIGH
        } else {
            count(members.list.len())
        };
        PossibleValue::amount(
            Interval {
                low: count(members.sure()),
                high,
            },
            Dimension::Number,
        )
    }

    /// The results of the rows that may apply.
    pub(crate) fn rows<T, R: Clone>(
        &self,
        table: &'a Table<T>,
        env: &Env<'_>,
        give: impl Fn(&Self, &'a T) -> R,
        refer: R,
    ) -> Vec<R> {
        let by = table.by.as_ref().map(|value| {
            let seen = || self.value(value, env, &self.edges(table, env));
            // Two rows that test the value use it twice: perhaps no single value makes both of them fail.
            match table.rows.len() > 2 {
                true => self.scene.counting_twice(seen),
                false => seen(),
            }
        });
        let mut given = Vec::new();
        for row in &table.rows {
            let applies = self.row_applies(&row.test, by.as_ref(), env);
            if applies == Truth::FAILS {
                continue;
            }
            given.push(match &row.then {
                Then::Give(what) => give(self, what),
                Then::Refer => refer.clone(),
            });
            // The authority may have to decide whether the row applies.
            if applies.may_be(super::Level::Authority) {
                given.push(refer.clone());
            }
            if applies == Truth::HOLDS {
                break;
            }
        }
        given
    }

    fn edges<T>(&self, table: &'a Table<T>, env: &Env<'_>) -> Thresholds {
        let bounds = table.rows.iter().filter_map(|row| match &row.test {
            RowTest::Bounds(bounds) => Some(bounds),
            _ => None,
        });
        let limits = bounds.flatten().filter_map(Bound::limit);
        let mut ends = Thresholds::new();
        for limit in limits {
            match limit {
                // Nearly all are stated, and need no evaluation.
                Value::Stated(stated) => {
                    ends.extend(stated.range.least());
                    ends.extend(stated.range.greatest());
                }
                _ => ends.extend(self.value(limit, env, &[]).ends()),
            }
        }
        ends
    }

    fn row_applies(&self, test: &'a RowTest, by: Option<&PossibleValue>, env: &Env<'_>) -> Truth {
        match (test, by) {
            (RowTest::Otherwise, _) => Truth::HOLDS,
            (RowTest::When(requirement), _) => self.truth(requirement, env),
            (RowTest::Bounds(bounds), Some(by)) => {
                bounds.iter().fold(Truth::HOLDS, |all, bound| {
                    let limit = bound
                        .limit()
                        .map(|value| self.value(value, env, &by.ends()));
                    let comparison = Comparison {
                        bound,
                        holds: None,
                        role: Role::Condition,
                    };
                    all.and(standing(by, limit.as_ref(), comparison).truth)
                })
            }
            (RowTest::Bounds(_), None) => Truth::OPEN,
        }
    }

    fn table_value(&self, table: &'a Table<Value>, env: &Env<'_>) -> PossibleValue {
        let refer = PossibleValue::of(vec![Alternative::Refer], Dimension::Number);
        let given = self.rows(
            table,
            env,
            |judge, value| judge.value(value, env, &[]),
            refer,
        );
        let given = in_comparable_units(given);
        let first = given
            .iter()
            .find(|val| val.range().is_some())
            .or(given.first())
            .cloned();
        let Some(first) = first else {
            return PossibleValue::of(vec![Alternative::Refer], Dimension::Number);
        };
        let ways = given.iter().flat_map(|val| val.ways.clone()).collect();
        PossibleValue { ways, ..first }.limited()
    }

    /// One number out of many things.
    fn over(&self, how: Over, of: &'a Selection, take: &'a Value, env: &Env<'_>) -> PossibleValue {
        let members = self.members(of, env);
        let mut total = Total::new(how);
        let mut dimension = None;
        let mut refer = false;
        let taken = members.list.iter().map(|(referent, _)| {
            let inner = env.bind_in(of.kind, *referent, of.zone.as_deref());
            self.value(take, &inner, &[])
        });
        let taken = in_comparable_units(taken.collect());
        for ((referent, sure), val) in members.list.iter().zip(taken) {
            let many = matches!(referent, crate::check::world::env::Referent::Unseen(_));
            refer |= val.may_refer();
            dimension.get_or_insert((val.dimension, val.unit));
            let only = *sure && val.ways.len() == 1;
            if let Some(range) = val.range() {
                total.add(range, only, many);
            }
            if val.ways.contains(&Alternative::Nothing) {
                total.add_nothing(only);
            }
        }
        let (dimension, unit) = dimension.unwrap_or((Dimension::Length, None));
        let mut ways: Vec<Alternative> =
            total.range().map(Alternative::amount).into_iter().collect();
        if total.may_be_nothing() {
            ways.push(Alternative::Nothing);
        }
        if how != Over::Sum && total.may_be_empty() {
            ways.push(match (how, of.if_none) {
                (Over::Largest, None) => Alternative::Least,
                (_, said) => Alternative::Empty(said),
            });
        }
        if refer {
            ways.push(Alternative::Refer);
        }
        PossibleValue {
            unit,
            ..PossibleValue::of(ways, dimension)
        }
    }
}

/// Makes values comparable: all in days where some are in days and some in months.
fn in_comparable_units(mut values: Vec<PossibleValue>) -> Vec<PossibleValue> {
    if values.iter().any(|val| val.dimension == Dimension::Days) {
        let in_months = |val: &&mut PossibleValue| val.dimension == Dimension::Months;
        values.iter_mut().filter(in_months).for_each(to_days);
    }
    values
}

fn to_days(val: &mut PossibleValue) {
    for way in &mut val.ways {
        if let Alternative::Amount { least, most } = way {
            (*least, *most) = (least.days_of_months(), most.days_of_months());
        }
    }
    (val.dimension, val.unit) = (Dimension::Days, None);
}
