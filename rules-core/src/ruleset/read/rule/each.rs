//! Selections: which things are meant.

use std::sync::Arc;

use crate::faults::Code;
use crate::grammar::{self, words};
use crate::ruleset::read::names::{Things, all_of, parts};
use crate::ruleset::read::value::flipped;
use crate::ruleset::read::{Bound, Reader};
use crate::ruleset::{Each, IfNone, Requirement, Scope, Selection, TermUse};
use crate::text::{Entry, MapReader, Node, Span, in_short};
use crate::vocabulary::{KindId, Number};

/// In the order of their words.
const IF_NONE: [IfNone; 3] = [IfNone::Passes, IfNone::Fails, IfNone::Refer];

/// What is written after each of the keys by which things are chosen: `part-of`, `where`, `in` and `if-none`.
pub(crate) type Choosing<'a> = [Option<&'a Entry>; 4];

impl<'a> Reader<'a> {
    /// Things: a kind, a term, or `{kind, part-of, where, in, if-none}`.
    pub(crate) fn selection(&mut self, node: &'a Node) -> Option<Selection> {
        self.selection_and_term(node)
            .map(|(selection, _)| selection)
    }

    /// The things, and the term by which they were named, which stands for one of them where they are bound.
    fn selection_and_term(&mut self, node: &'a Node) -> Option<(Selection, Option<&'a str>)> {
        if node.as_map().is_none() {
            return self.named_selection(node);
        }
        self.within_inside(node);
        let [kind, choosing @ ..] = self.keys(node, &grammar::CHOSEN)?;
        self.selected(node.span, kind, choosing)
    }

    /// Reports `within` in a choice of things: what is within a distance is a zone.
    fn within_inside(&mut self, node: &Node) {
        let mut entries = node.as_map().unwrap_or_default().iter();
        let Some(entry) = entries.find(|entry| entry.key == "within") else {
            return;
        };
        let by = in_short(&entry.value);
        self.fault(
            Code::WrongWord,
            entry.key_span,
            "`within` is not a key of a choice of things.",
        )
        .because_of(entry.key_span)
        .help(format!(
            "Write `in: {{around: …, by: {by}}}`, with the outline round which it is."
        ));
    }

    fn named_selection(&mut self, node: &'a Node) -> Option<(Selection, Option<&'a str>)> {
        let name = self.name_of_things(node)?;
        self.whole(name, node)
    }

