//! Tables: rows, of which the first that applies counts.

use crate::faults::Code;
use crate::grammar;
use crate::quantity::Dimension;
use crate::ruleset::lint::coverage;
use crate::ruleset::read::Reader;
use crate::ruleset::types::{Type, agree, type_of};
use crate::ruleset::{Requirement, Row, RowTest, Table, Then, Value};
use crate::text::{Entry, MapReader, Node, Span};

const TEST_WITH_BY: &str =
    "Give it a bound (`at-most`, `less-than`, `is`, …), a `when:` or `otherwise:`.";
const TEST_WITHOUT_BY: &str = "Give the table `by:` with a fact and the row a bound on it, or the row a `when:` or `otherwise:`.";

/// Reads what one row gives.
type Give<'r, 'a, T> = &'r mut dyn FnMut(&mut Reader<'a>, &'a Node) -> Option<T>;

impl<'a> Reader<'a> {
    /// A table whose rows say what must hold.
    pub(crate) fn requirement_table(&mut self, node: &'a Node) -> Option<Table<Requirement>> {
        self.table(node, &mut |reader, node| reader.requirement(node))
    }

    /// A table whose rows say how much.
    pub(crate) fn value_table(
        &mut self,
        node: &'a Node,
        wanted: Option<Dimension>,
    ) -> Option<Table<Value>> {
        let mut wanted = wanted;
        self.table(node, &mut |reader, node| {
            if node.text() == Some("none") {
                let message = "`none` is no amount.";
                reader.fault(Code::NotAnAmount, node.span, message).help(
                    "Where nothing is asked, write `0 m`; where the office decides, `refer`.",
                );
                return None;
            }
            let value = reader.value(node, wanted)?;
            let found = type_of(&value, &reader.vocabulary).and_then(Type::dimension);
            let (Some(found), Some(expected)) = (found, wanted.or(found)) else {
                reader.fault(
                    Code::NotAnAmount,
                    node.span,
                    "An amount is expected here, and this is answered with a word.",
                );
                return None;
            };
            if !agree(found, expected) {
                reader.sorts_differ(node.span, found, expected);
                return None;
            }
            wanted = Some(expected);
            Some(value)
        })
    }

    /// A table whose rows name a class.
    pub(crate) fn class_table(&mut self, node: &'a Node) -> Option<Table<String>> {
        self.table(node, &mut |reader, node| {
            if node.as_list().is_some() || node.is_empty() {
                let message = format!(
                    "The name of a class is expected here, not {}.",
                    node.describe()
                );
                reader.fault(Code::NotAWord, node.span, message);
                return None;
            }
            reader.said_here(node, "then").map(str::to_owned)
        })
    }

    fn table<T>(&mut self, node: &'a Node, give: Give<'_, 'a, T>) -> Option<Table<T>> {
        if node.as_list().is_some() {
            self.fault(
                Code::NotAMap,
                node.span,
                "The rows of a table stand after `rows`.",
            )
            .help("Put `rows:` above the list, and indent the list under it.");
            return None;
        }
        let [by, rows] = self.keys(node, &grammar::TABLE)?;
        // What the rows go by: a fact's name, or any measure.
        let by = self.if_written(by, |reader, node| reader.value(node, None));
        let rows = rows.map(|entry| self.items(&entry.value, "rows"))?;
        if rows.is_empty()
            && node
                .get("rows")
                .is_some_and(|rows| rows.as_list().is_none())
        {
            return None; // That they are no list was said.
        }
        if rows.is_empty() {
            self.fault(Code::EmptyList, node.span, "This table has no rows.");
            return None;
        }
        let by = by?;
        let read = rows.iter().map(|row| self.row(row, by.as_ref(), give));
        let read: Vec<_> = read.collect();
        let places: Vec<_> = rows.iter().map(|row| row.span).collect();
        let rows = read.into_iter().collect::<Option<Vec<_>>>()?;
        let table = Table {
            by,
            rows,
            span: node.span,
        };
        coverage::check(self, &table, node.span, &places);
        Some(table)
    }

