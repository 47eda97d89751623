//! Defined terms, resolved in whatever order they are used.

use std::collections::BTreeSet;
use std::sync::Arc;

use super::known::{Known, Slot, State};
use super::looks_like::{Sort, sort_of, takes_of};
use crate::faults::Code;
use crate::ruleset::lint::unused;
use crate::ruleset::read::layers::TermItem;
use crate::ruleset::read::names::{head_of, parts};
use crate::ruleset::read::{Around, Bound, Reader};
use crate::ruleset::{RuleSet, Scope, Term, TermUse, Value, types};
use crate::text::{Content, Node, Span, in_short};
use crate::vocabulary::KindId;

/// Terms may stand on each other so deep: more is a slip, and would be slow to judge.
pub(crate) const DEEPEST: usize = 16;

impl<'a> Reader<'a> {
    /// Notes the names of all terms, before any is read.
    pub(crate) fn collect_terms(&mut self) {
        for (file, place) in self.files.iter().zip(0..) {
            let Some(terms) = file.node.get("terms") else {
                continue;
            };
            if terms.as_map().is_none() && !terms.is_empty() {
                self.file = place;
                self.fault(
                    Code::NotAMap,
                    terms.span,
                    "Terms are written as `name: what it stands for`, one on each line.",
                )
                .help(match terms.text().and_then(|text| text.split_once(' ')) {
                    Some((name, rest)) => format!("Put a `:` after the name: `{name}: {rest}`."),
                    None if terms.as_list().is_some() => "Take out the hyphens before them.".to_owned(),
                    None => "Where there are none, leave `terms` out; else write each below it, as in `side-distance: 3 m`.".to_owned(),
                });
            }
        }
        for item in &self.merged.terms {
            self.collect_term(item);
        }
        self.file = 0;
    }

    fn collect_term(&mut self, item: &'a TermItem) {
        let (name, span) = (item.name.as_str(), item.name_span);
        if !self.check_id(name, span) {
            return;
        }
        if self.vocabulary.kind_named(name).is_some() {
            self.fault(
                Code::NameTaken,
                span,
                format!("`{name}` is a kind of thing already, so it cannot be a term."),
            )
            .help("Give the term another name.");
        } else if self.term_by_name.contains_key(name) {
            self.fault(
                Code::DuplicateId,
                span,
                format!("A file that this one builds on has a term `{name}` already."),
            )
            .help(format!(
                "To put this in its place, write `{name}: {{replaces: {name}, with: …}}`."
            ));
        } else {
            self.term_by_name.insert(name, self.terms.len());
            self.terms.push(Slot {
                item,
                state: State::Waiting,
                used: false,
                of: None,
                about_pool: false,
                loose: BTreeSet::new(),
                bare_pool: false,
            });
        }
    }

    /// What a term stands for: `None` after a fault in it, `Some(None)` if there is no such term.
    pub(crate) fn term(&mut self, name: &str, span: Span) -> Option<Option<Known>> {
        let Some(&place) = self.term_by_name.get(name) else {
            return Some(None);
        };
        let slot = self.terms.get_mut(place)?;
        slot.used = true;
        match &slot.state {
            State::Read(known) => {
                let known = known.clone();
                return self.used(known, place, span).map(Some);
            }
            State::Faulty => return None,
            State::Waiting => {}
            State::Reading => {
                self.fault(
                    Code::TermCycle,
                    span,
                    format!("The term `{name}` is defined by itself."),
                )
                .help(format!(
                    "Write what `{name}` stands for, such as `pool.water` or `3 m`."
                ));
                return None;
            }
        }
        if self.around.terms_deep >= DEEPEST {
            self.fault(
                Code::TermsTooDeep,
                span,
                format!("More than {DEEPEST} terms stand on each other here."),
            );
            return None;
        }
        let known = self.resolve(place)?;
        self.used(known, place, span).map(Some)
    }

    /// A term where it is used: one that speaks of one thing must be used of one.
    fn used(&mut self, known: Known, place: usize, span: Span) -> Option<Known> {
        let slot = self.terms.get(place)?;
        let (name, of) = (slot.item.name.as_str(), slot.of);
        let scope = Scope {
            of,
            about_pool: slot.about_pool,
        };
        let bare_pool = slot.bare_pool && matches!(known, Known::Outlines(_));
        let bound = |kind: &KindId| self.around.bound.iter().any(|bound| bound.kind == *kind);
        if let Some(kind) = of.filter(|of| !bound(of)) {
            self.of_none(name, kind, place, span);
            return None;
        }
        if let Some(kind) = slot.loose.iter().copied().find(bound) {
            self.say_of(name, kind, span);
            return None;
        }
        if self.around.terms_deep > 0 {
            self.loose.extend(slot.loose.iter().copied());
        }
        if scope.about_pool {
            self.speak_of_pool();
        }
        if bare_pool {
            self.bare_pool = Some((name.to_owned(), span));
        }
        Some(known)
    }

