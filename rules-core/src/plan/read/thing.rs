//! One thing: what it is, where it is, what is stated of it.

use std::collections::{BTreeMap, BTreeSet};

use super::super::{Possible, SourceIndex, Thing};
use super::context::{Context, Stated, guess};
use super::outlines::Written;
use crate::faults::Code;
use crate::grammar::plan::{PLACED, THING};
use crate::text::{Help, MapReader, Node, Span};
use crate::vocabulary::{FactId, KindId, Outline, OutlineId};

/// A thing, and the id of what it is part of as written.
pub(super) struct Pending<'a> {
    pub thing: Thing,
    pub part_of: Option<(&'a str, Span)>,
}

impl<'a> Context<'a> {
    /// The pools: one map, or a list of maps.
    pub fn pools(&mut self, node: &'a Node, kind: KindId) -> Vec<Pending<'a>> {
        match node.as_list() {
            Some(items) => items
                .iter()
                .filter_map(|item| self.thing_of(item, kind))
                .collect(),
            None => self.thing_of(node, kind).into_iter().collect(),
        }
    }

    /// One of `things`.
    pub fn thing(&mut self, node: &'a Node) -> Option<Pending<'a>> {
        let kind = node.get("kind");
        let Some(kind) = kind else {
            THING.must_have(node, "kind", &mut self.faults);
            return None;
        };
        let kind = self.listed_kind(kind)?;
        self.thing_of(node, kind)
    }

    fn listed_kind(&mut self, node: &'a Node) -> Option<KindId> {
        let text = self.scalar("kind", node)?;
        let own_place = match text {
            "pool" => Some("`pool`"),
            "lot-line" => Some("`sides` of the `lot`"),
            _ => None,
        };
        let kind = self.kind("kind", text, node.span)?;
        let row = self.vocabulary.kind(kind);
        if row.is_listed() {
            return Some(kind);
        }
        let place = own_place.map_or_else(|| format!("`{}`", row.plan_key()), str::to_owned);
        let message = format!("`{text}` does not belong under `things`.");
        let help = format!("Write it under {place}.");
        self.faults
            .add(Code::WrongPlace, node.span, message)
            .help(help);
        None
    }

    /// The kind of that name.
    pub fn kind(&mut self, key: &str, name: &str, span: Span) -> Option<KindId> {
        let vocabulary = self.vocabulary;
        let kind = vocabulary.kind_named(name);
        if kind.is_none() {
            let names: Vec<_> = vocabulary.kind_names().collect();
            let called = vocabulary.kind_called(name);
            let called = called.map(|kind| vocabulary.kind(kind).name.clone());
            let help = match called {
                Some(kind) => Help::near(Some(kind), ""),
                None => guess(name, names.into_iter(), "The kinds are"),
            };
            let message = format!("`{name}` is not a kind of thing that `{key}` can name.");
            self.faults.add(Code::UnknownKind, span, message).help(help);
        }
        kind
    }

    fn thing_of(&mut self, node: &'a Node, kind: KindId) -> Option<Pending<'a>> {
        let vocabulary = self.vocabulary;
        let mut map = MapReader::new(node, &vocabulary.kind(kind).said, &mut self.faults)?;
        let [_, id, name, part_of] = map.keys(&THING.keys, &mut self.faults);
        let whereabouts = self.whereabouts(&mut map);
        let (written, lacks) = self.written_outlines(&mut map, kind);
        let facts = self.facts(&mut map, kind);
        map.finish(&mut self.faults);
        let id = id.and_then(|id| self.id("id", &id.value));
        let name = self.name(name);
        let part_of = part_of
            .and_then(|entry| Some((self.scalar("part-of", &entry.value)?, entry.value.span)));
        let (source, accuracy) = whereabouts;
        let outlines = self.figures(
            kind,
            written,
            accuracy.unwrap_or(self.source_accuracy(source)),
        );
        let thing = Thing {
            id: id?.to_owned(),
            name,
            kind,
            part_of: None,
            stands_alone: false,
            source,
            outlines,
            lacks,
            facts,
            span: node.span,
        };
        Some(Pending { thing, part_of })
    }

    /// `source` and `accuracy`.
    pub fn whereabouts(&mut self, map: &mut MapReader<'a>) -> (Option<SourceIndex>, Stated) {
        let [source, accuracy] = map.keys(&PLACED, &mut self.faults);
        (self.source(source), self.accuracy(accuracy))
    }

    /// The outlines of a kind, as far as they are written, and those of which it is written that there is none.
    pub fn written_outlines(
        &mut self,
        map: &mut MapReader<'a>,
        kind: KindId,
    ) -> (Written, BTreeSet<OutlineId>) {
        let vocabulary = self.vocabulary;
        let (mut written, mut lacks) = (Written::new(), BTreeSet::new());
        for &id in &vocabulary.kind(kind).outlines {
            let outline = vocabulary.outline(id);
            let entry = map.take(&outline.name);
            let known = entry.filter(|entry| entry.value.text() != Some("unknown"));
            let none = known.filter(|entry| entry.value.text() == Some("none"));
            if let Some(entry) = none {
                self.may_lack(outline, entry.value.span);
                lacks.insert(id);
            } else if let Some(entry) = known {
                written.insert(id, (self.outline(outline.shape, entry), entry.value.span));
            }
        }
        (written, lacks)
    }

    fn may_lack(&mut self, outline: &Outline, span: Span) {
        if !outline.none {
            self.never_none(&outline.said, span);
        }
    }

    /// The facts of a kind, as far as they are written.
    pub fn facts(&mut self, map: &mut MapReader<'a>, kind: KindId) -> BTreeMap<FactId, Possible> {
        let vocabulary = self.vocabulary;
        let mut facts = BTreeMap::new();
        for &id in &vocabulary.kind(kind).facts {
            let name = vocabulary.fact(id).name.as_str();
            // A line's own `source` and `accuracy` are read with its place.
            let entry = map
                .take(name)
                .filter(|_| !["source", "accuracy"].contains(&name));
            if let Some(possible) = entry.and_then(|entry| self.fact(id, entry)) {
                facts.insert(id, possible);
            }
        }
        facts
    }

    /// A thing of which there is always one: what is stated under its key, or nothing.
    pub fn single(&mut self, kind: KindId, node: Option<&'a Node>) -> Thing {
        let facts = node.and_then(|node| {
            let mut map = MapReader::new(node, &self.vocabulary.kind(kind).said, &mut self.faults)?;
            let facts = self.facts(&mut map, kind);
            map.finish(&mut self.faults);
            Some(facts)
        });
        Thing {
            id: self.vocabulary.kind(kind).name.clone(),
            name: None,
            kind,
            part_of: None,
            stands_alone: false,
            source: None,
            outlines: BTreeMap::new(),
            lacks: BTreeSet::new(),
            facts: facts.unwrap_or_default(),
            span: node.map(|node| node.span).unwrap_or_default(),
        }
    }
}
