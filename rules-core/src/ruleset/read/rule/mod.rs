//! Rules and their reliefs.

mod bare;
pub(crate) mod bounds;
pub(super) mod decisions;
pub(super) mod each;
mod limits_amiss;
mod misplaced;
mod odd_limits;
pub(super) mod pools;
pub(super) mod requirements;
pub(super) mod stray;
pub(super) mod wording;

use std::collections::BTreeSet;
use std::sync::Arc;

use crate::faults::Code;
use crate::grammar::{self, STRENGTHS, words};
use crate::ruleset::built_in::INSIDE;
use crate::ruleset::read::layers::CHANGES;
use crate::ruleset::read::rule::each::Choosing;
use crate::ruleset::read::rule::pools::but_not;
use crate::ruleset::read::value::flipped;
use crate::ruleset::read::{Reader, WhenOf};
use crate::ruleset::{
    Cited, DocumentIndex, InForce, Provenance, Relief, Requirement, Rule, Selection, Strength,
};
use crate::text::{Entry, Node, Span, capitalised};
use crate::vocabulary::KindId;

impl<'a> Reader<'a> {
    /// Notes all names of a file before anything is read that may use them.
    pub(crate) fn collect(&mut self, node: &'a Node) {
        self.collect_documents(node);
        let items = |key| node.get(key).and_then(Node::as_list).unwrap_or_default();
        self.collect_ids(items("decide").iter(), "decision");
        self.collect_ids(items("cautions").iter(), "caution");
        self.collect_ids(items("interpretations").iter(), "interpretation");
        self.duplicate_steps(node);
    }