    fn row<T>(
        &mut self,
        node: &'a Node,
        by: Option<&Value>,
        give: Give<'_, 'a, T>,
    ) -> Option<Row<T>> {
        let mut map = self.map(node, grammar::ROW.what)?;
        map.instead_of(grammar::ROW.others);
        let entries = node.as_map().unwrap_or_default();
        let [_, when, otherwise, then] = map.keys(&grammar::ROW.keys, self.faults());
        if when.is_none() && otherwise.is_none() {
            self.wrong_words(&mut map, entries);
        }
        let test = match (when, otherwise) {
            (Some(_), Some(otherwise)) => {
                self.fault(
                    Code::TwoTests,
                    otherwise.key_span,
                    "A row has `when` or `otherwise`, not both.",
                )
                .help("Take out the one that is not meant; the last row has `otherwise`.");
                None
            }
            (Some(when), None) => self.whole_requirement(&when.value).map(RowTest::When),
            (None, Some(_)) => Some(RowTest::Otherwise),
            (None, None) => self.row_bounds(&mut map, by, node.span),
        };
        let then = self
            .row_then(&map, otherwise, then)
            .and_then(|node| self.then(node, give));
        self.finish(map);
        Some(Row {
            test: test?,
            then: then?,
            span: node.span,
        })
    }

    fn row_bounds(
        &mut self,
        map: &mut MapReader<'a>,
        by: Option<&Value>,
        span: Span,
    ) -> Option<RowTest> {
        let before = self.faults().list.len();
        let bounds = match by {
            Some(by) => self.bounds(map, by),
            None => {
                map.keys(&grammar::BOUNDS, self.faults());
                Vec::new()
            }
        };
        let refused = self.faults().list.len() > before;
        if bounds.is_empty() && !refused && !misspells_test(map) && !map.has_unknown() {
            let help = by.map_or(TEST_WITHOUT_BY, |_| TEST_WITH_BY);
            self.fault(Code::NoRowTest, span, "Nothing says when this row applies.")
                .help(help);
        }
        Some(RowTest::Bounds(bounds)).filter(|_| by.is_some() && !refused)
    }

    /// The part that says what the row gives: `then`, or what stands after `otherwise`.
    fn row_then(
        &mut self,
        map: &MapReader<'a>,
        otherwise: Option<&'a Entry>,
        then: Option<&'a Entry>,
    ) -> Option<&'a Node> {
        match (otherwise, then) {
            (None, Some(then)) => Some(&then.value),
            (Some(otherwise), None) => Some(&otherwise.value),
            (Some(otherwise), Some(then)) => {
                if self.yes_no(&otherwise.value) == Some(false) {
                    self.fault(
                        Code::OtherwiseNo,
                        otherwise.value.span,
                        "`otherwise: no` means nothing.",
                    )
                    .help("Write `otherwise: yes`.");
                }
                Some(&then.value)
            }
            (None, None) if map.misspells(["then", "otherwise"]) || map.has_unknown() => None,
            (None, None) => {
                self.fault(
                    Code::NoThen,
                    map.span(),
                    "Nothing says what this row gives.",
                )
                .help("Add `then:`.");
                None
            }
        }
    }

    fn then<T>(&mut self, node: &'a Node, give: Give<'_, 'a, T>) -> Option<Then<T>> {
        match node.text() {
            Some("refer") => Some(Then::Refer),
            _ => give(self, node).map(Then::Give),
        }
    }
}

/// Whether what says when a row applies is misspelt.
fn misspells_test(map: &MapReader<'_>) -> bool {
    let bounds = grammar::BOUNDS.map(|key| key.name);
    map.misspells(bounds.into_iter().chain(["when", "otherwise"]))
}
