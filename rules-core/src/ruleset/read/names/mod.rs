//! What a name stands for: a kind, an outline, a fact, a defined term.

pub(super) mod like;
pub(super) mod own;
pub(super) mod terms;

use super::{Reader, listed};
use crate::faults::Code;
use crate::ruleset::Selection;
use crate::text::{Fault, Help, Span, closest, meant_or};
use crate::vocabulary::{FactId, KindId, Number, OutlineId};

use crate::ruleset::read::names::terms::Known;

/// What the first part of a name stands for.
#[derive(Debug, Clone)]
pub(super) enum Things {
    /// The one under `each`, or of which a `where` speaks.
    Bound(KindId),
    /// All of a kind, or of a term.
    All(Selection),
}

impl Things {
    pub(super) fn kind(&self) -> KindId {
        match self {
            Self::Bound(kind) => *kind,
            Self::All(selection) => selection.kind,
        }
    }
}

/// All things of a kind.
pub(super) fn all_of(kind: KindId) -> Selection {
    Selection {
        term: None,
        kind,
        closed: None,
        filter: None,
        zone: None,
        if_none: None,
    }
}

/// Both parts of `gate.latch-height`; the second is missing in `gate`.
pub(super) fn parts(name: &str) -> (&str, Option<&str>) {
    name.split_once('.')
        .map_or((name, None), |(head, tail)| (head, Some(tail)))
}

impl<'a> Reader<'a> {
    /// The things that a name without a dot stands for; `None` with a fault if for none.
    pub(super) fn things(&mut self, name: &'a str, span: Span) -> Option<Things> {
        if let Some(bound) = self
            .around
            .bound
            .iter()
            .rev()
            .find(|bound| bound.term == Some(name))
        {
            return Some(Things::Bound(bound.kind));
        }
        if let Some(kind) = self.vocabulary.kind_named(name) {
            let bound = self.around.bound.iter().any(|bound| bound.kind == kind);
            if bound || self.pool() == Some(kind) {
                self.speak_of(kind);
                return Some(Things::Bound(kind));
            }
            return Some(Things::All(all_of(kind)));
        }
        match self.term(name, span)? {
            Some(Known::Things(selection)) => Some(Things::All(Selection {
                term: Some(name.to_owned()),
                ..selection
            })),
            Some(other) => {
                let message = format!(
                    "`{name}` is a term that stands for {}, not for things of one kind.",
                    other.said()
                );
                self.fault(Code::NotThings, span, message)
                    .help("Name a kind, or a term that is a `kind` with a `where`.");
                None
            }
            None => {
                self.unknown_kind(name, span);
                None
            }
        }
    }

    /// Notes that one thing of a kind is spoken of: of the pool, where nothing around says which. A term for the parts of
    /// a pool means those of the pool that is meant where it is used.
    pub(super) fn speak_of(&mut self, kind: KindId) {
        let of_a_pool = self.around.terms_deep > 0 && self.vocabulary.kind(kind).of_a_pool;
        if of_a_pool || self.pool() == Some(kind) {
            self.speak_of_pool();
        }
    }

    pub(super) fn unknown_kind(&mut self, name: &str, span: Span) {
        let names = self.kind_and_term_names();
        let names = names.iter().map(String::as_str);
        let help = meant_or(
            name,
            names,
            "A rule set can add a kind of its own under `kinds`.",
        );
        let message = format!("There is no kind of thing and no term `{name}`.");
        self.fault(Code::UnknownKind, span, message).help(help);
    }

    fn kind_and_term_names(&self) -> Vec<String> {
        let kinds = self.vocabulary.kinds().map(|(_, kind)| kind.name.clone());
        kinds
            .chain(self.term_by_name.keys().map(|&name| name.to_owned()))
            .collect()
    }

    /// The fact that a name stands for, whether or not it is clear of which thing.
    fn fact_named(&mut self, name: &'a str, span: Span) -> Option<(FactId, Option<Things>)> {
        let (head, Some(tail)) = parts(name) else {
            return self.question_or_day(name, span).map(|fact| (fact, None));
        };
        let things = self.things(head, span)?;
        let kind = things.kind();
        let Some(fact) = self.vocabulary.fact_named(kind, tail) else {
            self.unknown_fact(kind, head, tail, span);
            return None;
        };
        self.used_facts.insert(fact);
        Some((fact, Some(things)))
    }

    fn unknown_fact(&mut self, kind: KindId, head: &str, tail: &str, span: Span) {
        if self.vocabulary.outline_named(kind, tail).is_some() {
            self.fault(
                Code::NotAFact,
                span,
                format!("`{head}.{tail}` is drawn, it is not a fact that has a value."),
            )
            .help("Measure it: `distance`, `area` or `length`.");
            return;
        }
        let facts = self.fact_names(kind);
        let guess =
            closest(tail, facts.iter().map(String::as_str)).map(|guess| format!("{head}.{guess}"));
        let list = format!(
            "Its facts are {}.",
            listed(facts.iter().map(String::as_str))
        );
        self.fault(
            Code::UnknownFact,
            span,
            format!("`{head}` has no fact `{tail}`."),
        )
        .help(Help::near(guess, list));
    }

    fn fact_names(&self, kind: KindId) -> Vec<String> {
        let facts = &self.vocabulary.kind(kind).facts;
        facts
            .iter()
            .map(|&fact| self.vocabulary.fact(fact).name.clone())
            .collect()
    }

