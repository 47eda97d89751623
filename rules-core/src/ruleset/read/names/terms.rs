//! Defined terms, resolved in whatever order they are used.

use std::collections::BTreeSet;
use std::sync::Arc;

use crate::faults::Code;
use crate::grammar::{Main, main_named};
use crate::ruleset::read::layers::TermItem;
use crate::ruleset::read::names::parts;
use crate::ruleset::read::value::is_amount;
use crate::ruleset::read::value::zones::is_zone;
use crate::ruleset::read::{Around, Bound, Reader};
use crate::ruleset::{
    Meaning, Operand, Requirement, Scope, Selection, Term, TermUse, Value, Which, Zone, types,
};
use crate::text::{Content, Entry, Node, Span};
use crate::vocabulary::KindId;

/// Terms may stand on each other so deep: more is a slip, and would be slow to judge.
pub(crate) const DEEPEST: usize = 16;

/// A term as it is written, and what has become of it.
pub(crate) struct Slot<'a> {
    pub item: &'a TermItem,
    pub state: State,
    pub used: bool,
    /// The kind of the one thing that it speaks of.
    pub of: Option<KindId>,
    /// Whether it speaks of "the pool".
    pub about_pool: bool,
    /// The kinds of which it names an outline of all things without saying so.
    pub loose: BTreeSet<KindId>,
    /// Whether it names an outline of the pool with neither `each` nor `all`.
    pub bare_pool: bool,
}

/// How far the reading of a term has come.
#[derive(Debug, Clone)]
pub(crate) enum State {
    Waiting,
    Reading,
    Read(Known),
    Faulty,
}

/// What a term stands for, ready to be shared.
#[derive(Debug, Clone)]
pub(crate) enum Known {
    Value(Arc<Value>, types::Sort),
    Outlines(Operand),
    Things(Selection),
    Zone(Arc<Zone>),
    Requirement(Arc<Requirement>),
}

impl Known {
    /// What it stands for, in words.
    pub(crate) fn said(&self) -> &'static str {
        match self {
            Self::Value(..) => "a value",
            Self::Outlines(_) => "outlines",
            Self::Things(_) => "things",
            Self::Zone(_) => "a zone",
            Self::Requirement(_) => "a requirement",
        }
    }

    /// The same, where all that it depends on is known.
    fn closed(self, scope: Scope) -> Self {
        match self {
            Self::Things(selection) => Self::Things(closed(selection, scope)),
            Self::Outlines(mut operand) => {
                for part in Arc::make_mut(&mut operand.parts) {
                    if let Which::All(selection) | Which::Meant(selection) = &mut part.which {
                        *selection = closed(selection.clone(), scope);
                    }
                }
                Self::Outlines(operand)
            }
            known => known,
        }
    }

    fn meaning(&self) -> Meaning {
        match self {
            Self::Value(value, _) => Meaning::Value((**value).clone()),
            Self::Outlines(operand) => Meaning::Outlines(operand.clone()),
            Self::Things(selection) => Meaning::Things(selection.clone()),
            Self::Zone(zone) => Meaning::Zone((**zone).clone()),
            Self::Requirement(requirement) => Meaning::Requirement((**requirement).clone()),
        }
    }
}

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
                );
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
                .help("Follow what it stands for from term to term, and break the ring.");
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
            let kind = self.vocabulary.kind(kind).name.clone();
            self.fault(
                Code::SayEach,
                span,
                format!("The term `{name}` speaks of one {kind}, and here none is meant."),
            )
            .help(format!(
                "Use it under `each: {kind}`, or in the `where` of such a choice."
            ));
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

    /// A term that means all things of a kind is used where one of them is meant.
    fn say_of(&mut self, name: &str, kind: KindId, span: Span) {
        let kind = self.vocabulary.kind(kind);
        let (kind, said) = (kind.name.clone(), kind.said.clone());
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
            ..Around::default()
        };
        let of = self.term_of(&item.node);
        inside
            .bound
            .extend(of.map(|kind| Bound { kind, term: None }));
        inside.term_of = of.map(|_| item.node.span);
        let outside = std::mem::replace(&mut self.around, inside);
        let outer_file = std::mem::replace(&mut self.file, item.file);
        let loose = std::mem::take(&mut self.loose);
        let bare_pool = self.bare_pool.take();
        let (known, about_pool) = self.noting_pool(|reader| reader.known(&item.node));
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
            self.file = item.file;
            let cited = item.source.as_ref();
            let cited = cited.map_or_else(Vec::new, |source| self.cited_in(source));
            terms.extend(known.map(|known| Term {
                id: item.name.clone(),
                meaning: known.meaning(),
                cited,
                span: item.name_span,
            }));
        }
        self.file = 0;
        terms
    }

    /// Says which terms nobody uses.
    pub(crate) fn unused_terms(&mut self) {
        let unused: Vec<_> = self
            .terms
            .iter()
            .filter(|slot| !slot.used)
            .map(|slot| slot.item)
            .collect();
        for item in unused {
            self.warning(
                Code::UnusedTerm,
                item.name_span,
                format!("The term `{}` is never used.", item.name),
            )
            .help("Take it out, or use its name in a rule.");
        }
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
        let (things, _) = self.noting_pool(|reader| reader.things(head, node.span));
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

/// What a term looks like before anything in it is resolved.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Sort {
    Name,
    Amount,
    Value,
    Outlines,
    Things,
    Zone,
    Not,
    Requirement,
    Unclear,
}

