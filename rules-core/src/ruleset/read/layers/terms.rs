//! Terms of several files, and what one file changes in those of another.

use super::days::where_it_counts;
use super::{Changes, Merged, entry};
use crate::faults::Code;
use crate::grammar;
use crate::text::{Content, Entry, Node, Span};
use crate::work;

/// A term as written.
#[derive(Clone)]
pub(crate) struct TermItem {
    pub name: String,
    pub name_span: Span,
    pub node: Node,
    /// The sources that it names.
    pub source: Option<Node>,
    pub file: usize,
}

impl Merged {
    pub(super) fn term(&mut self, written: &Entry, (file, whole): (usize, &Node)) {
        let edit = ["replaces", "withdraws"]
            .into_iter()
            .find_map(|key| Some((key, written.value.get(key)?)));
        match edit {
            Some((key, target)) => {
                let when = where_it_counts(&written.value, whole);
                self.edit_term((written, when.as_ref()), key, target, file);
            }
            None => {
                let (node, source) = self.meaning(&written.value);
                self.terms.push(TermItem {
                    name: written.key.clone(),
                    name_span: written.key_span,
                    node,
                    source,
                    file,
                });
            }
        }
    }

    /// What a term stands for, and the sources that it names: `{means: 3 m, source: bylaw}`.
    fn meaning(&mut self, written: &Node) -> (Node, Option<Node>) {
        let Some(means) = written.get("means") else {
            return (written.clone(), None);
        };
        grammar::SOURCED_TERM.read(written, &mut self.faults);
        (means.clone(), written.get("source").cloned())
    }

    fn edit_term(
        &mut self,
        (written, when): (&Entry, Option<&Node>),
        key: &str,
        target: &Node,
        file: usize,
    ) {
        self.edit_keys(&written.value, &grammar::TERM_EDIT);
        if target.text() != Some(written.key.as_str()) {
            self.fault(
                Code::OtherName,
                target.span,
                format!(
                    "The term here is `{}`; the edit names another.",
                    written.key
                ),
            )
            .help(format!("Write `{key}: {}`.", written.key));
            return;
        }
        let Some(place) = self
            .terms
            .iter()
            .position(|term| term.name == written.key && term.file != file)
        else {
            self.fault(
                Code::UnknownTerm,
                target.span,
                format!(
                    "No file that this one builds on has a term `{}`.",
                    written.key
                ),
            );
            return;
        };
        self.term_not_compared(&written.key, target.span);
        if let (Some(when), true) = (when, key == "withdraws") {
            self.fault(
                Code::EditWhen,
                when.span,
                "A term cannot be withdrawn under a condition: nothing would say what it means elsewhere.",
            )
            .help("Write `replaces`, and with `with` what it means where the condition holds.");
            return;
        }
        match (key, written.value.get("with")) {
            ("withdraws", _) => {
                self.terms.remove(place);
            }
            (_, Some(with)) => self.replace_term(place, (written, when), with, file),
            _ => {
                self.fault(
                    Code::MissingKey,
                    target.span,
                    "`replaces` needs the key `with`, which is not written.",
                );
            }
        }
    }

    fn replace_term(
        &mut self,
        place: usize,
        (written, when): (&Entry, Option<&Node>),
        with: &Node,
        file: usize,
    ) {
        let (with, source) = self.meaning(with);
        let Some(term) = self.terms.get_mut(place) else {
            return;
        };
        term.node = match when {
            Some(when) => either(when, &with, &term.node, written.value.span),
            None => with,
        };
        term.source = source;
        term.name_span = written.key_span;
        term.file = file;
    }

    /// A term may be in rules that a base lets be changed one way only; which way this goes is not found out. For a minimum it
    /// is refused, as it could lower it.
    fn term_not_compared(&mut self, name: &str, span: Span) {
        if self.is_in_any(Changes::Minimum, name) {
            self.fault(Code::Laxer, span, format!("`{name}` is in a rule that the base says is a minimum, and another meaning could lower it."))
                .help("Leave the term as it is, and write a rule of your own that `tightens` the base's.");
        } else if self.is_in_any(Changes::Ceiling, name) {
            self.warnings
                .add(Code::NotCompared, span, format!("`{name}` is in a rule that the base says is the most that may be asked, and this is not compared."))
                .help("See for yourself that it keeps within that.");
        }
    }

    /// Whether any rule that the base allows to be changed in this way uses a term.
    fn is_in_any(&self, changes: Changes, name: &str) -> bool {
        let limited = (0..self.rules.len()).filter(|place| self.changes(*place) == changes);
        let mut rules = limited.filter_map(|place| self.rules.get(place));
        rules.any(|item| !work::is_spent() && says(&item.node, name))
    }
}

/// A table with two rows: one where the condition holds, one elsewhere.
pub(super) fn either(when: &Node, then: &Node, otherwise: &Node, span: Span) -> Node {
    let map = |entries| Node {
        span,
        content: Content::Map(entries),
    };
    let holds = map(vec![
        entry("when", when.clone()),
        entry("then", then.clone()),
    ]);
    let elsewhere = map(vec![entry("otherwise", otherwise.clone())]);
    let rows = Node {
        span,
        content: Content::List(vec![holds, elsewhere]),
    };
    map(vec![entry("table", map(vec![entry("rows", rows)]))])
}

/// Whether a name stands somewhere in a rule, alone or before a dot.
fn says(node: &Node, name: &str) -> bool {
    work::step(1);
    match &node.content {
        Content::Scalar { text, .. } => text.split('.').next() == Some(name),
        Content::List(items) => items.iter().any(|item| says(item, name)),
        Content::Map(entries) => entries.iter().any(|entry| says(&entry.value, name)),
        Content::Empty => false,
    }
}