    /// Notes the names of the rules, also of those that another took the place of.
    pub(crate) fn collect_rules(&mut self) {
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

    pub(crate) fn duplicate(&mut self, what: &str, id: &str, span: Span) {
        self.fault(
            Code::DuplicateId,
            span,
            format!("There are two {what}s `{id}`."),
        )
        .help("Give each an id of its own.");
    }

    /// One rule.
    pub(crate) fn rule(&mut self, node: &'a Node) -> Option<Rule> {
        let (rule, about_pool) = self.noting_pool(|reader| reader.rule_of(node));
        Some(Rule {
            about_pool,
            ..rule?
        })
    }

    fn rule_of(&mut self, node: &'a Node) -> Option<Rule> {
        self.no_case(node)?;
        self.not_of_a_rule(node);
        let [
            id,
            title,
            clause,
            when,
            unless,
            each,
            part_of,
            filter,
            zone,
            if_none,
            require,
            should,
            strength,
            relief,
            besides @ ..,
            _,
            _,
            changes,
        ] = self.keys(node, &grammar::RULE)?;
        let written_id = id.map_or(node.span, |id| id.value.span);
        let id = self.own_id(id, written_id);
        let [title, clause] = [title, clause].map(|text| self.told(text));
        if let Some(entry) = changes {
            self.word_of(entry, words(&grammar::CHANGES), CHANGES);
        }
        let choosing = [part_of, filter, zone, if_none];
        let subject = self.subject(node.span, [when, unless, each], choosing);
        let outside = require.is_some_and(|require| self.stray_bound(node, require));
        let outside = std::mem::replace(&mut self.around.bound_outside, outside);
        if let (None, Some(each)) = (&subject, each) {
            self.unknown_again(each, node);
        }
        let judged = subject
            .as_ref()
            .and_then(|subject| self.judged(node, subject, [require, should, strength, relief]));
        self.around.bound_outside = outside;
        let besides = self.besides(besides, (id.unwrap_or_default(), written_id));
        let (subject, judged, besides) = (subject?, judged?, besides?);
        Some(Rule {
            id: id?.to_owned(),
            title: title?,
            clause: clause?,
            strength: judged.strength,
            built_in: false,
            when: subject.when,
            unless: subject.unless,
            each: subject.each,
            about_pool: false,
            require: judged.require?,
            reliefs: judged.reliefs,
            remedy: besides.remedy,
            documents: besides.documents,
            provenance: besides.provenance,
            cited: besides.cited,
            again: besides.again,
            note: besides.note,
            in_force: besides.in_force,
            layer: self.file,
            span: node.span,
        })
    }

    /// The id of a rule; the rule that every rule set has keeps its own.
    fn own_id(&mut self, written: Option<&'a Entry>, span: Span) -> Option<&'a str> {
        let id = self.id(written);
        if id == Some(INSIDE) {
            let message = format!("`{INSIDE}` is a rule of every rule set already.");
            self.fault(Code::NameTaken, span, message)
                .help("Give the rule another name.");
        }
        id
    }

    /// What a rule says beyond its requirement.
    fn besides(
        &mut self,
        [remedy, documents, provenance, source, again, note, in_force]: [Option<&'a Entry>; 7],
        id: (&str, Span),
    ) -> Option<Besides> {
        let remedy = self.told(remedy);
        let documents = documents.map_or_else(Vec::new, |entry| self.documents_named(&entry.value));
        let cited = self.cited(source);
        let provenance = self.provenance(provenance, &cited, id);
        let again = again.map(|entry| self.day(entry));
        let note = self.told(note);
        let in_force = self.if_written(in_force, Self::in_force);
        Some(Besides {
            remedy,
            documents,
            provenance: provenance?,
            cited,
            again: flipped(again)?,
            note,
            in_force: in_force?,
        })
    }

    /// When the rule applies and to what. `when` is read knowing the subject, of which it may not speak.
    pub(crate) fn subject(
        &mut self,
        span: Span,
        [when, unless, written]: [Option<&'a Entry>; 3],
        choosing: Choosing<'a>,
    ) -> Option<Subject<'a>> {
        self.around.one_by_one = written.is_some();
        let each = written.and_then(|_| self.selected(span, written, choosing));
        let stray = written.is_none() && self.stray_choice(choosing);
        let kind = each.as_ref().map(|(selection, _)| selection.kind);
        let ((when, unless), about_pool) = self.noting_pool(|reader| {
            [when, unless]
                .map(|entry| entry.and_then(|entry| reader.condition_of(entry, kind)))
                .into()
        });
        if stray || written.is_some() && each.is_none() {
            // What is said of a thing that nobody knows would only give more faults.
            return None;
        }
        let (each, term) = each.map_or((None, None), |(selection, term)| (Some(selection), term));
        let subject = Subject {
            when,
            unless,
            each,
            term,
            about_pool,
        };
        Some(self.of_each_pool(subject))
    }

    /// The `when` or `unless` of a rule for each thing of a kind, of which it may not speak.
    fn condition_of(&mut self, entry: &'a Entry, kind: Option<KindId>) -> Option<Requirement> {
        self.around.when_of = kind.map(|kind| WhenOf {
            kind,
            written: entry,
        });
        let condition = self.whole_requirement(&entry.value);
        self.around.when_of = None;
        self.asks_every_pool(condition.iter());
        condition
    }

    /// Where a rule is for each pool, what is said of "the pool" in its conditions chooses among them.
    fn of_each_pool(&mut self, mut subject: Subject<'a>) -> Subject<'a> {
        let pool = self.pool();
        let each = subject.each.take();
        let (each, is_pool) = match each {
            Some(each) if Some(each.kind) == pool => (each, true),
            each => {
                self.spoke_of_pool |= subject.about_pool;
                return Subject { each, ..subject };
            }
        };
        let filter = match is_pool && subject.about_pool {
            true => but_not(subject.when.take(), subject.unless.take()),
            false => None,
        };
        let chosen = match (each.filter, filter) {
            (Some(own), Some(filter)) => {
                Some(Arc::new(Requirement::All(vec![(*own).clone(), filter])))
            }
            (own, filter) => own.or(filter.map(Arc::new)),
        };
        Subject {
            each: Some(Selection {
                filter: chosen,
                closed: None,
                ..each
            }),
            about_pool: false,
            ..subject
        }
    }

    fn judged(
        &mut self,
        node: &'a Node,
        subject: &Subject<'a>,
        [require, should, strength, relief]: [Option<&'a Entry>; 4],
    ) -> Option<Judged> {
        let require = match should {
            Some(_) => require,
            None if require.is_none() && self.stray_requirement(node) => None,
            None => grammar::RULE.must_have(node, "require", self.faults()),
        };
        if let (Some(should), Some(_)) = (should, require) {
            self.fault(
                Code::TwoRequirements,
                should.key_span,
                "A rule has `require` or `should`, not both.",
            )
            .help("Keep one: `require` binds, `should` is advice. Two limits are two rules.");
        }
        let strength = match strength {
            Some(entry) => self.word_of(entry, STRENGTHS, [Strength::Must, Strength::Should]),
            None if should.is_some() => Some(Strength::Should),
            None => Some(Strength::Must),
        };
        let read = |reader: &mut Self| {
            let require = should.or(require);
            let require = require.and_then(|entry| reader.whole_requirement(&entry.value));
            let reliefs = relief.map_or_else(Vec::new, |entry| reader.reliefs(&entry.value));
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
        let [id, when, unless, require, leave] = self.keys(node, &grammar::RELIEF_KEYS)?;
        let id = self.id(id);
        let [when, unless] =
            [when, unless].map(|entry| self.if_written(entry, Self::whole_requirement));
        self.asks_every_pool([&when, &unless].into_iter().flatten().flatten());
        let require = self.written(require, Self::whole_requirement);
        let leave = self.is_yes(leave);
        Some(Relief {
            id: id?.to_owned(),
            when: but_not(when?, unless?),
            require: require?,
            leave,
            span: node.span,
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
pub(crate) struct Subject<'a> {
    pub when: Option<Requirement>,
    pub unless: Option<Requirement>,
    pub each: Option<Selection>,
    /// The term that names the things.
    pub term: Option<&'a str>,
    /// Whether its conditions speak of "the pool".
    pub about_pool: bool,
}

/// What a rule requires.
struct Judged {
    strength: Strength,
    require: Option<Requirement>,
    reliefs: Vec<Relief>,
}

/// What a rule says beyond its requirement: see [`Rule`].
struct Besides {
    remedy: Option<String>,
    documents: Vec<DocumentIndex>,
    provenance: Provenance,
    cited: Vec<Cited>,
    again: Option<i128>,
    note: Option<String>,
    in_force: Option<InForce>,
}

/// A short name as words: `permit-route` is `Permit route`.
pub(crate) fn spelled_out(id: &str) -> String {
    capitalised(&id.replace('-', " "))
}