    /// A question of the rule set, or a day on which something happens: the names that need no kind before them.
    fn question_or_day(&mut self, name: &str, span: Span) -> Option<FactId> {
        if let Some(fact) = self.short_fact(name) {
            return Some(fact);
        }
        let short: Vec<_> = self.vocabulary.short_kinds().collect();
        let names: Vec<_> = short
            .iter()
            .flat_map(|&kind| self.fact_names(kind))
            .collect();
        let names = names.iter().map(String::as_str);
        let write = "Write a fact with its kind before it, as in `gate.latch-height`.";
        let help = meant_or(name, names, write);
        let message = format!("There is no question and no day `{name}`.");
        self.fault(Code::UnknownFact, span, message).help(help);
        None
    }

    /// The question or the day of that name.
    pub(super) fn short_fact(&mut self, name: &str) -> Option<FactId> {
        let vocabulary = &self.vocabulary;
        let kinds = vocabulary.short_kinds();
        let fact = kinds
            .filter_map(|kind| vocabulary.fact_named(kind, name))
            .next()?;
        self.used_facts.insert(fact);
        Some(fact)
    }

    /// The fact that a name stands for; a fault where a plan can have several things of its kind and none is bound.
    pub(super) fn fact(&mut self, name: &'a str, span: Span) -> Option<FactId> {
        let (fact, things) = self.fact_named(name, span)?;
        let Some(Things::All(selection)) = things else {
            return Some(fact);
        };
        let kind = self.vocabulary.kind(selection.kind);
        if kind.number != Number::Many && selection.filter.is_none() {
            return Some(fact);
        }
        let (said, kind_name) = (kind.said.clone(), kind.name.clone());
        if self.around.when_of == Some(selection.kind) {
            self.say_where(name, &kind_name, span);
        } else {
            self.say_each(name, &said, &kind_name, span);
        }
        None
    }

    fn say_each(&mut self, name: &str, said: &str, kind: &str, span: Span) {
        let (head, tail) = parts(name);
        let tail = tail.unwrap_or_default();
        let help = match self.around.terms_deep {
            0 => format!(
                "Put `each: {head}` before it, or take one number out of all of them, as in `largest-of: {{kind: {head}, take: {kind}.{tail}}}`."
            ),
            _ => format!("If the term is meant to be used for one {kind}, add `of: {kind}` to it."),
        };
        self.which_one(name, said, span).help(help);
    }

    /// One thing is meant, and a plan can have several.
    pub(super) fn which_one(&mut self, name: &str, said: &str, span: Span) -> &mut Fault {
        let message =
            format!("`{name}` speaks of {said}, and a plan can have several: which one is meant?");
        self.fault(Code::SayEach, span, message)
    }

    fn say_where(&mut self, name: &str, kind: &str, span: Span) {
        self.fault(
            Code::MoveToWhere,
            span,
            format!("`when` speaks of the plan, once; `{name}` is a fact of each {kind}."),
        )
        .help("Move this to `where`.");
    }

    /// The outline that a kind has, if it has just one.
    pub(super) fn only_outline(
        &mut self,
        kind: KindId,
        name: &str,
        span: Span,
    ) -> Option<OutlineId> {
        let outlines = self.vocabulary.kind(kind).outlines.clone();
        if let [only] = outlines[..] {
            return Some(only);
        }
        let names: Vec<_> = outlines
            .iter()
            .map(|&id| format!("{name}.{}", self.vocabulary.outline(id).name))
            .collect();
        if names.is_empty() {
            self.fault(
                Code::NoOutline,
                span,
                format!("`{name}` is not drawn, so nothing can be measured from it."),
            )
            .help("Name something that stands, runs or lies on the plan.");
        } else {
            self.fault(
                Code::WhichOutline,
                span,
                format!("Which outline of `{name}` is meant?"),
            )
            .help(format!(
                "Write one of {}.",
                listed(names.iter().map(String::as_str))
            ));
        }
        None
    }

    /// The outline of that name.
    pub(super) fn outline(
        &mut self,
        kind: KindId,
        (head, tail): (&str, &str),
        span: Span,
    ) -> Option<OutlineId> {
        if let Some(outline) = self.vocabulary.outline_named(kind, tail) {
            return Some(outline);
        }
        if self.vocabulary.fact_named(kind, tail).is_some() {
            self.fault(Code::NotAnOutline, span, format!("`{head}.{tail}` is a fact; it is not drawn, so nothing can be measured from it."))
                .help("Name what is drawn, as in `pool.water`.");
            return None;
        }
        let outlines = self.vocabulary.kind(kind).outlines.iter();
        let names: Vec<_> = outlines
            .map(|&id| self.vocabulary.outline(id).name.clone())
            .collect();
        let guess =
            closest(tail, names.iter().map(String::as_str)).map(|guess| format!("{head}.{guess}"));
        let lead = match names.as_slice() {
            [_] => "Its only outline is",
            _ => "Its outlines are",
        };
        let list = format!("{lead} {}.", listed(names.iter().map(String::as_str)));
        self.fault(
            Code::UnknownOutline,
            span,
            format!("`{head}` has no outline `{tail}`."),
        )
        .help(Help::near(guess, list));
        None
    }
}
