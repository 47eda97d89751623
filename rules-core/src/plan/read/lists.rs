//! What stands beside the things: sources, inventory, tape readings, documents.

use std::collections::BTreeMap;

use super::super::{Answered, DocumentState, Looked, Papers, Source, Taped, Thing, ThingIndex};
use super::context::{Context, guess};
use crate::faults::Code;
use crate::grammar::{plan, words};
use crate::quantity::{Dimension, Interval};
use crate::text::{Entry, Node, Span};
use crate::vocabulary::{KindId, Matter, Number, OutlineId};

/// What to write for a list of names where each needs a value.
fn named_below(entry: &Entry) -> String {
    let state = match entry.key.as_str() {
        "documents" => "in-hand",
        "inventory" => "all-shown",
        _ => "…",
    };
    let names = entry.value.as_list().unwrap_or_default().iter();
    let names: Vec<_> = names
        .filter_map(Node::text)
        .map(|name| format!("{name}: {state}"))
        .collect();
    match names.is_empty() {
        true => format!(
            "Write each name with its value after it, as in `{}: {{…: {state}}}`.",
            entry.key
        ),
        false => format!(
            "Write each name with its value after it: `{}: {{{}}}`.",
            entry.key,
            names.join(", ")
        ),
    }
}

impl<'a> Context<'a> {
    /// The items of a list; anything else is a fault.
    pub fn list(&mut self, entry: Option<&'a Entry>) -> &'a [Node] {
        let Some(entry) = entry.filter(|entry| !entry.value.is_empty()) else {
            return &[];
        };
        entry.value.as_list().unwrap_or_else(|| {
            let message = format!("`{}` needs a list.", entry.key);
            self.faults
                .add(Code::NotAList, entry.value.span, message)
                .help("Begin each item with a hyphen on its own line.");
            &[]
        })
    }

    fn map(&mut self, entry: Option<&'a Entry>) -> &'a [Entry] {
        let Some(entry) = entry.filter(|entry| !entry.value.is_empty()) else {
            return &[];
        };
        entry.value.as_map().unwrap_or_else(|| {
            let message = format!("`{}` needs keys with values.", entry.key);
            let help = named_below(entry);
            self.faults
                .add(Code::NotAMap, entry.value.span, message)
                .help(help);
            &[]
        })
    }

    /// Where positions come from.
    pub fn read_sources(&mut self, entry: Option<&'a Entry>) {
        for node in self.list(entry) {
            let Some((source, id)) = self.one_source(node) else {
                continue;
            };
            if self.sources.iter().any(|other| other.id == source.id) {
                let message = format!("There are two sources `{}`.", source.id);
                self.faults.add(Code::SameId, id.span, message);
            }
            self.sources.push(source);
        }
    }

    fn one_source(&mut self, node: &'a Node) -> Option<(Source, &'a Node)> {
        let [id, by, accuracy, shift] = self.keys(node, &plan::PLAN_SOURCE)?;
        let (accuracy, shift) = (
            self.accuracy(accuracy).flatten(),
            self.accuracy(shift).flatten(),
        );
        let name = id.and_then(|id| self.id("id", &id.value));
        let by = by
            .and_then(|by| self.word("by", &by.value, &words(&plan::SOURCES)))?
            .to_owned();
        let source = Source {
            id: name?.to_owned(),
            by,
            accuracy,
            shift,
        };
        Some((source, &id?.value))
    }

    /// What was looked for. `none` of a kind of which one is drawn is a fault.
    pub fn inventory(
        &mut self,
        entry: Option<&'a Entry>,
        things: &[Thing],
    ) -> BTreeMap<KindId, Looked> {
        let mut inventory = BTreeMap::new();
        for entry in self.map(entry) {
            let Some(kind) = self.kind("inventory", &entry.key, entry.key_span) else {
                continue;
            };
            if self.vocabulary.kind(kind).number == Number::One {
                let message = format!(
                    "There always is one of `{}`, so that it is not part of the inventory.",
                    entry.key
                );
                self.faults.add(Code::AlwaysThere, entry.key_span, message);
            } else if let Some(looked) = self.looked(entry) {
                self.refuse_drawn(kind, &looked, entry, things);
                inventory.insert(kind, looked);
            }
        }
        inventory
    }

    fn looked(&mut self, entry: &'a Entry) -> Option<Looked> {
        if entry.value.as_map().is_none() {
            return match self.word(&entry.key, &entry.value, &words(&plan::LOOKED))? {
                "none" => Some(Looked::None),
                "all-shown" => Some(Looked::AllShown(None)),
                _ => None,
            };
        }
        let [shown] = self.keys(&entry.value, &plan::ALL_SHOWN)?;
        let [within] = self.keys(&shown?.value, &plan::SHOWN)?;
        let within = self.positive("within", &within?.value)?;
        Some(Looked::AllShown(Some(within)))
    }

    fn refuse_drawn(&mut self, kind: KindId, looked: &Looked, entry: &Entry, things: &[Thing]) {
        let drawn = things.iter().find(|thing| thing.kind == kind);
        if let (Looked::None, Some(thing)) = (looked, drawn) {
            let message = format!(
                "The inventory says that there is no `{}`, and `{}` is one.",
                entry.key, thing.id
            );
            self.faults
                .add(Code::NoneButDrawn, entry.value.span, message)
                .help("Write `all-shown`, or take the thing out.");
        }
    }

    /// Tape readings.
    pub fn measured(&mut self, entry: Option<&'a Entry>, things: &[Thing]) -> Vec<Taped> {
        let list = self.list(entry);
        list.iter()
            .filter_map(|node| self.taped(node, things))
            .collect()
    }

    fn taped(&mut self, node: &'a Node, things: &[Thing]) -> Option<Taped> {
        let [from, to, is] = self.keys(node, &plan::TAPE)?;
        let from = from.and_then(|from| self.end_of_tape(from, things));
        let to = to.and_then(|to| self.end_of_tape(to, things));
        let at = is.map_or(node.span, |is| is.value.span);
        let is = is.and_then(|is| self.amount("is", &is.value, Dimension::Length));
        let (from, to, is) = (from?, to?, is?);
        let range = is.range.meet(Interval::from_low(0));
        if range.is_none() {
            let message = "A distance cannot be less than nothing.";
            self.faults.add(Code::NotPositive, at, message);
        }
        Some(Taped {
            from,
            to,
            range: range?,
            drawn: is.drawn,
            span: node.span,
        })
    }

    /// `house.wall`: a thing and one of its outlines; the outline may be left out where there is only one.
    fn end_of_tape(
        &mut self,
        entry: &'a Entry,
        things: &[Thing],
    ) -> Option<(ThingIndex, OutlineId)> {
        let text = self.scalar(&entry.key, &entry.value)?;
        let span = entry.value.span;
        let (id, outline) = text
            .rsplit_once('.')
            .map_or((text, None), |(id, outline)| (id, Some(outline)));
        let found = things.iter().enumerate().find(|(_, thing)| thing.id == id);
        let Some((index, thing)) = found else {
            let help = guess(
                id,
                things.iter().map(|thing| thing.id.as_str()),
                "The things are",
            );
            let message = format!("There is no thing `{id}` in this plan.");
            let follows = self.mentioned.contains(id);
            self.faults_after(follows)
                .add(Code::UnknownThing, span, message)
                .help(help);
            return None;
        };
        let kind = self.vocabulary.kind(thing.kind);
        let outline = match (outline, kind.outlines.as_slice()) {
            (Some(name), _) => self.vocabulary.outline_named(thing.kind, name),
            (None, [only]) => Some(*only),
            (None, _) => None,
        };
        if outline.is_none() {
            let names: Vec<_> = self.vocabulary.outline_names(thing.kind).collect();
            let help = guess(
                text.rsplit_once('.').map_or("", |parts| parts.1),
                names.into_iter(),
                "Its outlines are",
            );
            let message = format!(
                "`{text}` does not say to which outline of {} the tape went.",
                kind.said
            );
            self.faults
                .add(Code::UnknownOutline, span, message)
                .help(help);
        }
        Some((index, outline?))
    }

    /// Where each document stands.
    pub fn documents(
        &mut self,
        entry: Option<&'a Entry>,
        things: &[Thing],
    ) -> BTreeMap<String, Papers> {
        let entries = self.map(entry);
        let read = entries.iter().map(|entry| {
            let papers = match entry.value.as_map() {
                Some(of) => self.papers_of(of, things),
                None => Papers {
                    whole: self.document_state(entry),
                    ..Papers::default()
                },
            };
            let span = entry.value.span;
            (entry.key.clone(), Papers { span, ..papers })
        });
        read.collect()
    }

    /// Where the document for each of some things stands.
    fn papers_of(&mut self, of: &'a [Entry], things: &[Thing]) -> Papers {
        let mut papers = Papers::default();
        for entry in of {
            let state = self.document_state(entry);
            match things.iter().position(|thing| thing.id == entry.key) {
                Some(thing) => papers.of.extend(state.map(|state| (thing, state))),
                None => self.no_such_thing(&entry.key, entry.key_span, things),
            }
        }
        papers
    }

    /// What somebody who knows has said of matters that no rule need hold.
    pub fn answered(&mut self, entry: Option<&'a Entry>) -> BTreeMap<Matter, Answered> {
        let entries = self.map(entry);
        let read = entries.iter().filter_map(|entry| {
            let matter = self.matter(&entry.key, entry.key_span);
            let answered = self.one_answer(entry);
            Some((matter?, answered?))
        });
        read.collect()
    }

    fn matter(&mut self, name: &str, span: Span) -> Option<Matter> {
        let matter = Matter::named(name);
        if matter.is_none() {
            let names = Matter::ALL.iter().map(|matter| matter.id());
            let help = guess(name, names, "The matters are");
            let message = format!("`{name}` is no matter that can be answered here.");
            self.faults
                .add(Code::UnknownMatter, span, message)
                .help(help);
        }
        matter
    }

    fn one_answer(&mut self, entry: &'a Entry) -> Option<Answered> {
        let [by, on, says] = self.keys(&entry.value, &plan::ANSWER_GIVEN)?;
        let by = by.and_then(|by| self.scalar("by", &by.value));
        let on = on.and_then(|on| self.one_day(on));
        let says = says.map(|says| self.scalar("says", &says.value));
        Some(Answered {
            says: says.flatten().map(str::to_owned),
            by: by?.to_owned(),
            on: on?,
            span: entry.key_span,
        })
    }

    fn one_day(&mut self, entry: &'a Entry) -> Option<i128> {
        let day = self.amount(&entry.key, &entry.value, Dimension::Date)?;
        if day.drawn.is_none() {
            let message = format!("After `{}`, one day is expected, not a range.", entry.key);
            self.faults
                .add(Code::NotOneDay, entry.value.span, message)
                .help("Write the day as year-month-day, as in `2026-03-02`.");
        }
        day.drawn
    }

    fn document_state(&mut self, entry: &'a Entry) -> Option<DocumentState> {
        match self.word(&entry.key, &entry.value, &plan::DOCUMENT_STATES)? {
            "in-hand" => Some(DocumentState::InHand),
            "refused" => Some(DocumentState::Refused),
            _ => Some(DocumentState::NotYet),
        }
    }

    fn no_such_thing(&mut self, id: &str, span: Span, things: &[Thing]) {
        let ids = things.iter().map(|thing| thing.id.as_str());
        let help = guess(id, ids, "The things of this plan are");
        let message = format!("There is no thing `{id}` in this plan.");
        let follows = self.mentioned.contains(id);
        self.faults_after(follows)
            .add(Code::UnknownThing, span, message)
            .help(help);
    }
}
