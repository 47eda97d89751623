//! Rules and their reliefs.

use std::collections::BTreeSet;

use super::Reader;
use super::layers::CHANGES;
use super::pools::Silent;
use super::values::flipped;
use crate::ruleset::{DocumentIndex, Provenance, Relief, Requirement, Rule, Selection, Strength};
use crate::text::{Entry, MapReader, Node, Span};

const PROVENANCE: [(&str, Provenance); 3] = [
    ("confirmed", Provenance::Confirmed),
    ("from-memory", Provenance::FromMemory),
    ("contradicted", Provenance::Contradicted),
];

impl<'a> Reader<'a> {
    /// Notes all names of a file before anything is read that may use them.
    pub(super) fn collect(&mut self, node: &'a Node) {
        self.collect_documents(node);
        let items = |key| node.get(key).and_then(Node::as_list).unwrap_or_default();
        self.collect_ids(items("decide").iter(), "decision");
        self.collect_ids(items("cautions").iter(), "caution");
        self.duplicate_steps(node);
    }

    /// Notes the names of the rules, also of those that another took the place of.
    pub(super) fn collect_rules(&mut self) {
        let merged = self.merged;
        self.rule_names = self.collect_ids(merged.rules.iter().map(|item| &item.node), "rule");
        self.rule_names
            .extend(merged.gone.keys().map(String::as_str));
    }

