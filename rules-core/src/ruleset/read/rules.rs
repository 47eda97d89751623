//! The head of a rule file, its rules and their reliefs, and its decisions.

use std::collections::BTreeSet;

use super::Reader;
use super::values::flipped;
use crate::quantity::Dimension;
use crate::ruleset::types::{Type, of_fact};
use crate::ruleset::{Decision, DocumentIndex, InForce, Provenance, Relief, Requirement, Rule, Selection, Strength};
use crate::text::{Entry, MapReader, Node, Span};

/// The keys at the top of a rule file.
const TOP: [&str; 16] = [
    "ruleset", "title", "edition", "authority", "notice", "in-force", "builds-on", "kinds", "questions", "terms",
    "rules", "documents", "decide", "do", "cautions", "cases",
];

const PROVENANCE: [(&str, Provenance); 3] = [
    ("confirmed", Provenance::Confirmed),
    ("from-memory", Provenance::FromMemory),
    ("contradicted", Provenance::Contradicted),
];

/// What a rule file says of itself.
pub(super) struct Head {
    pub id: String,
    pub title: String,
    pub edition: String,
    pub authority: String,
    pub notice: Option<String>,
    pub in_force: Option<InForce>,
}

impl<'a> Reader<'a> {
    /// Notes all names of a file before anything is read that may use them.
    pub(super) fn collect(&mut self, node: &'a Node) {
        self.collect_terms(node);
        self.collect_documents(node);
        self.collect_ids(node, "rules", "rule", true);
        self.collect_ids(node, "decide", "decision", false);
        self.collect_ids(node, "cautions", "caution", false);
    }

    /// Says which ids a list has twice.
    fn collect_ids(&mut self, node: &'a Node, key: &str, what: &str, rules: bool) {
        let mut seen = BTreeSet::new();
        for item in node.get(key).and_then(Node::as_list).unwrap_or_default() {
            let Some((id, span)) = item.get("id").and_then(|id| Some((id.text()?, id.span))) else { continue };
            let twice = if rules { !self.rule_names.insert(id) } else { !seen.insert(id) };
            if twice {
                self.duplicate(what, id, span);
            }
        }
    }

    pub(super) fn duplicate(&mut self, what: &str, id: &str, span: Span) {
        self.fault("duplicate-id", span, format!("There are two {what}s `{id}`.")).help("Give each an id of its own.");
    }

    /// What the files say of themselves; the head of the file that was asked for counts.
    pub(super) fn head(&mut self) -> Option<Head> {
        let mut head = None;
        self.base_first(|reader, node| head = reader.head_of(node));
        head
    }

    fn head_of(&mut self, node: &'a Node) -> Option<Head> {
        let mut map = self.map(node, "a rule set")?;
        for key in TOP {
            map.take(key);
        }
        let id = self.id(&mut map, "ruleset");
        let title = self.need_text(&mut map, "title");
        let edition = self.need_text(&mut map, "edition");
        let authority = self.need_text(&mut map, "authority");
        let notice = self.take_text(&mut map, "notice");
        let in_force = map.take("in-force").map(|entry| self.in_force(&entry.value));
        self.finish(map);
        Some(Head {
            id: id?.to_owned(),
            title: title?,
            edition: edition?,
            authority: authority?,
            notice,
            in_force: flipped(in_force)?,
        })
    }

    fn in_force(&mut self, node: &'a Node) -> Option<InForce> {
        let mut map = self.map(node, "a time in force")?;
        let [from, to] = ["from", "to"].map(|key| map.take(key));
        let from = from.map(|entry| self.day(entry));
        let to = to.map(|entry| self.day(entry));
        let by = self.need(&mut map, "by").and_then(|entry| self.fact(self_text(entry)?, entry.value.span));
        self.finish(map);
        let by = by?;
        if of_fact(by, &self.vocabulary) != Type::Amount(Dimension::Date) {
            let path = self.vocabulary.fact_path(by);
            self.fault("not-a-day", node.span, format!("`{path}` is not a day, so it cannot say when this is in force."));
            return None;
        }
        Some(InForce { from: flipped(from)?, to: flipped(to)?, by })
    }

    fn day(&mut self, entry: &'a Entry) -> Option<i128> {
        let text = self.text(entry)?;
        Some(self.stated(text, entry.value.span, Some(Dimension::Date))?.range.low)
    }

    /// One rule.
    pub(super) fn rule(&mut self, node: &'a Node) -> Option<Rule> {
        let mut map = self.map(node, "a rule")?;
        let id = self.id(&mut map, "id");
        let title = self.need_text(&mut map, "title");
        let clause = self.need_text(&mut map, "clause");
        let (when, unless, each) = self.subject(&mut map)?;
        let (strength, require, reliefs) = self.judged(&mut map, each.as_ref());
        let remedy = self.take_text(&mut map, "remedy");
        let documents = map.take("documents").map_or_else(Vec::new, |entry| self.documents_named(&entry.value));
        let provenance = map.take("provenance").map_or(Some(Provenance::Confirmed), |entry| self.one_of(entry, &PROVENANCE));
        let note = self.take_text(&mut map, "note");
        let in_force = map.take("in-force").map(|entry| self.in_force(&entry.value));
        self.finish(map);
        Some(Rule {
            id: id?.to_owned(),
            title: title?,
            clause: clause?,
            strength: strength?,
            when,
            unless,
            each: each.map(|each| each.selection),
            require: require?,
            reliefs,
            remedy,
            documents,
            provenance: provenance?,
            note,
            in_force: flipped(in_force)?,
            layer: self.file,
            span: node.span,
        })
    }