    /// A term that speaks of one thing is used where none is meant. A pool is meant in every rule that names one, so there
    /// the term has an `of` too many, which is said once.
    fn of_none(&mut self, name: &str, kind: KindId, place: usize, span: Span) {
        let is_pool = self.pool() == Some(kind);
        let kind = &self.vocabulary.kind(kind).name;
        let message = format!("The term `{name}` speaks of one {kind}, and here none is meant.");
        let help = match is_pool {
            true => format!(
                "A rule that names the pool is judged for each pool anyway: take `of: {kind}` out of the term `{name}`."
            ),
            false => format!("Use it under `each: {kind}`, or in the `where` of such a choice."),
        };
        self.fault(Code::SayEach, span, message).help(help);
        if let Some(slot) = self.terms.get_mut(place).filter(|_| is_pool) {
            slot.state = State::Faulty;
        }
    }

    /// A term that means all things of a kind is used where one of them is meant.
    fn say_of(&mut self, name: &str, kind: KindId, span: Span) {
        let kind = self.vocabulary.kind(kind);
        let (kind, said) = (kind.name.clone(), kind.said.clone());
        let term = self
            .term_by_name
            .get(name)
            .and_then(|place| self.terms.get(*place));
        if let Some(term) = term
            .map(|slot| &slot.item.node)
            .filter(|term| !takes_of(term))
        {
            let help = format!("In place of `{name}` write `{}` here.", in_short(term));
            self.which_one(name, &said, span).help(help);
            return;
        }
        self.which_one(name, &said, span).help(format!(
            "Where the term is defined, add `of: {kind}` if it is meant to be used for one {kind}; if all of them are meant, write `all` there, as in `{{all: {kind}.…}}`."
        ));
    }

    /// A term's name where it is used, and what it depends on.
    pub(crate) fn term_use(&self, name: &str) -> TermUse {
        let slot = self
            .term_by_name
            .get(name)
            .and_then(|place| self.terms.get(*place));
        let scope = slot.map_or(Scope::default(), |slot| Scope {
            of: slot.of,
            about_pool: slot.about_pool,
        });
        TermUse {
            name: name.to_owned(),
            scope,
        }
    }

    /// Reads a term where it is defined, in its own file and with nothing bound around it.
    fn resolve(&mut self, place: usize) -> Option<Known> {
        let slot = self.terms.get_mut(place)?;
        slot.state = State::Reading;
        let item = slot.item;
        let mut inside = Around {
            terms_deep: self.around.terms_deep + 1,
            term: Some(&item.node),
            ..Around::default()
        };
        let of = match takes_of(&item.node) {
            true => self.term_of(&item.node),
            false => None,
        };
        inside
            .bound
            .extend(of.map(|kind| Bound { kind, term: None }));
        inside.term_of = of.map(|_| item.node.span);
        let outside = std::mem::replace(&mut self.around, inside);
        let outer_file = std::mem::replace(&mut self.file, item.file);
        let loose = std::mem::take(&mut self.loose);
        let bare_pool = self.bare_pool.take();
        let stray = self.stray_of(&item.node);
        let (known, about_pool) = self.noting_pool(|reader| match stray {
            true => None,
            false => reader.known(&item.node),
        });
        let loose = std::mem::replace(&mut self.loose, loose);
        let bare_pool = std::mem::replace(&mut self.bare_pool, bare_pool).is_some();
        self.around = outside;
        self.file = outer_file;
        let known = known.map(|known| known.closed(Scope { of, about_pool }));
        let slot = self.terms.get_mut(place)?;
        slot.state = known.clone().map_or(State::Faulty, State::Read);
        slot.about_pool = about_pool;
        slot.loose = loose;
        slot.bare_pool = bare_pool;
        slot.of = of;
        known
    }

    /// Reports `of` in a term for things or for a zone. Returns whether it is there.
    fn stray_of(&mut self, node: &'a Node) -> bool {
        let entries = node.as_map().unwrap_or_default();
        let Some(of) = entries
            .iter()
            .find(|it| it.key == "of")
            .filter(|_| !takes_of(node))
        else {
            return false;
        };
        let rest = entries.iter().filter(|entry| entry.key != "of").cloned();
        let rest = Node {
            content: Content::Map(rest.collect()),
            ..*node
        };
        let message = "A term for things, outlines or a zone takes no `of`.";
        self.fault(Code::SayEach, of.key_span, message).help(format!(
            "Where the term is used, write `{}` in place of its name, with `each: {}` before it.",
            in_short(&rest),
            in_short(&of.value)
        ));
        true
    }