fn sort_of(node: &Node) -> Sort {
    match &node.content {
        Content::Empty => Sort::Unclear,
        Content::Scalar { text, .. } if is_amount(text) => Sort::Amount,
        Content::Scalar { .. } => Sort::Name,
        Content::List(items) if items.iter().any(|item| sort_of(item) == Sort::Requirement) => {
            Sort::Requirement
        }
        Content::List(_) => Sort::Outlines,
        Content::Map(entries) => sort_of_map(node, entries),
    }
}

fn sort_of_map(node: &Node, entries: &[Entry]) -> Sort {
    let has = |key: &str| entries.iter().any(|entry| entry.key == key);
    if let Some(kind) = node.get("kind") {
        let dotted = kind.text().is_some_and(|text| text.contains('.'));
        return if dotted || has("outline") || has("counted") {
            Sort::Outlines
        } else {
            Sort::Things
        };
    }
    // `{all: pool.water}`: what is asked of each thing has more keys.
    if entries.len() == 1 && (has("all") || has("each")) {
        return Sort::Outlines;
    }
    if entries.iter().any(|entry| is_zone(&entry.key)) {
        return Sort::Zone;
    }
    if has("not") {
        return Sort::Not;
    }
    let bounded = crate::ruleset::read::rule::bounds::is_bounded(entries);
    let listed_count = node
        .get("count")
        .is_some_and(|count| count.as_list().is_some());
    let mains = || entries.iter().filter_map(|entry| main_named(&entry.key));
    let combined = mains().any(|main| matches!(main, Main::Combination(_)));
    if bounded || listed_count || combined {
        return Sort::Requirement;
    }
    match node.get("table") {
        Some(table) => sort_of_table(table),
        None if mains().next().is_some() => Sort::Value,
        None => Sort::Unclear,
    }
}

/// A table gives what its rows give.
fn sort_of_table(table: &Node) -> Sort {
    let rows = table
        .get("rows")
        .and_then(Node::as_list)
        .unwrap_or_default();
    let gives = rows
        .iter()
        .filter_map(|row| row.get("then").or(row.get("otherwise")));
    let requirement = gives
        .map(sort_of)
        .any(|sort| matches!(sort, Sort::Requirement | Sort::Not));
    if requirement {
        Sort::Requirement
    } else {
        Sort::Value
    }
}

/// Things that are chosen by all that a term says.
fn closed(selection: Selection, scope: Scope) -> Selection {
    let closed = Some(selection.closed.unwrap_or(scope));
    Selection {
        closed,
        ..selection
    }
}