    /// When the rule applies and to what. `when` is read knowing the subject, of which it may not speak.
    #[expect(clippy::type_complexity, reason = "three parts of a rule, taken apart at once by the callers")]
    fn subject(&mut self, map: &mut MapReader<'a>) -> Option<(Option<Requirement>, Option<Requirement>, Option<Subject<'a>>)> {
        let [when, unless] = ["when", "unless"].map(|key| map.take(key));
        let written = map.take("each");
        let each = if written.is_some() { self.selected(map, "each") } else { None };
        self.stray_choice(map, written);
        self.around.when_of = each.as_ref().map(|(selection, _)| selection.kind);
        let when = when.map(|entry| self.whole_requirement(&entry.value));
        let unless = unless.map(|entry| self.whole_requirement(&entry.value));
        self.around.when_of = None;
        if written.is_some() && each.is_none() {
            return Some((None, None, None));
        }
        let each = each.map(|(selection, term)| Subject { selection, term });
        Some((when.flatten(), unless.flatten(), each))
    }

    /// `where`, `in` and `if-none` choose among what `each` names.
    fn stray_choice(&mut self, map: &mut MapReader<'a>, each: Option<&'a Entry>) {
        for key in ["where", "in", "if-none"] {
            if let (Some(entry), None) = (map.take(key), each) {
                self.fault("no-each", entry.key_span, format!("`{key}` chooses among things, and no `each` says which."))
                    .help("Add `each:` with a kind, or write `when:` for a condition on the plan.");
            }
        }
    }

    fn judged(
        &mut self,
        map: &mut MapReader<'a>,
        each: Option<&Subject<'a>>,
    ) -> (Option<Strength>, Option<Requirement>, Vec<Relief>) {
        let should = map.take("should");
        let require = if should.is_some() { map.take("require") } else { self.need(map, "require") };
        if let (Some(should), Some(_)) = (should, require) {
            self.fault("two-requirements", should.key_span, "A rule has `require` or `should`, not both.");
        }
        let words = [("must", Strength::Must), ("should", Strength::Should)];
        let strength = match map.take("strength") {
            Some(entry) => self.one_of(entry, &words),
            None if should.is_some() => Some(Strength::Should),
            None => Some(Strength::Must),
        };
        let relief = map.take("relief");
        let read = |reader: &mut Self| {
            let require = should.or(require).and_then(|entry| reader.whole_requirement(&entry.value));
            let reliefs = relief.map_or_else(Vec::new, |entry| reader.reliefs(&entry.value));
            (require, reliefs)
        };
        let (require, reliefs) = match each {
            Some(each) => self.with_bound(each.selection.kind, each.term, read),
            None => read(self),
        };
        (strength, require, reliefs)
    }

    fn reliefs(&mut self, node: &'a Node) -> Vec<Relief> {
        let mut ids = BTreeSet::new();
        let mut reliefs = Vec::new();
        for item in self.items(node, "relief") {
            if let Some((id, span)) = item.get("id").and_then(|id| Some((id.text()?, id.span)))
                && !ids.insert(id)
            {
                self.duplicate("relief", id, span);
            }
            reliefs.extend(self.relief(item));
        }
        reliefs
    }

    fn relief(&mut self, node: &'a Node) -> Option<Relief> {
        let mut map = self.map(node, "a relief")?;
        let id = self.id(&mut map, "id");
        let [when, unless] = ["when", "unless"].map(|key| map.take(key));
        let when = when.map(|entry| self.whole_requirement(&entry.value));
        let unless = unless.map(|entry| self.whole_requirement(&entry.value));
        let require = self.need(&mut map, "require").and_then(|entry| self.whole_requirement(&entry.value));
        let leave = self.take_yes_no(&mut map, "leave");
        self.finish(map);
        Some(Relief {
            id: id?.to_owned(),
            when: but_not(flipped(when)?, flipped(unless)?),
            require: require?,
            leave,
            span: node.span,
        })
    }

    /// A question whose answer is a class.
    pub(super) fn decision(&mut self, node: &'a Node) -> Option<Decision> {
        let mut map = self.map(node, "a decision")?;
        let id = self.id(&mut map, "id");
        let title = self.take_text(&mut map, "title");
        let clause = self.take_text(&mut map, "clause");
        let written = map.take("each");
        let each = if written.is_some() { self.selected(&mut map, "each") } else { None };
        self.stray_choice(&mut map, written);
        let table = self.need(&mut map, "table");
        let table = table.and_then(|entry| match &each {
            Some((selection, term)) => self.with_bound(selection.kind, *term, |reader| reader.class_table(&entry.value)),
            None => self.class_table(&entry.value),
        });
        self.finish(map);
        let id = id?;
        Some(Decision {
            id: id.to_owned(),
            title: title.unwrap_or_else(|| spelled_out(id)),
            clause,
            each: each.map(|(selection, _)| selection),
            table: table?,
            span: node.span,
        })
    }

    fn documents_named(&mut self, node: &'a Node) -> Vec<DocumentIndex> {
        let words = self.words(node);
        words.into_iter().filter_map(|(name, span)| self.document_named(name, span)).collect()
    }
}

/// What a rule is judged for, and the term that names it.
struct Subject<'a> {
    selection: Selection,
    term: Option<&'a str>,
}

fn self_text(entry: &Entry) -> Option<&str> {
    entry.value.text()
}

/// `when`, and not `unless`.
fn but_not(when: Option<Requirement>, unless: Option<Requirement>) -> Option<Requirement> {
    let not = unless.map(|unless| Requirement::Not(Box::new(unless)));
    match (when, not) {
        (Some(when), Some(not)) => Some(Requirement::All(vec![when, not])),
        (when, not) => when.or(not),
    }
}

/// A short name as words: `permit-route` is `Permit route`.
pub(super) fn spelled_out(id: &str) -> String {
    super::bounds::capital(&id.replace('-', " "))
}
