//! Rules made wrong.

use std::sync::Arc;

use rules_core::ruleset::{
    Along, Bound, Operand, Requirement, RowTest, Rule, RuleSet, Selection, Table, Test, Value,
    Which,
};
use rules_core::vocabulary::KindId;

use super::Fault;
use crate::soundness::same::{map, opposite};

/// The rules that a checker with this fault reads.
pub(super) fn wrong(fault: Fault, rules: &RuleSet) -> RuleSet {
    let pool = rules.vocabulary.kind_named("pool");
    let mut wrong = rules.clone();
    for rule in &mut wrong.rules {
        let changed = match (fault, pool) {
            (Fault::ConditionsAllAlong, _) => {
                conditions(rule, &mut |of| along(of, Along::AllAlong))
            }
            (Fault::KeptAnywhere, _) => Rule {
                require: map::requirement(&rule.require, &mut |of| along(of, Along::Anywhere)),
                ..rule.clone()
            },
            (Fault::NearestOfAllPools, Some(pool)) if rule.about_pool => {
                operands(rule, &mut |value| all_of_kind(value, pool, false))
            }
            (Fault::AreaOfAllPools, Some(pool)) => {
                operands(rule, &mut |value| all_of_kind(value, pool, true))
            }
            (Fault::AnyOfTheChosen, _) => operands(rule, &mut any_of_the_chosen),
            (Fault::TermLosesItsThing, _) => map::rule(rule, &mut loses_its_thing),
            (Fault::PartsOfAll, _) => map::rule(rule, &mut parts_of_all),
            (Fault::NoneBeforeWhen, _) => none_before_when(rule),
            (Fault::NoneWithoutReliefs, _) => none_without_reliefs(rule),
            (Fault::ReliefByAbsence, _) => relief_by_absence(rule),
            (Fault::AnyByAbsence, _) => map::rule(rule, &mut any_by_absence),
            (Fault::NotUnmirrored, _) => map::rule(rule, &mut not_unmirrored),
            (Fault::AtLeastMoreThan, _) => map::rule(rule, &mut tests_edge),
            (Fault::TablesEdge, _) => map::rule(rule, &mut tables_edge),
            (Fault::LeaveHolds, _) => leave_holds(rule),
            _ => continue,
        };
        *rule = changed;
    }
    wrong
}

/// A rule with all its conditions changed.
fn conditions(rule: &Rule, change: map::Change<'_>) -> Rule {
    let mut wrong = rule.clone();
    for condition in wrong.when.iter_mut().chain(&mut wrong.unless) {
        *condition = map::requirement(condition, change);
    }
    if let Some(filter) = wrong.each.as_mut().and_then(|each| each.filter.as_mut()) {
        *filter = Arc::new(map::requirement(filter, change));
    }
    for when in wrong
        .reliefs
        .iter_mut()
        .filter_map(|relief| relief.when.as_mut())
    {
        *when = map::requirement(when, change);
    }
    wrong
}

fn along(of: Requirement, holds: Along) -> Requirement {
    match of {
        Requirement::Test(test) if matches!(test.value, Value::Fact(_)) && test.holds.is_none() => {
            Requirement::Test(Arc::new(Test {
                holds: Some(holds),
                ..(*test).clone()
            }))
        }
        other => other,
    }
}

/// A rule with the values of all its tests changed.
fn operands(rule: &Rule, change: &mut dyn FnMut(&mut Value)) -> Rule {
    map::rule(rule, &mut |of| in_test(of, change))
}

fn in_test(of: Requirement, change: &mut dyn FnMut(&mut Value)) -> Requirement {
    match of {
        Requirement::Test(test) => {
            let mut test = (*test).clone();
            change(&mut test.value);
            Requirement::Test(Arc::new(test))
        }
        other => other,
    }
}

fn all_of_kind(value: &mut Value, kind: KindId, areas: bool) {
    match value {
        Value::Area(area) if areas => all_things(&mut area.of, kind),
        Value::Distance(distance) if !areas => {
            all_things(&mut distance.from, kind);
            all_things(&mut distance.to, kind);
        }
        _ => {}
    }
}

fn all_things(operand: &mut Operand, kind: KindId) {
    for part in Arc::make_mut(&mut operand.parts) {
        if matches!(part.which, Which::Bound(bound) if bound == kind) {
            part.which = Which::All(Selection {
                term: None,
                closed: None,
                part_of: None,
                kind,
                filter: None,
                zone: None,
                if_none: None,
            });
        }
    }
}

fn any_of_the_chosen(value: &mut Value) {
    let any = |operand: &mut Operand| {
        for part in Arc::make_mut(&mut operand.parts) {
            if let Which::Meant(selection) = &part.which {
                part.which = Which::All(selection.clone());
            }
        }
    };
    if let Value::Distance(distance) = value {
        any(&mut distance.from);
        any(&mut distance.to);
    }
}

