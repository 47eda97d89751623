//! Documents to gather, and cautions.

pub(super) mod duties;

use super::Reader;
use super::layers::Merged;
use crate::faults::Code;
use crate::grammar::{self, OUTCOMES};
use crate::ruleset::read::take::as_short_name;
use crate::ruleset::{
    Caution, Condition, Document, DocumentIndex, Interpretation, OnOutcome, Requirement, RuleSet,
    Selection,
};
use crate::text::{Help, Node, Span, capitalised, closest, meant_or, of_same_words};
use crate::vocabulary::{KindId, Role};

/// When a document is needed.
#[derive(Default)]
struct Needed {
    always: bool,
    when: Vec<Condition>,
    on: Vec<OnOutcome>,
}

impl<'a> Reader<'a> {
    /// Notes the names of a file's documents, in the order in which they are read later.
    pub(super) fn collect_documents(&mut self, node: &'a Node) {
        let documents = node.get("documents").and_then(Node::as_list);
        for item in documents.unwrap_or_default() {
            let Some((id, span)) = item.get("id").and_then(|id| Some((id.text()?, id.span))) else {
                continue;
            };
            if self.documents.contains_key(id) {
                self.duplicate("document", id, span);
                continue;
            }
            let index = self.documents.len();
            self.documents.insert(id, index);
            let each = item
                .get("each")
                .and_then(|each| self.kind_named_by(each, 0));
            self.for_each.extend(each.map(|kind| (index, kind)));
            if item.get("one-for-all").and_then(Node::text) == Some("yes") {
                self.for_all.insert(index);
            }
        }
    }

    /// The kind of the things for each of which there is a document, by its name alone, or by that of a term so many terms
    /// deep; what is wrong with it is said where it is read.
    fn kind_named_by(&self, each: &Node, deep: usize) -> Option<KindId> {
        let name = each.text().or_else(|| each.get("kind")?.text())?;
        let kind = self.vocabulary.kind_named(name);
        kind.or_else(|| {
            let slot = self.terms.get(*self.term_by_name.get(name)?)?;
            (deep < crate::ruleset::read::names::terms::DEEPEST)
                .then(|| self.kind_named_by(&slot.item.node, deep + 1))?
        })
    }

    /// Where there is a document for each of some things, one of them must be meant.
    pub(super) fn for_which(
        &mut self,
        name: &str,
        document: DocumentIndex,
        span: Span,
    ) -> Option<()> {
        let Some(kind) = self.for_each.get(&document).copied() else {
            self.one_for_all(name, document, span);
            return Some(());
        };
        if self.around.bound.iter().any(|bound| bound.kind == kind) {
            return Some(());
        }
        let each = self.each_of_document(name).unwrap_or_default();
        let kind = self.vocabulary.kind(kind).name.clone();
        let message = format!("There is a document `{name}` for each {kind}: which one is meant?");
        let help = match each.is_empty() || each == kind {
            _ if self.around.when_of.is_some() => self.way_out(name, &kind),
            true => format!(
                "Put `each: {kind}` before it, so that one {kind} is meant. In a term, add `of: {kind}`."
            ),
            false => format!(
                "The document is for each of `{each}`: put `each: {each}` before it. In a term, add `of: {kind}`."
            ),
        };
        self.fault(Code::PaperOfWhich, span, message).help(help);
        None
    }

    /// What to write for a paper of each thing among the conditions of a rule.
    fn way_out(&self, name: &str, kind: &str) -> String {
        format!(
            "A paper is a way out, not a condition: take this out, and write `relief: [{{id: with-{name}, require: {{have: {name}}}}}]` beside `require`, or add its item to the `relief` that is there. If every {kind} must have one before the rule counts at all, write `{{each: {kind}, require: {{have: {name}}}}}`."
        )
    }

    /// The name of the things for each of which there is a document.
    fn each_of_document(&self, id: &str) -> Option<String> {
        let lists = self.files.iter();
        let lists = lists.filter_map(|file| file.node.get("documents")?.as_list());
        let named = |node: &&Node| node.get("id").and_then(Node::text) == Some(id);
        let each = lists.flatten().find(named)?.get("each")?.text()?;
        Some(each.to_owned())
    }

    /// A single document that is asked for beside each of some things: one of them would do for all.
    fn one_for_all(&mut self, name: &str, document: DocumentIndex, span: Span) {
        let pool = self.pool();
        let mut bound = self.around.bound.iter().map(|bound| bound.kind);
        let Some(kind) = bound.find(|kind| Some(*kind) != pool) else {
            return;
        };
        // Asked once for each document.
        if !self.for_all.insert(document) {
            return;
        }
        let kind = self.vocabulary.kind(kind).name.clone();
        let message = format!("One `{name}` is enough here for every {kind} together.");
        self.warning(Code::OneForAll, span, message).help(format!(
            "If each {kind} needs one of its own, add `each: {kind}` to the document; if one is meant, add `one-for-all: yes`."
        ));
    }

