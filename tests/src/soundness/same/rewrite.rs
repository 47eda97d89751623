//! Ways to rewrite a rule without changing its meaning.

use std::sync::Arc;

use rules_core::quantity::{Dimension, Unit};
use rules_core::ruleset::{
    Along, Bound, Each, IfNone, Places, Requirement, Row, RowTest, Rule, Scope, Selection, Stated,
    Table, TermUse, Test, Value,
};
use rules_core::vocabulary::KindId;

use super::map;
use crate::soundness::generate::stated;

pub(super) fn not(of: Requirement) -> Requirement {
    Requirement::Not(Box::new(of))
}

fn all_not(of: Vec<Requirement>) -> Vec<Requirement> {
    of.into_iter().map(not).collect()
}

/// "All of these" as "not any of them not", and "any of these" as "not all of them not".
pub(super) fn de_morgan(rule: &Rule) -> Rule {
    map::rule(rule, &mut |requirement| match requirement {
        Requirement::All(of) => not(Requirement::Any(all_not(of))),
        Requirement::Any(of) => not(Requirement::All(all_not(of))),
        other => other,
    })
}

/// Each test under two `not`s.
pub(super) fn twice_not(rule: &Rule) -> Rule {
    map::rule(rule, &mut |requirement| match requirement {
        Requirement::Test(_) => not(not(requirement)),
        other => other,
    })
}

/// A row of a table as a condition; `None` for the last row.
fn condition<T>(table: &Table<T>, row: &Row<T>) -> Option<Requirement> {
    match (&row.test, &table.by) {
        (RowTest::When(when), _) => Some(when.clone()),
        (RowTest::Bounds(bounds), Some(by)) => Some(Requirement::Test(Arc::new(Test {
            value: by.clone(),
            bounds: bounds.clone(),
            holds: None,
            span: row.span,
        }))),
        _ => None,
    }
}

fn with_conditions(table: Table<Requirement>) -> Table<Requirement> {
    let rows = table.rows.iter().map(|row| Row {
        test: condition(&table, row).map_or(RowTest::Otherwise, RowTest::When),
        ..row.clone()
    });
    let rows = rows.collect();
    Table {
        by: None,
        rows,
        span: table.span,
    }
}

fn tables(rule: &Rule, change: fn(Table<Requirement>) -> Table<Requirement>) -> Rule {
    map::rule(rule, &mut |requirement| match requirement {
        Requirement::Table(table) => Requirement::Table(Box::new(change(*table))),
        other => other,
    })
}

/// A table's value moved into a condition of each row.
pub(super) fn rows_by_conditions(rule: &Rule) -> Rule {
    tables(rule, with_conditions)
}

/// The last row first, under the condition that none of the others applies; the row before it becomes the last.
pub(super) fn rows_turned(rule: &Rule) -> Rule {
    tables(rule, |table| {
        let mut table = with_conditions(table);
        let any = table.rows.iter().filter_map(|row| match &row.test {
            RowTest::When(when) => Some(when.clone()),
            _ => None,
        });
        let none = not(Requirement::Any(any.collect()));
        if let Some(mut last) = table.rows.pop() {
            last.test = RowTest::When(none);
            if let Some(row) = table.rows.last_mut() {
                row.test = RowTest::Otherwise;
            }
            table.rows.insert(0, last);
        }
        table
    })
}

/// Each distance from its other end, except for `farthest: from`.
pub(super) fn ends_turned(rule: &Rule) -> Rule {
    map::rule(rule, &mut |requirement| match requirement {
        Requirement::Test(test) => {
            let mut test = (*test).clone();
            if let Value::Distance(distance) = &mut test.value
                && distance.places != Places::FarthestOfFirst
            {
                let distance = &mut **distance;
                std::mem::swap(&mut distance.from, &mut distance.to);
            }
            Requirement::Test(Arc::new(test))
        }
        other => other,
    })
}

/// `when` as a member of an any-of.
pub(super) fn when_into_any(rule: &Rule) -> Option<Rule> {
    let when = rule.when.clone()?;
    let silent = rule.each.as_ref().and_then(|each| each.if_none).is_some();
    (!silent).then(|| Rule {
        when: None,
        require: Requirement::Any(vec![not(when), rule.require.clone()]),
        ..rule.clone()
    })
}

/// `when` as `unless not`.
pub(super) fn when_into_unless(rule: &Rule) -> Option<Rule> {
    let not_when = not(rule.when.clone()?);
    let unless = match rule.unless.clone() {
        Some(unless) => Requirement::Any(vec![unless, not_when]),
        None => not_when,
    };
    Some(Rule {
        when: None,
        unless: Some(unless),
        ..rule.clone()
    })
}

/// `unless` as `when not`.
pub(super) fn unless_into_when(rule: &Rule) -> Option<Rule> {
    let not_unless = not(rule.unless.clone()?);
    let when = match rule.when.clone() {
        Some(when) => Requirement::All(vec![when, not_unless]),
        None => not_unless,
    };
    Some(Rule {
        unless: None,
        when: Some(when),
        ..rule.clone()
    })
}

/// The whole requirement through a term.
pub(super) fn through_a_term(rule: &Rule, pool: KindId) -> Rule {
    let each = rule.each.as_ref().map(|each| each.kind);
    let scope = Scope {
        of: each.filter(|kind| *kind != pool),
        about_pool: rule.about_pool || each == Some(pool),
    };
    Rule {
        require: Requirement::Meets {
            term: TermUse {
                name: "whole".to_owned(),
                scope,
            },
            requirement: Arc::new(rule.require.clone()),
        },
        ..rule.clone()
    }
}