fn parts_of_all(of: Requirement) -> Requirement {
    match of {
        Requirement::Each(mut each) => {
            each.selection.part_of = None;
            Requirement::Each(each)
        }
        other => in_test(other, &mut |value| {
            if let Value::Count(of) | Value::Over { of, .. } = value {
                of.part_of = None;
            }
        }),
    }
}

fn loses_its_thing(of: Requirement) -> Requirement {
    match of {
        Requirement::Meets { term, requirement } => {
            let kind = term.scope.of;
            let lost = kind.map(|kind| {
                map::requirement(&requirement, &mut |of| {
                    in_test(of, &mut |value| all_of_kind(value, kind, false))
                })
            });
            Requirement::Meets {
                term,
                requirement: lost.map_or(requirement, Arc::new),
            }
        }
        other => other,
    }
}

fn none_before_when(rule: &Rule) -> Rule {
    let mut wrong = rule.clone();
    if wrong.each.as_ref().and_then(|each| each.if_none).is_some()
        && let Some(when) = wrong.when.take()
    {
        wrong.require = Requirement::Any(vec![Requirement::Not(Box::new(when)), wrong.require]);
    }
    wrong
}

fn none_without_reliefs(rule: &Rule) -> Rule {
    let mut wrong = rule.clone();
    if wrong.each.as_ref().and_then(|each| each.if_none).is_some() {
        let mut ways = vec![wrong.require];
        ways.extend(wrong.reliefs.drain(..).map(|relief| {
            let leave = relief.leave.then_some(Requirement::Refer);
            let all = relief.when.into_iter().chain(leave);
            Requirement::All(all.chain([relief.require]).collect())
        }));
        wrong.require = Requirement::Any(ways);
    }
    wrong
}

/// Rewrites a test as "not its opposite", which holds for something absent.
fn by_absence(of: Requirement) -> Requirement {
    let Requirement::Test(test) = &of else {
        return of;
    };
    match (&test.value, &test.bounds[..]) {
        (Value::Distance(_), [bound]) => match opposite(bound) {
            Some(opposite) => Requirement::Not(Box::new(Requirement::Test(Arc::new(Test {
                bounds: vec![opposite],
                ..(**test).clone()
            })))),
            None => of,
        },
        _ => of,
    }
}

fn relief_by_absence(rule: &Rule) -> Rule {
    let mut wrong = rule.clone();
    for relief in &mut wrong.reliefs {
        relief.require = by_absence(relief.require.clone());
    }
    wrong
}

fn any_by_absence(of: Requirement) -> Requirement {
    match of {
        Requirement::Any(members) => {
            Requirement::Any(members.into_iter().map(by_absence).collect())
        }
        other => other,
    }
}

fn not_unmirrored(of: Requirement) -> Requirement {
    match of {
        Requirement::Not(inner) => *inner,
        other => other,
    }
}

fn leave_holds(rule: &Rule) -> Rule {
    let mut wrong = rule.clone();
    for relief in &mut wrong.reliefs {
        relief.leave = false;
    }
    wrong
}

/// Moves a bound's edge to the other side.
fn at_the_edge(bound: &mut Bound) {
    *bound = match bound.clone() {
        Bound::AtLeast(limit) => Bound::MoreThan(limit),
        Bound::MoreThan(limit) => Bound::AtLeast(limit),
        Bound::AtMost(limit) => Bound::LessThan(limit),
        Bound::LessThan(limit) => Bound::AtMost(limit),
        Bound::Is(choices) => Bound::Is(choices),
    };
}

fn tests_edge(of: Requirement) -> Requirement {
    match of {
        Requirement::Test(test) => {
            let mut test = (*test).clone();
            test.bounds.iter_mut().for_each(at_the_edge);
            Requirement::Test(Arc::new(test))
        }
        other => other,
    }
}

fn tables_edge(of: Requirement) -> Requirement {
    match of {
        Requirement::Table(mut table) => {
            rows_edge(&mut table);
            Requirement::Table(table)
        }
        Requirement::Test(test) => {
            let mut test = (*test).clone();
            values_edge(&mut test.value);
            test.bounds
                .iter_mut()
                .filter_map(limit)
                .for_each(values_edge);
            Requirement::Test(Arc::new(test))
        }
        other => other,
    }
}

fn values_edge(of: &mut Value) {
    if let Value::Table(table) = of {
        rows_edge(table);
    }
}

fn rows_edge<T>(table: &mut Table<T>) {
    for row in &mut table.rows {
        if let RowTest::Bounds(bounds) = &mut row.test {
            bounds.iter_mut().for_each(at_the_edge);
        }
    }
}

fn limit(of: &mut Bound) -> Option<&mut Value> {
    match of {
        Bound::AtLeast(limit)
        | Bound::AtMost(limit)
        | Bound::MoreThan(limit)
        | Bound::LessThan(limit) => Some(limit),
        Bound::Is(_) => None,
    }
}