    /// The kind that a term speaks `of`.
    fn term_of(&mut self, node: &'a Node) -> Option<KindId> {
        let of = node.get("of")?;
        let kind = of.text().and_then(|name| self.vocabulary.kind_named(name));
        if kind.is_none() {
            self.fault(
                Code::UnknownKind,
                of.span,
                "A term speaks `of` one kind of thing, and there is no such kind.",
            );
        }
        kind
    }

    /// All terms, in the order of the files.
    pub(crate) fn all_terms(&mut self) -> Vec<Term> {
        let mut terms = Vec::new();
        for place in 0..self.terms.len() {
            let Some(slot) = self.terms.get(place) else {
                continue;
            };
            let item = slot.item;
            let known = match &slot.state {
                State::Waiting => self.resolve(place),
                State::Read(known) => Some(known.clone()),
                _ => None,
            };
            terms.extend(known.map(|known| self.defined(item, &known)));
        }
        self.file = 0;
        terms
    }

    fn defined(&mut self, item: &'a TermItem, known: &Known) -> Term {
        self.file = item.file;
        let cited = item.source.as_ref();
        Term {
            id: item.name.clone(),
            meaning: known.meaning(),
            cited: cited.map_or_else(Vec::new, |source| self.cited_in(source)),
            span: item.name_span,
        }
    }

    /// Says which terms nobody uses.
    pub(crate) fn unused_terms(&mut self, rules: &RuleSet) {
        let unused = self.terms.iter().filter(|slot| !slot.used);
        let unused: Vec<_> = unused
            .map(|slot| (slot.item, self.forgotten(slot, rules)))
            .collect();
        for (item, forgotten) in unused {
            self.warning(
                Code::UnusedTerm,
                item.name_span,
                format!("The term `{}` is never used.", item.name),
            )
            .help(
                forgotten.unwrap_or_else(|| "Take it out, or use its name in a rule.".to_owned()),
            );
        }
    }

    /// Where the things that an unused term names were probably forgotten.
    fn forgotten(&self, slot: &Slot<'a>, rules: &RuleSet) -> Option<String> {
        let State::Read(Known::Things(things)) = &slot.state else {
            return None;
        };
        unused::forgotten(&slot.item.name, things.kind, rules)
    }

    fn known(&mut self, node: &'a Node) -> Option<Known> {
        match sort_of(node) {
            Sort::Name => self.known_by_name(node),
            Sort::Amount | Sort::Value => self.known_value(node),
            Sort::Outlines => self.operand(node).map(Known::Outlines),
            Sort::Things => self.selection(node).map(Known::Things),
            Sort::Zone => Some(Known::Zone(Arc::new(self.zone(node)?))),
            Sort::Not => self.known_not(node),
            Sort::Requirement => Some(Known::Requirement(Arc::new(self.whole_requirement(node)?))),
            Sort::Unclear => {
                self.fault(Code::UnclearTerm, node.span, "It is not clear what this term stands for.").help(
                    "A term is an amount (`3 m`), an outline (`pool.water`), things (`kind` with `where`), a value \
                     (`distance` without a bound), a zone (`around`, `between`, `corner`) or a requirement.",
                );
                None
            }
        }
    }

    fn known_value(&mut self, node: &'a Node) -> Option<Known> {
        let value = self.value(node, None)?;
        Some(self.value_known(value))
    }

    fn value_known(&self, value: Value) -> Known {
        let sort = types::Sort::of(&value, &self.vocabulary);
        Known::Value(Arc::new(value), sort)
    }

    fn known_by_name(&mut self, node: &'a Node) -> Option<Known> {
        let name = node.text()?;
        let (head, Some(tail)) = parts(name) else {
            if let Some(fact) = self.short_fact(name) {
                return Some(self.value_known(Value::Fact(fact)));
            }
            if let Some(known) = self.term(name, node.span)? {
                return Some(known);
            }
            return self.selection(node).map(Known::Things);
        };
        let at = head_of(name, node.span);
        let (things, _) = self.noting_pool(|reader| reader.things(head, at));
        let kind = things?.kind();
        if self.vocabulary.fact_named(kind, tail).is_some() {
            return self.known_value(node);
        }
        self.operand(node).map(Known::Outlines)
    }

    /// `not` stands before a zone and before a requirement.
    fn known_not(&mut self, node: &'a Node) -> Option<Known> {
        let inner = node.get("not")?;
        let by_name = inner.text().is_some();
        if by_name || matches!(sort_of(inner), Sort::Zone | Sort::Outlines | Sort::Things) {
            return Some(Known::Zone(Arc::new(self.zone(node)?)));
        }
        Some(Known::Requirement(Arc::new(self.whole_requirement(node)?)))
    }
}