    /// The name of a kind or of a term, without a dot.
    fn name_of_things(&mut self, node: &'a Node) -> Option<&'a str> {
        let Some(name) = node.text() else {
            let message = format!("A kind of thing is expected here, not {}.", node.describe());
            self.fault(Code::NotThings, node.span, message)
                .help("Name one kind, or a term for things of one kind. For several kinds, write one rule for each.");
            return None;
        };
        let (head, tail) = parts(name);
        if tail.is_some() {
            let message = format!("`{name}` names a part; a kind of thing is expected here.");
            self.fault(Code::NotThings, node.span, message)
                .help(format!("Write `{head}`."));
            return None;
        }
        Some(head)
    }

    /// The kind of the one thing of which the things chosen must be part.
    fn part_of(&mut self, node: &'a Node) -> Option<KindId> {
        let name = self.name_of_things(node)?;
        match self.things(name, node.span)? {
            Things::Bound(kind) => Some(kind),
            Things::All(selection) => {
                let kind = self.vocabulary.kind(selection.kind);
                let only = kind.number != Number::Many && selection.is_all();
                if !only {
                    self.say_whose(name, selection.kind, node.span);
                }
                only.then_some(selection.kind)
            }
        }
    }

    /// All things of a name, even where one of them is bound.
    fn whole(&mut self, name: &'a str, node: &Node) -> Option<(Selection, Option<&'a str>)> {
        if let Some(kind) = self.vocabulary.kind_named(name) {
            if self.pool() != Some(kind) && !self.around.one_by_one {
                self.speak_of(kind);
            }
            return Some((all_of(kind), None));
        }
        // A bound term means the one thing; what is selected here is all of them.
        let bound = std::mem::take(&mut self.around.bound);
        let things = self.things(name, node.span);
        self.around.bound = bound;
        match things? {
            Things::All(selection) => {
                let term = Some(name.to_owned());
                Some((Selection { term, ..selection }, Some(name)))
            }
            Things::Bound(kind) => Some((all_of(kind), None)),
        }
    }

    /// The things that a map chooses: after `kind` or `each`, narrowed by `part-of`, `where`, `in` and `if-none`.
    pub(crate) fn selected(
        &mut self,
        span: Span,
        base: Option<&'a Entry>,
        [whole, filter, zone, if_none]: Choosing<'a>,
    ) -> Option<(Selection, Option<&'a str>)> {
        let base = base.and_then(|entry| match entry.value.text() {
            Some(name) if entry.key == "kind" => self.whole(parts(name).0, &entry.value),
            Some(_) => self.named_selection(&entry.value),
            None => self.selection_and_term(&entry.value),
        });
        let one_by_one = std::mem::take(&mut self.around.one_by_one);
        let (base, term) = base?;
        let kind = base.kind;
        // Each cover is judged by itself; only `if-none` is asked for each pool.
        if one_by_one && if_none.is_some() && self.pool() != Some(kind) {
            self.speak_of(kind);
        }
        let whole = self.if_written(whole, Self::part_of);
        let zone = self.if_written(zone, Self::zone);
        let filter = self.if_written(filter, |reader, node| reader.filter(node, kind, term));
        let if_none = if_none.map(|entry| self.word_of(entry, words(&grammar::IF_NONE), IF_NONE));
        let (whole, filter, zone) = (whole?, filter?, zone?);
        let if_none = flipped(if_none)?;
        let twice = [
            ("in", base.zone.is_some() && zone.is_some()),
            ("part-of", base.part_of.is_some() && whole.is_some()),
        ];
        if let Some((key, _)) = twice.into_iter().find(|(_, twice)| *twice) {
            let message = format!(
                "These things are chosen by `{key}` twice, here and where the term is defined."
            );
            self.fault(Code::TwoZones, span, message)
                .help("Define another term.");
            return None;
        }
        let narrowed = whole.is_some() || filter.is_some() || zone.is_some();
        let chosen = match (filter, narrowed) {
            (Some(filter), _) => Some(Arc::new(match chosen_by(&base) {
                Some(chosen) => Requirement::All(vec![chosen, filter]),
                None => filter,
            })),
            (None, true) => chosen_by(&base).map(Arc::new),
            (None, false) => base.filter,
        };
        let selection = Selection {
            term: base.term.filter(|_| !narrowed),
            closed: base.closed.filter(|_| !narrowed),
            kind,
            part_of: whole.or(base.part_of),
            filter: chosen,
            zone: zone.map(Arc::new).or(base.zone),
            if_none: if_none.or(base.if_none),
        };
        Some((selection, term))
    }

    fn filter(
        &mut self,
        node: &'a Node,
        kind: KindId,
        term: Option<&'a str>,
    ) -> Option<Requirement> {
        self.with_bound(kind, term, |reader| reader.whole_requirement(node))
    }

    /// Reads something in which the kind's name stands for one thing.
    pub(crate) fn with_bound<T>(
        &mut self,
        kind: KindId,
        term: Option<&'a str>,
        read: impl FnOnce(&mut Self) -> T,
    ) -> T {
        let when_of = self.around.when_of.take();
        self.around.bound.push(Bound { kind, term });
        let result = read(self);
        self.around.bound.pop();
        self.around.when_of = when_of;
        result
    }

    /// `each` inside a requirement.
    pub(crate) fn nested_each(&mut self, map: &mut MapReader<'a>) -> Option<Requirement> {
        let [each] = map.keys(&[grammar::EACH], self.faults());
        let choosing = map.keys(&grammar::CHOOSING, self.faults());
        let [require] = map.keys(&[grammar::REQUIRE], self.faults());
        let selected = self.selected(map.span(), each, choosing);
        let (selection, term) = selected?;
        let unsaid = selection.if_none.is_none() && !map.misspells(["if-none"]);
        if self.around.combined && unsaid {
            self.say_if_none(map);
        }
        let require = require.and_then(|entry| {
            self.with_bound(selection.kind, term, |reader| {
                reader.requirement(&entry.value)
            })
        });
        Some(Requirement::Each(Box::new(Each {
            selection,
            require: require?,
            span: map.span(),
        })))
    }

    fn say_if_none(&mut self, map: &MapReader<'a>) {
        self.fault(Code::IfNoneMissing, map.span(), "What does it mean here if there is none of these?")
            .help("Inside `any-of`, `count` and `not` this must be said: add `if-none: passes`, `if-none: fails` or `if-none: refer`.");
    }
}

/// What things are chosen by already: a term's choice by its name, so that it is judged once for each thing.
fn chosen_by(base: &Selection) -> Option<Requirement> {
    let filter = base.filter.as_ref()?;
    Some(match (&base.term, base.closed) {
        (Some(name), Some(scope)) => Requirement::Meets {
            term: TermUse {
                name: name.clone(),
                scope: Scope {
                    of: Some(base.kind),
                    ..scope
                },
            },
            requirement: Arc::clone(filter),
        },
        _ => (**filter).clone(),
    })
}