    /// Says which ids a list has twice.
    fn collect_ids(
        &mut self,
        items: impl Iterator<Item = &'a Node>,
        what: &str,
    ) -> BTreeSet<&'a str> {
        let mut seen = BTreeSet::new();
        for item in items {
            let Some((id, span)) = item.get("id").and_then(|id| Some((id.text()?, id.span))) else {
                continue;
            };
            if !seen.insert(id) {
                self.duplicate(what, id, span);
            }
        }
        seen
    }

    pub(super) fn duplicate(&mut self, what: &str, id: &str, span: Span) {
        self.fault(
            "duplicate-id",
            span,
            format!("There are two {what}s `{id}`."),
        )
        .help("Give each an id of its own.");
    }

    /// One rule.
    pub(super) fn rule(&mut self, node: &'a Node) -> Option<Rule> {
        let mut map = self.map(node, "a rule")?;
        let id = self.id(&mut map, "id");
        let title = self.need_text(&mut map, "title");
        let clause = self.need_text(&mut map, "clause");
        self.layer_words(&mut map);
        let subject = self.subject(&mut map);
        let judged = self.judged(&mut map, subject.as_ref());
        let remedy = self.take_text(&mut map, "remedy");
        let documents = map
            .take("documents")
            .map_or_else(Vec::new, |entry| self.documents_named(&entry.value));
        let provenance = map
            .take("provenance")
            .map_or(Some(Provenance::Confirmed), |entry| {
                self.one_of(entry, &PROVENANCE)
            });
        let note = self.take_text(&mut map, "note");
        let in_force = map
            .take("in-force")
            .map(|entry| self.in_force(&entry.value));
        self.finish(map);
        let (subject, judged) = self.pool_by_pool(subject?, judged?, self.place(node.span))?;
        Some(Rule {
            id: id?.to_owned(),
            title: title?,
            clause: clause?,
            strength: judged.strength,
            when: subject.when.requirement,
            unless: subject.unless.requirement,
            each: subject.each,
            require: judged.require.requirement?,
            reliefs: judged
                .reliefs
                .into_iter()
                .map(|(relief, _)| relief)
                .collect(),
            remedy,
            documents,
            provenance: provenance?,
            note,
            in_force: flipped(in_force)?,
            layer: self.file,
            span: self.place(node.span),
        })
    }

    /// What says how the rule stands to those of other files; the edits were made before.
    fn layer_words(&mut self, map: &mut MapReader<'a>) {
        map.take("replaces");
        map.take("tightens");
        if let Some(entry) = map.take("changes") {
            self.one_of(entry, &CHANGES);
        }
    }

    /// When the rule applies and to what. `when` is read knowing the subject, of which it may not speak.
    pub(super) fn subject(&mut self, map: &mut MapReader<'a>) -> Option<Subject<'a>> {
        let [when, unless] = ["when", "unless"].map(|key| map.take(key));
        let written = map.take("each");
        let each = if written.is_some() {
            self.selected(map, "each")
        } else {
            None
        };
        self.stray_choice(map, written);
        let silent = if written.is_some() {
            Silent::OneInFacts
        } else {
            Silent::One
        };
        self.around.when_of = each.as_ref().map(|(selection, _)| selection.kind);
        let when = self.condition_of(when, silent);
        let unless = self.condition_of(unless, silent);
        self.around.when_of = None;
        if written.is_some() && each.is_none() {
            // What is said of a thing that nobody knows would only give more faults.
            for key in ["require", "should", "relief"] {
                map.take(key);
            }
            return None;
        }
        let (each, term) = each.map_or((None, None), |(selection, term)| (Some(selection), term));
        Some(Subject {
            when,
            unless,
            each,
            term,
            silent,
        })
    }

    fn condition_of(&mut self, entry: Option<&'a Entry>, silent: Silent) -> Spoken {
        let Some(entry) = entry else {
            return Spoken::default();
        };
        let (requirement, of_pool) =
            self.with_silent(silent, |reader| reader.whole_requirement(&entry.value));
        Spoken {
            requirement,
            of_pool,
        }
    }

    /// Gives a rule that speaks of the pool without naming it in `each` the `each` that was meant.
    fn pool_by_pool(
        &mut self,
        mut subject: Subject<'a>,
        mut judged: Judged,
        span: Span,
    ) -> Option<(Subject<'a>, Judged)> {
        let conditions = subject.when.of_pool || subject.unless.of_pool;
        let reliefs = judged.reliefs.iter().any(|(_, of_pool)| *of_pool);
        if !conditions && !judged.require.of_pool && !reliefs {
            return Some((subject, judged));
        }
        let when = if subject.when.of_pool {
            subject.when.requirement.take()
        } else {
            None
        };
        let unless = if subject.unless.of_pool {
            subject.unless.requirement.take()
        } else {
            None
        };
        let filter = but_not(when, unless);
        if subject.each.is_none() {
            subject.each = Some(self.pools(filter)?);
            return Some((subject, judged));
        }
        if judged.require.of_pool || filter.is_some() {
            judged.require.requirement =
                Some(self.for_each_pool(filter, judged.require.requirement?, span)?);
        }
        for (relief, of_pool) in &mut judged.reliefs {
            if *of_pool {
                let whole = match relief.when.take() {
                    Some(when) => Requirement::All(vec![when, relief.require.clone()]),
                    None => relief.require.clone(),
                };
                relief.require = self.for_each_pool(None, whole, relief.span)?;
            }
        }
        Some((subject, judged))
    }

    /// `where`, `in` and `if-none` choose among what `each` names.
    fn stray_choice(&mut self, map: &mut MapReader<'a>, each: Option<&'a Entry>) {
        for key in ["where", "in", "if-none"] {
            if let (Some(entry), None) = (map.take(key), each) {
                self.fault(
                    "no-each",
                    entry.key_span,
                    format!("`{key}` chooses among things, and no `each` says which."),
                )
                .help("Add `each:` with a kind, or write `when:` for a condition on the plan.");
            }
        }
    }

    fn judged(&mut self, map: &mut MapReader<'a>, subject: Option<&Subject<'a>>) -> Option<Judged> {
        let should = map.take("should");
        let written = map.take("strength");
        let relief = map.take("relief");
        let subject = subject?;
        let require = if should.is_some() {
            map.take("require")
        } else {
            self.need(map, "require")
        };
        if let (Some(should), Some(_)) = (should, require) {
            self.fault(
                "two-requirements",
                should.key_span,
                "A rule has `require` or `should`, not both.",
            );
        }
        let words = [("must", Strength::Must), ("should", Strength::Should)];
        let strength = match written {
            Some(entry) => self.one_of(entry, &words),
            None if should.is_some() => Some(Strength::Should),
            None => Some(Strength::Must),
        };
        let read = |reader: &mut Self| {
            let require = reader.condition_of(should.or(require), subject.silent);
            let reliefs = relief.map_or_else(Vec::new, |entry| {
                reader.reliefs(&entry.value, subject.silent)
            });
            (require, reliefs)
        };
        let (require, reliefs) = match &subject.each {
            Some(each) => self.with_bound(each.kind, subject.term, read),
            None => read(self),
        };
        Some(Judged {
            strength: strength?,
            require,
            reliefs,
        })
    }

    fn reliefs(&mut self, node: &'a Node, silent: Silent) -> Vec<(Relief, bool)> {
        let mut ids = BTreeSet::new();
        let mut reliefs = Vec::new();
        for item in self.items(node, "relief") {
            if let Some((id, span)) = item.get("id").and_then(|id| Some((id.text()?, id.span)))
                && !ids.insert(id)
            {
                self.duplicate("relief", id, span);
            }
            let (relief, of_pool) = self.with_silent(silent, |reader| reader.relief(item));
            reliefs.extend(relief.map(|relief| (relief, of_pool)));
        }
        reliefs
    }

    fn relief(&mut self, node: &'a Node) -> Option<Relief> {
        let mut map = self.map(node, "a relief")?;
        let id = self.id(&mut map, "id");
        let [when, unless] = ["when", "unless"].map(|key| map.take(key));
        let when = when.map(|entry| self.whole_requirement(&entry.value));
        let unless = unless.map(|entry| self.whole_requirement(&entry.value));
        let require = self
            .need(&mut map, "require")
            .and_then(|entry| self.whole_requirement(&entry.value));
        let leave = self.take_yes_no(&mut map, "leave");
        self.finish(map);
        Some(Relief {
            id: id?.to_owned(),
            when: but_not(flipped(when)?, flipped(unless)?),
            require: require?,
            leave,
            span: self.place(node.span),
        })
    }

    fn documents_named(&mut self, node: &'a Node) -> Vec<DocumentIndex> {
        let words = self.words(node);
        words
            .into_iter()
            .filter_map(|(name, span)| self.document_named(name, span))
            .collect()
    }
}

/// When a rule applies, and to what.
pub(super) struct Subject<'a> {
    pub when: Spoken,
    pub unless: Spoken,
    pub each: Option<Selection>,
    /// The term that names the things.
    pub term: Option<&'a str>,
    /// What the name of a pool stands for in the rule.
    pub silent: Silent,
}

/// What a rule requires.
struct Judged {
    strength: Strength,
    require: Spoken,
    /// Each with whether it speaks of a pool that no `each` names.
    reliefs: Vec<(Relief, bool)>,
}

/// A requirement, and whether it speaks of a pool that no `each` names.
#[derive(Default)]
pub(super) struct Spoken {
    requirement: Option<Requirement>,
    of_pool: bool,
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