fn tests(rule: &Rule, change: impl Fn(&mut Test)) -> Rule {
    map::rule(rule, &mut |requirement| match requirement {
        Requirement::Test(test) => {
            let mut test = (*test).clone();
            change(&mut test);
            Requirement::Test(Arc::new(test))
        }
        other => other,
    })
}

fn limit_of(bound: &mut Bound) -> Option<&mut Value> {
    match bound {
        Bound::AtLeast(limit)
        | Bound::AtMost(limit)
        | Bound::MoreThan(limit)
        | Bound::LessThan(limit) => Some(limit),
        Bound::Is(_) => None,
    }
}

/// Lengths in feet.
pub(super) fn other_units(rule: &Rule) -> Rule {
    tests(rule, |test| {
        for limit in test.bounds.iter_mut().filter_map(limit_of) {
            if let Value::Stated(Stated {
                dimension: Dimension::Length,
                unit,
                ..
            }) = limit
            {
                *unit = Unit::FOOT;
            }
        }
    })
}

/// Everything the other way round.
pub(super) fn other_order(rule: &Rule) -> Rule {
    let turned = map::rule(rule, &mut |requirement| match requirement {
        Requirement::All(mut of) => {
            of.reverse();
            Requirement::All(of)
        }
        Requirement::Any(mut of) => {
            of.reverse();
            Requirement::Any(of)
        }
        Requirement::Count { mut of, bounds } => {
            of.reverse();
            Requirement::Count { of, bounds }
        }
        other => other,
    });
    let mut turned = tests(&turned, |test| test.bounds.reverse());
    turned.reliefs.reverse();
    turned
}

/// The bound that is kept exactly when another is not; `None` if there is none.
pub fn opposite(bound: &Bound) -> Option<Bound> {
    Some(match bound {
        Bound::AtLeast(limit) => Bound::LessThan(limit.clone()),
        Bound::AtMost(limit) => Bound::MoreThan(limit.clone()),
        Bound::MoreThan(limit) => Bound::AtMost(limit.clone()),
        Bound::LessThan(limit) => Bound::AtLeast(limit.clone()),
        Bound::Is(_) => return None,
    })
}

/// "At least" as "not less than".
pub(super) fn not_the_opposite(rule: &Rule) -> Rule {
    map::rule(rule, &mut |requirement| match &requirement {
        Requirement::Test(test) if test.holds.is_none() => match &test.bounds[..] {
            [bound] => match opposite(bound) {
                Some(opposite) => not(Requirement::Test(Arc::new(Test {
                    bounds: vec![opposite],
                    ..(**test).clone()
                }))),
                None => requirement,
            },
            _ => requirement,
        },
        _ => requirement,
    })
}

/// "Anywhere" as "not all along not".
pub(super) fn not_all_along_not(rule: &Rule) -> Rule {
    map::rule(rule, &mut |requirement| match &requirement {
        Requirement::Test(test) => match (&test.bounds[..], test.holds) {
            ([bound], Some(holds)) => match opposite(bound) {
                Some(opposite) => not(Requirement::Test(Arc::new(Test {
                    bounds: vec![opposite],
                    holds: Some(match holds {
                        Along::Anywhere => Along::AllAlong,
                        Along::AllAlong => Along::Anywhere,
                    }),
                    ..(**test).clone()
                }))),
                None => requirement,
            },
            _ => requirement,
        },
        _ => requirement,
    })
}

/// "Any of these" as "at least one of them".
pub(super) fn any_as_count(rule: &Rule) -> Rule {
    let one = || Bound::AtLeast(stated(1_000_000_000, Dimension::Number));
    map::rule(rule, &mut |requirement| match requirement {
        Requirement::Any(of) => Requirement::Count {
            of,
            bounds: vec![one()],
        },
        other => other,
    })
}

/// `each` of the rule as an `each` in its requirement.
pub(super) fn each_inside(rule: &Rule) -> Option<Rule> {
    let selection = rule.each.clone()?;
    rule.reliefs.is_empty().then(|| Rule {
        each: None,
        require: Requirement::Each(Box::new(Each {
            selection,
            require: rule.require.clone(),
            span: rule.span,
        })),
        ..rule.clone()
    })
}

/// A relief as a member of an any-of.
pub(super) fn relief_into_any(rule: &Rule) -> Option<Rule> {
    let if_none = rule.each.as_ref().and_then(|each| each.if_none).is_some();
    let plain = rule.reliefs.iter().all(|relief| !relief.leave) && !if_none;
    (plain && !rule.reliefs.is_empty()).then(|| {
        let mut ways = vec![rule.require.clone()];
        ways.extend(rule.reliefs.iter().map(|relief| {
            let when = relief.when.clone().into_iter();
            Requirement::All(when.chain([relief.require.clone()]).collect())
        }));
        Rule {
            require: Requirement::Any(ways),
            reliefs: Vec::new(),
            ..rule.clone()
        }
    })
}

/// "The pool" as each pool.
pub(super) fn each_pool(rule: &Rule, pool: KindId) -> Option<Rule> {
    let fits = rule.about_pool && rule.each.is_none();
    let plain = rule.when.is_none() && rule.unless.is_none();
    (fits && plain).then(|| Rule {
        about_pool: false,
        each: Some(Selection {
            term: None,
            closed: None,
            part_of: None,
            kind: pool,
            filter: None,
            zone: None,
            if_none: None::<IfNone>,
        }),
        ..rule.clone()
    })
}

/// The `where` of `each` as a member of an any-of.
pub(super) fn where_into_any(rule: &Rule) -> Option<Rule> {
    let each = rule.each.clone()?;
    let filter = (*each.filter.clone()?).clone();
    each.if_none.is_none().then(|| Rule {
        each: Some(Selection {
            filter: None,
            closed: None,
            ..each
        }),
        require: Requirement::Any(vec![not(filter), rule.require.clone()]),
        ..rule.clone()
    })
}