    /// The id of the document that has this title.
    fn titled(&self, title: &str) -> Option<String> {
        let lists = self
            .files
            .iter()
            .filter_map(|file| file.node.get("documents")?.as_list());
        let same = |node: &&Node| {
            node.get("title")
                .and_then(Node::text)
                .is_some_and(|it| it.eq_ignore_ascii_case(title))
        };
        let found = lists.flatten().find(same)?;
        Some(found.get("id")?.text()?.to_owned())
    }

    /// The document of that name.
    pub(super) fn document_named(&mut self, name: &str, span: Span) -> Option<DocumentIndex> {
        if let Some(&document) = self.documents.get(name) {
            self.used_documents.insert(document);
            return Some(document);
        }
        let misread = |node: &Node| {
            node.get("documents")
                .is_some_and(|it| it.as_list().is_none())
        };
        if self.files.iter().any(|file| misread(&file.node)) {
            return None; // That they are no list is said there.
        }
        let help = match self.titled(name) {
            Some(id) => Help::near(Some(id), "Name it by its `id`."),
            None => self.document_meant(name),
        };
        let message = format!("There is no document `{name}`.");
        self.fault(Code::UnknownDocument, span, message).help(help);
        None
    }

    /// The document that a name is near to, in its letters or its words; else how to list it.
    fn document_meant(&self, name: &str) -> Help {
        let names = || self.documents.keys().copied();
        match of_same_words(name, names()).filter(|_| closest(name, names()).is_none()) {
            Some(meant) => Help::near(
                Some(meant.to_owned()),
                format!("If it is another: {}", to_list(name)),
            ),
            None => meant_or(name, names(), capitalised(&to_list(name))),
        }
    }

    /// One document.
    pub(super) fn document(&mut self, node: &'a Node) -> Option<Document> {
        let [
            id,
            title,
            from,
            form,
            each,
            part_of,
            filter,
            zone,
            needed,
            discretion,
            one_for_all,
            source,
        ] = self.keys(node, &grammar::DOCUMENT)?;
        let id = self.id(id);
        let [title, from, form] = [title, from, form].map(|text| self.told(text));
        // The things for each of which there is a document of its own.
        self.around.one_by_one = each.is_some();
        let each = each.and_then(|_| self.selected(node.span, each, [part_of, filter, zone, None]));
        let mut when = Needed::default();
        if let Some(entry) = needed {
            self.needed_of(each.as_ref(), &entry.value, &mut when);
            self.used_documents
                .extend(id.and_then(|id| self.documents.get(id)));
        }
        let discretion = self.is_yes(discretion);
        let cited = self.cited(source);
        let one_for_all = self.is_yes(one_for_all);
        Some(Document {
            id: id?.to_owned(),
            title: title?,
            from,
            form,
            each: each.map(|(selection, _)| selection),
            one_for_all,
            always: when.always,
            when: any_of(when.when),
            on: when.on,
            discretion,
            cited,
            span: node.span,
        })
    }

