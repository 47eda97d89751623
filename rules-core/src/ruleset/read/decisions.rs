//! Decisions: questions whose answer is a class.

use super::Reader;
use super::rules::{Subject, spelled_out};
use crate::ruleset::{Decision, Table};
use crate::text::{Entry, Node};

impl<'a> Reader<'a> {
    /// A question whose answer is a class.
    pub(super) fn decision(&mut self, node: &'a Node) -> Option<Decision> {
        let mut map = self.map(node, "a decision")?;
        let id = self.id(&mut map, "id");
        let title = self.take_text(&mut map, "title");
        let clause = self.take_text(&mut map, "clause");
        self.no_condition(node);
        let subject = self.subject(&mut map);
        let cited = self.cited(&mut map);
        let table = self.need(&mut map, "table");
        let table = subject
            .as_ref()
            .zip(table)
            .map(|(subject, entry)| self.decided(subject, entry));
        self.finish(map);
        let (id, subject, (table, about_pool)) = (id?, subject?, table?);
        Some(Decision {
            id: id.to_owned(),
            title: title.unwrap_or_else(|| spelled_out(id)),
            clause,
            each: subject.each,
            about_pool: about_pool || subject.about_pool,
            table: table?,
            cited,
            span: self.place(node.span),
        })
    }

    /// A decision always decides: its conditions belong into its rows.
    fn no_condition(&mut self, node: &Node) {
        for key in ["when", "unless"] {
            if let Some(node) = node.get(key) {
                self.fault(
                    "decision-when",
                    node.span,
                    format!("A decision has no `{key}`: it always gives a class."),
                )
                .help("Put the condition into a row of its table.");
            }
        }
    }

    fn decided(
        &mut self,
        subject: &Subject<'a>,
        entry: &'a Entry,
    ) -> (Option<Table<String>>, bool) {
        self.noting_pool(|reader| match &subject.each {
            Some(each) => reader.with_bound(each.kind, subject.term, |reader| {
                reader.class_table(&entry.value)
            }),
            None => reader.class_table(&entry.value),
        })
    }
}
