//! Tables of amounts within a sentence: the sentence names them, and their rows stand under it.

use std::sync::Arc;

use super::Line;
use super::requirements::{Sayer, row_test_words};
use crate::ruleset::visit::{Visit, within};
use crate::ruleset::words::value_words;
use crate::ruleset::{Operand, RuleSet, Selection, Table, Then, Value};

/// The tables within something, in the order in which its sentence names them, each with its rows.
pub(super) fn tables_in<'r>(rules: &'r RuleSet, go: impl FnOnce(&mut Found<'r>)) -> Vec<Line> {
    let mut found = Found::default();
    go(&mut found);
    let tables = found.tables.into_iter();
    tables.map(|table| listed(table, rules)).collect()
}

fn listed(table: &Table<Value>, rules: &RuleSet) -> Line {
    let by = table.by.as_ref().map(|by| value_words(by, rules));
    let by = by.map_or_else(String::new, |by| format!(" for {by}"));
    Line {
        text: format!("the table{by} gives what stands in the first row that applies"),
        under: rows(table, rules),
    }
}

/// The rows of a table of amounts.
pub(super) fn rows(table: &Table<Value>, rules: &RuleSet) -> Vec<Line> {
    let rows = table.rows.iter().map(|row| {
        let head = row_test_words(&row.test, table.by.as_ref(), rules);
        let (text, mut under) = match &row.then {
            Then::Refer => ("the authority decides".to_owned(), Vec::new()),
            Then::Give(Value::Table(inner)) => (
                "the first of these that applies".to_owned(),
                self::rows(inner, rules),
            ),
            Then::Give(value) => (
                value_words(value, rules),
                tables_in(rules, |found| found.value(value)),
            ),
        };
        under.extend(tables_in(rules, |found| found.row_test(&row.test)));
        Line {
            text: format!("{head}, {text}"),
            under,
        }
    });
    rows.collect()
}

/// Looks for tables of amounts; what a term says is read back where it is defined.
#[derive(Default)]
pub(super) struct Found<'r> {
    tables: Vec<&'r Table<Value>>,
}

impl<'r> Visit<'r> for Found<'r> {
    fn term<T>(&mut self, _: &'r Arc<T>, _: fn(&mut Self, &'r T)) {}

    fn value(&mut self, value: &'r Value) {
        match value {
            Value::Table(table) => self.tables.push(table),
            value => within::value(self, value),
        }
    }

    fn operand(&mut self, operand: &'r Operand) {
        if operand.term.is_none() {
            operand.parts.iter().for_each(|part| self.part(part));
        }
    }

    fn selection(&mut self, selection: &'r Selection) {
        if selection.term.is_none() {
            within::selection(self, selection);
        }
    }
}

impl Sayer<'_> {
    /// The line, with the tables that its sentence names under it.
    pub(super) fn with_tables<'s>(&'s self, line: Line, go: impl FnOnce(&mut Found<'s>)) -> Line {
        let mut under = line.under;
        under.extend(tables_in(self.rules, go));
        Line { under, ..line }
    }
}
