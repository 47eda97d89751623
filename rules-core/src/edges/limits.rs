//! The stated limits of a rule, wherever they are in it.

use crate::ruleset::say::{Sides, sides};
use crate::ruleset::words::{bound_words, value_words};
use crate::ruleset::{Bound, Once, Requirement, RowTest, Rule, RuleSet, Table, Test, Then, Value};

/// A stated limit.
pub(super) struct Limit<'r> {
    /// What is limited.
    pub value: &'r Value,
    /// The bound, with the limit as stated.
    pub bound: Bound,
    pub sides: Sides,
    /// The row of a table that gives it: what the table goes by, and which case this row covers.
    pub row: Option<(&'r Value, &'r RowTest)>,
}

impl Limit<'_> {
    /// In words: `the height of the latch: at least 1.5 m`.
    pub fn words(&self, rules: &RuleSet) -> String {
        let limit = format!(
            "{}: {}",
            value_words(self.value, rules),
            bound_words(&self.bound, rules)
        );
        match self.row {
            Some((by, RowTest::Bounds(bounds))) => {
                let bounds: Vec<String> = bounds.iter().map(|it| bound_words(it, rules)).collect();
                let by = value_words(by, rules);
                format!("{limit}, where {by} is {}", bounds.join(" and "))
            }
            Some((_, RowTest::Otherwise)) => format!("{limit}, in the last row of the table"),
            _ => limit,
        }
    }
}

/// All stated limits of a rule: first those of its requirement, then those of its conditions and reliefs.
pub(super) fn limits<'r>(rule: &'r Rule, rules: &'r RuleSet) -> Vec<Limit<'r>> {
    let filter = rule.each.as_ref().and_then(|each| each.filter.as_deref());
    let reliefs = rule.reliefs.iter();
    let reliefs = reliefs.flat_map(|relief| relief.when.iter().chain([&relief.require]));
    let conditions = rule.when.iter().chain(rule.unless.iter()).chain(filter);
    let all = [&rule.require].into_iter().chain(conditions).chain(reliefs);
    let mut found = Found {
        rules,
        limits: Vec::new(),
        terms: Once::default(),
    };
    all.for_each(|one| found.requirement(one));
    found.limits
}

struct Found<'r> {
    rules: &'r RuleSet,
    limits: Vec<Limit<'r>>,
    terms: Once,
}

impl<'r> Found<'r> {
    fn requirement(&mut self, requirement: &'r Requirement) {
        match requirement {
            Requirement::Test(test) => self.test(test),
            Requirement::All(list)
            | Requirement::Any(list)
            | Requirement::Count { of: list, .. } => {
                list.iter().for_each(|one| self.requirement(one));
            }
            Requirement::Each(each) => {
                if let Some(filter) = &each.selection.filter {
                    self.requirement(filter);
                }
                self.requirement(&each.require);
            }
            Requirement::Not(inner) => self.requirement(inner),
            Requirement::Meets { requirement, .. } => {
                if self.terms.is_first(requirement) {
                    self.requirement(requirement);
                }
            }
            Requirement::Table(table) => {
                self.row_tests(table);
                for row in &table.rows {
                    if let Then::Give(requirement) = &row.then {
                        self.requirement(requirement);
                    }
                }
            }
            Requirement::Have(_) | Requirement::Refer => {}
        }
    }

    fn test(&mut self, test: &'r Test) {
        for bound in &test.bounds {
            match bound.limit().and_then(table_of) {
                Some(table) => self.table(&test.value, bound, table),
                None => self.add(&test.value, bound.clone(), None),
            }
        }
    }

    /// Adds the limits a table gives: one for each row, and the ones where the rows meet.
    fn table(&mut self, value: &'r Value, bound: &Bound, table: &'r Table<Value>) {
        for row in &table.rows {
            if let Then::Give(limit) = &row.then {
                let row = table.by.as_ref().map(|by| (by, &row.test));
                self.add(value, with_limit(bound, limit), row);
            }
        }
        self.row_tests(table);
    }

    fn row_tests<T>(&mut self, table: &'r Table<T>) {
        for row in &table.rows {
            match (&table.by, &row.test) {
                (Some(by), RowTest::Bounds(bounds)) => bounds
                    .iter()
                    .for_each(|bound| self.add(by, bound.clone(), None)),
                (_, RowTest::When(when)) => self.requirement(when),
                _ => {}
            }
        }
    }

    fn add(&mut self, value: &'r Value, bound: Bound, row: Option<(&'r Value, &'r RowTest)>) {
        let same = |limit: &Limit<'_>| (limit.value, &limit.bound) == (value, &bound);
        if self.limits.iter().any(|limit| row.is_none() && same(limit)) {
            return;
        }
        if let Some(sides) = sides(value, &bound, self.rules) {
            self.limits.push(Limit {
                value,
                bound,
                sides,
                row,
            });
        }
    }
}

fn table_of(value: &Value) -> Option<&Table<Value>> {
    match value {
        Value::Table(table) => Some(table),
        Value::Named { value, .. } => table_of(value),
        _ => None,
    }
}

/// The same bound with another limit.
fn with_limit(bound: &Bound, limit: &Value) -> Bound {
    let limit = limit.clone();
    match bound {
        Bound::AtLeast(_) => Bound::AtLeast(limit),
        Bound::AtMost(_) => Bound::AtMost(limit),
        Bound::MoreThan(_) => Bound::MoreThan(limit),
        Bound::LessThan(_) => Bound::LessThan(limit),
        Bound::Is(choices) => Bound::Is(choices.clone()),
    }
}