    /// When a document is needed; of one for each thing, for which.
    fn needed_of(
        &mut self,
        each: Option<&(Selection, Option<&'a str>)>,
        node: &'a Node,
        needed: &mut Needed,
    ) {
        match each {
            Some((selection, term)) => {
                self.with_bound(selection.kind, *term, |reader| reader.needed(node, needed));
            }
            None => self.needed(node, needed),
        }
    }

    /// `always`, `{when: …}`, `{rule: …, outcome: […]}`, or a list of these.
    fn needed(&mut self, node: &'a Node, needed: &mut Needed) {
        if let Some(items) = node.as_list() {
            items.iter().for_each(|item| self.needed(item, needed));
        } else if node.text() == Some("always") {
            needed.always = true;
        } else if node.as_map().is_some() {
            self.needed_map(node, needed);
        } else {
            self.fault(
                Code::BadNeeded,
                node.span,
                "This does not say when the document is needed.",
            )
            .help(
                "Write `always`, `{when: …}` with a requirement, or `{rule: …, outcome: [fail]}`.",
            );
        }
    }

    fn needed_map(&mut self, node: &'a Node, needed: &mut Needed) {
        let Some([when, rule, outcome]) = self.keys(node, &grammar::NEED) else {
            return;
        };
        needed.when.extend(self.written(when, Self::condition));
        if rule.or(outcome).is_some() {
            needed.on.extend(self.on_outcome(node));
        }
    }

    fn on_outcome(&mut self, node: &'a Node) -> Option<OnOutcome> {
        let [rule, outcome] =
            ["rule", "outcome"].map(|key| grammar::NEED.must_have(node, key, self.faults()));
        let rule = rule.and_then(|entry| Some((self.text(entry)?, entry.value.span)));
        let outcomes = outcome.map(|entry| self.known_words(&entry.value, &OUTCOMES))?;
        let (rule, span) = rule?;
        self.known_rule(rule, span);
        Some(OnOutcome {
            rule: self.now(rule).to_owned(),
            outcomes,
        })
    }

    /// The rule that came in the place of another.
    fn now(&self, rule: &'a str) -> &'a str {
        let merged: &'a Merged = self.merged;
        merged
            .gone
            .get(rule)
            .and_then(Option::as_deref)
            .unwrap_or(rule)
    }

    /// One caution.
    pub(super) fn caution(&mut self, node: &'a Node) -> Option<Caution> {
        let [id, says, when] = self.keys(node, &grammar::CAUTION)?;
        let id = self.id(id);
        let says = self.told(says);
        let when = self.if_written(when, Self::condition);
        Some(Caution {
            id: id?.to_owned(),
            says: says?,
            when: when?,
            span: node.span,
        })
    }

    /// One interpretation.
    pub(super) fn interpretation(&mut self, node: &'a Node) -> Option<Interpretation> {
        let [id, of, says, by, since, source] = self.keys(node, &grammar::INTERPRETATION)?;
        let id = self.id(id);
        let of = of.map(|entry| self.rules_named(&entry.value));
        let [says, by] = [says, by].map(|text| self.told(text));
        let since = since.and_then(|entry| self.day(entry));
        let cited = self.cited(source);
        Some(Interpretation {
            id: id?.to_owned(),
            of: of?,
            says: says?,
            by: by?,
            since: since?,
            cited,
            span: node.span,
        })
    }

    /// The ids of rules, each as it is called now.
    fn rules_named(&mut self, node: &'a Node) -> Vec<String> {
        let named = self.words(node);
        let known = named.into_iter().map(|(rule, span)| {
            self.known_rule(rule, span);
            self.now(rule).to_owned()
        });
        known.collect()
    }

    fn known_rule(&mut self, rule: &str, span: Span) {
        if self.rule_names.contains(rule) {
            return;
        }
        let names = self.rule_names.iter().copied();
        let help = meant_or(rule, names, "Write the `id` of a rule.");
        self.fault(
            Code::UnknownRule,
            span,
            format!("There is no rule `{rule}`."),
        )
        .help(help);
    }

    /// Says what is defined and never used.
    pub(super) fn report_unused(&mut self, rules: &RuleSet) {
        self.unused_terms(rules);
        self.unused_sources();
        self.base_first(|reader, node| {
            for item in node
                .get("documents")
                .and_then(Node::as_list)
                .unwrap_or_default()
            {
                reader.unused_document(item);
            }
            for item in node
                .get("questions")
                .and_then(Node::as_list)
                .unwrap_or_default()
            {
                reader.unused_question(item);
            }
        });
    }

    fn unused_document(&mut self, item: &'a Node) {
        let Some((id, span)) = item.get("id").and_then(|id| Some((id.text()?, id.span))) else {
            return;
        };
        let used = self
            .documents
            .get(id)
            .is_some_and(|document| self.used_documents.contains(document));
        if !used {
            self.warning(
                Code::UnusedDocument,
                span,
                format!("Nothing calls for the document `{id}`."),
            )
            .help("Name it in a rule's `have` or `documents`, or say when it is `needed`.");
        }
    }

    fn unused_question(&mut self, item: &'a Node) {
        let Some((id, span)) = item.get("id").and_then(|id| Some((id.text()?, id.span))) else {
            return;
        };
        let answers = self.vocabulary.with_role(Role::Answers);
        let fact = answers.and_then(|kind| self.vocabulary.fact_named(kind, id));
        if fact.is_some_and(|fact| !self.used_facts.contains(&fact)) {
            self.warning(
                Code::UnusedQuestion,
                span,
                format!("No rule uses the answer to `{id}`."),
            )
            .help("Take the question out, or name it in a rule as a `fact`.");
        }
    }
}

fn any_of(mut members: Vec<Condition>) -> Option<Condition> {
    if members.len() < 2 {
        return members.pop();
    }
    let about_pool = members.iter().any(|member| member.about_pool);
    let requirements = members.into_iter().map(|member| member.requirement);
    Some(Condition {
        requirement: Requirement::Any(requirements.collect()),
        about_pool,
    })
}

/// How a document is listed of which somebody has written the name or a description.
fn to_list(name: &str) -> String {
    let id = as_short_name(name);
    let here = match id == name {
        true => String::new(),
        false => format!(", and write `{id}` here"),
    };
    let title = capitalised(name);
    format!("add it under `documents`{here}: `{{id: {id}, title: {title}, from: …}}`.")
}
