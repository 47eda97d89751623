//! Visiting everything that a rule is made of.

use rules_core::ruleset::{
    Bound, Condition, Decision, Operand, Part, Requirement, RowTest, Rule, RuleSet, Selection,
    ShareOf, Table, Then, Value, Which, Zone,
};
use rules_core::vocabulary::KindId;

/// A visitor. It sees each piece before the parts of that piece.
pub trait Visitor {
    /// A value.
    fn value(&mut self, _: &Value) {}
    /// A bound.
    fn bound(&mut self, _: &Bound) {}
    /// A requirement.
    fn requirement(&mut self, _: &Requirement) {}
    /// Which things an outline is of.
    fn which(&mut self, _: &Which) {}
    /// The kind of the thing of which others must be part.
    fn whole(&mut self, _: KindId) {}
    /// From here on, a kind's name stands for each of the selected things.
    fn enter(&mut self, _: &Selection) {}
    /// Until here.
    fn leave(&mut self) {}
    /// An outline of some things.
    fn part(&mut self, _: &Part) {}
}

/// Goes through all rules, decisions and papers.
pub fn rule_set(rules: &RuleSet, to: &mut impl Visitor) {
    rules.rules.iter().for_each(|one| rule(one, to));
    rules.decisions.iter().for_each(|one| decision(one, to));
    for document in &rules.documents {
        condition(document.when.as_ref(), to);
        document.each.iter().for_each(|each| selection(each, to));
    }
}

/// Goes through a rule.
pub fn rule(rule: &Rule, to: &mut impl Visitor) {
    for requirement in rule.when.iter().chain(&rule.unless).chain([&rule.require]) {
        self::requirement(requirement, to);
    }
    for relief in &rule.reliefs {
        for requirement in relief.when.iter().chain([&relief.require]) {
            self::requirement(requirement, to);
        }
    }
    rule.each.iter().for_each(|each| selection(each, to));
    if let Some(force) = &rule.in_force {
        condition(force.or_when.as_ref(), to);
        condition(force.unless.as_ref(), to);
    }
}

/// Goes through a decision.
pub fn decision(decision: &Decision, to: &mut impl Visitor) {
    decision.each.iter().for_each(|each| selection(each, to));
    table(&decision.table, to, |_, _| {});
}

/// Goes through a condition.
pub fn condition(condition: Option<&Condition>, to: &mut impl Visitor) {
    if let Some(condition) = condition {
        requirement(&condition.requirement, to);
    }
}

/// Goes through a requirement.
pub fn requirement<V: Visitor>(of: &Requirement, to: &mut V) {
    to.requirement(of);
    match of {
        Requirement::Test(test) => {
            value(&test.value, to);
            bounds(&test.bounds, to);
        }
        Requirement::All(members) | Requirement::Any(members) => {
            members.iter().for_each(|one| requirement(one, to));
        }
        Requirement::Count { of, bounds: limits } => {
            of.iter().for_each(|one| requirement(one, to));
            bounds(limits, to);
        }
        Requirement::Not(of) => requirement(of, to),
        Requirement::Each(each) => {
            selection(&each.selection, to);
            to.enter(&each.selection);
            requirement(&each.require, to);
            to.leave();
        }
        Requirement::Table(of) => table(of, to, |given, to| requirement(given, to)),
        Requirement::Meets {
            requirement: of, ..
        } => requirement(of, to),
        Requirement::Have(_) | Requirement::Refer => {}
    }
}

fn table<T, V: Visitor>(table: &Table<T>, to: &mut V, given: fn(&T, &mut V)) {
    table.by.iter().for_each(|by| value(by, to));
    for row in &table.rows {
        match &row.test {
            RowTest::Bounds(limits) => bounds(limits, to),
            RowTest::When(when) => requirement(when, to),
            RowTest::Otherwise => {}
        }
        if let Then::Give(then) = &row.then {
            given(then, to);
        }
    }
}

fn bounds<V: Visitor>(bounds: &[Bound], to: &mut V) {
    for bound in bounds {
        to.bound(bound);
        match bound {
            Bound::AtLeast(limit)
            | Bound::AtMost(limit)
            | Bound::MoreThan(limit)
            | Bound::LessThan(limit) => value(limit, to),
            Bound::Is(_) => {}
        }
    }
}

/// Goes through a selection.
pub fn selection<V: Visitor>(of: &Selection, to: &mut V) {
    of.part_of.iter().for_each(|kind| to.whole(*kind));
    to.enter(of);
    of.filter.iter().for_each(|filter| requirement(filter, to));
    to.leave();
    of.zone.iter().for_each(|within| zone(within, to));
}

fn operand<V: Visitor>(operand: &Operand, to: &mut V) {
    for part in operand.parts.iter() {
        to.which(&part.which);
        to.part(part);
        if let Some(of) = part.which.selection() {
            selection(of, to);
        }
    }
}

fn zone<V: Visitor>(of: &Zone, to: &mut V) {
    match of {
        Zone::Inside(area) => operand(area, to),
        Zone::Around { of, by } => {
            operand(of, to);
            value(by, to);
        }
        Zone::Between(one, other) => {
            operand(one, to);
            operand(other, to);
        }
        Zone::Corner { of, legs } => {
            operand(&of.0, to);
            operand(&of.1, to);
            value(legs, to);
        }
        Zone::Not(of) => zone(of, to),
        Zone::Named { zone: of, .. } => zone(of, to),
    }
}

/// Goes through a value.
pub fn value<V: Visitor>(of: &Value, to: &mut V) {
    to.value(of);
    match of {
        Value::Distance(distance) => {
            operand(&distance.from, to);
            operand(&distance.to, to);
        }
        Value::Area(area) => {
            operand(&area.of, to);
            area.within.iter().for_each(|within| zone(within, to));
            match &area.share_of {
                Some(ShareOf::Outlines(outlines)) => operand(outlines, to),
                Some(ShareOf::Value(base)) => value(base, to),
                None => {}
            }
        }
        Value::Length { of, within } => {
            operand(of, to);
            within.iter().for_each(|within| zone(within, to));
        }
        Value::Count(of) => selection(of, to),
        Value::Table(of) => table(of, to, |given, to| value(given, to)),
        Value::Largest(of)
        | Value::Smallest(of)
        | Value::Sum(of)
        | Value::Difference(of)
        | Value::Product(of) => of.iter().for_each(|one| value(one, to)),
        Value::Root(of) => value(of, to),
        Value::Over { of, take, .. } => {
            selection(of, to);
            to.enter(of);
            value(take, to);
            to.leave();
        }
        Value::Named { value: of, .. } => value(of, to),
        Value::Stated(_)
        | Value::Fact(_)
        | Value::Enclosure(_)
        | Value::Sound(_)
        | Value::Level(_)
        | Value::Fall(_)
        | Value::Volume(_)
        | Value::Height(_)
        | Value::Margin(_)
        | Value::Width(_) => {}
    }
}
