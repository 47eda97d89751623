//! Decisions: questions whose answer is a class.

use crate::faults::Code;
use crate::grammar;
use crate::ruleset::read::Reader;
use crate::ruleset::read::rule::{Subject, spelled_out};
use crate::ruleset::{Decision, Table};
use crate::text::{Entry, Node};

/// How classes are told apart.
const TABLE: &str =
    "{rows: [{when: {fact: pool.depth, at-most: 60 cm}, then: no-permit}, {otherwise: permit}]}";

impl<'a> Reader<'a> {
    /// A question whose answer is a class.
    pub(crate) fn decision(&mut self, node: &'a Node) -> Option<Decision> {
        let [id, title, clause, each, choosing @ .., source, table] =
            self.keys(node, &grammar::DECISION)?;
        let id = self.id(id);
        let [title, clause] = [title, clause].map(|text| self.told(text));
        self.no_condition(node);
        let subject = self.subject(node.span, [None, None, each], choosing);
        let cited = self.cited(source);
        let table = subject.as_ref().zip(table);
        let table = table.map(|(subject, entry)| self.decided(subject, entry));
        let (id, subject, (table, about_pool)) = (id?, subject?, table?);
        let decision = Decision {
            id: id.to_owned(),
            title: title.unwrap_or_else(|| spelled_out(id)),
            clause,
            each: subject.each,
            about_pool: about_pool || subject.about_pool,
            table: table?,
            cited,
            span: node.span,
        };
        self.same_class(&decision);
        Some(decision)
    }

    /// A decision always decides: its conditions belong into its rows.
    fn no_condition(&mut self, node: &Node) {
        let entries = node.as_map().unwrap_or_default();
        let refused = |entry: &&Entry| grammar::DECISION.refused.contains(&entry.key.as_str());
        if let Some(entry) = entries.iter().find(refused) {
            let message = format!(
                "A decision has no `{}`: it always gives a class.",
                entry.key
            );
            self.fault(Code::DecisionWhen, entry.key_span, message).help(format!(
                "Write its classes as a table, as in `table: {TABLE}`; what must hold is a rule."
            ));
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
