//! What a name stands for: a kind, an outline, a fact, a defined term.

mod chosen;
pub(super) mod known;
pub(super) mod like;
mod looks_like;
pub(super) mod own;
pub(super) mod terms;
pub(super) mod unknown;
pub(super) mod unknown_facts;

use self::known::Known;
use self::looks_like::takes_of;
use super::{Bound, Reader, listed};
use crate::faults::Code;
use crate::ruleset::Selection;
use crate::ruleset::types::of_fact;
use crate::text::{Entry, Fault, Node, Span, in_short};
use crate::vocabulary::{FactId, KindId, Number, OutlineId};

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
        part_of: None,
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

/// Where the first part of a name stands, unless the name is in quotes.
pub(super) fn head_of(name: &str, span: Span) -> Span {
    let bare = span.end - span.start == name.len();
    span.first(if bare {
        parts(name).0.len()
    } else {
        usize::MAX
    })
}

/// That something is not so.
pub(super) fn is_not(node: &Node) -> String {
    let inner = in_short(node);
    match node.as_list() {
        Some([one]) => format!("{{not: {}}}", in_short(one)),
        Some(_) => format!("{{not: {{all-of: {inner}}}}}"),
        None => format!("{{not: {inner}}}"),
    }
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
            self.speak_of(kind);
            let stands_for_one = self.is_bound(kind) || self.pool() == Some(kind);
            return Some(match stands_for_one {
                true => Things::Bound(kind),
                false => Things::All(all_of(kind)),
            });
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
                let help = match other {
                    Known::Zone(_) => format!(
                        "A zone stands after `in`. The area in it is `area: {{of: lot.boundary, in: {name}}}`; that no pool lies outside it is `{{area: {{of: {{each: pool.water}}, in: {{not: {name}}}}}, at-most: 0 m2}}`."
                    ),
                    _ => "Name a kind, or a term that is a `kind` with a `where`.".to_owned(),
                };
                self.fault(Code::NotThings, span, message).help(help);
                None
            }
            None => {
                self.unknown_kind(name, span);
                None
            }
        }
    }

    /// Whether a kind or a term has this name.
    pub(super) fn is_name(&self, name: &str) -> bool {
        self.vocabulary.kind_named(name).is_some() || self.term_by_name.contains_key(name)
    }

    /// Notes that the pool, or a kind that belongs to one, is named where nothing says which pool. A cover means the
    /// cover of the pool being judged.
    pub(super) fn speak_of(&mut self, kind: KindId) {
        let of_a_pool = self.vocabulary.kind(kind).of_a_pool && !self.is_bound(kind);
        if of_a_pool || self.pool() == Some(kind) {
            self.speak_of_pool();
        }
    }

    fn is_bound(&self, kind: KindId) -> bool {
        self.around.bound.iter().any(|bound| bound.kind == kind)
    }

    /// The fact that a name stands for, whether or not it is clear of which thing.
    fn fact_named(&mut self, name: &'a str, span: Span) -> Option<(FactId, Option<Things>)> {
        let (head, Some(tail)) = parts(name) else {
            return self.question_or_day(name, span).map(|fact| (fact, None));
        };
        let bound = |bound: &Bound| bound.term == Some(head);
        if !self.is_name(head) && !self.around.bound.iter().any(bound) {
            self.unknown_kind_of_fact(head, tail, span);
            return None;
        }
        let things = self.things(head, head_of(name, span))?;
        let kind = things.kind();
        let Some(fact) = self.vocabulary.fact_named(kind, tail) else {
            self.unknown_fact(kind, head, tail, span);
            return None;
        };
        self.used_facts.insert(fact);
        Some((fact, Some(things)))
    }

    pub(super) fn fact_names(&self, kind: KindId) -> Vec<String> {
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
        self.unknown_question(name, span);
        None
    }

    /// The question or the day of that name.
    pub(crate) fn short_fact(&mut self, name: &str) -> Option<FactId> {
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
        let is_amount = of_fact(fact, &self.vocabulary).dimension().is_some();
        if let Some(when) = self.when_of(selection.kind) {
            self.say_where(
                when,
                format!("`{name}` is a fact of each {kind_name}"),
                span,
            );
        } else {
            self.say_each(name, &said, (&kind_name, is_amount), span);
        }
        None
    }

    fn say_each(&mut self, name: &str, said: &str, (kind, is_amount): (&str, bool), span: Span) {
        let (head, tail) = parts(name);
        let tail = tail.unwrap_or_default();
        let help = match self.around.terms_deep {
            0 if is_amount && self.around.bound.is_empty() => format!(
                "Put `each: {head}` before it, or take one amount out of all of them, as in `largest-of: {{kind: {head}, take: {kind}.{tail}}}`."
            ),
            _ if let Some(bound) = self.around.bound.last() => {
                self.of_other((kind, tail), bound.kind)
            }
            0 => format!("Put `each: {head}` before it."),
            _ => self.in_term(kind),
        };
        self.which_one(name, said, span).help(help);
    }

    /// One thing is meant of which others are part, and nothing says which.
    pub(crate) fn say_whose(&mut self, name: &str, kind: KindId, span: Span) {
        let known = self.vocabulary.kind(kind);
        let (said, kind_name) = (known.said.clone(), known.name.clone());
        if let Some(when) = self.when_of(kind) {
            let whole = format!("`part-of: {name}` means one {kind_name}");
            return self.say_where(when, whole, span);
        }
        let help = match self.around.terms_deep {
            0 => format!(
                "Put `each: {name}` before it, as in `{{each: {name}, require: {{count: {{kind: …, part-of: {name}}}, at-most: 1}}}}`."
            ),
            _ => self.in_term(&kind_name),
        };
        self.which_one(name, &said, span).help(help);
    }

    /// What to write for a fact of one kind where things of another are meant.
    fn of_other(&self, (kind, tail): (&str, &str), bound: KindId) -> String {
        let own = self.own_of_same_sort(tail, bound);
        let own = own.map(|path| format!("Is its own `{path}` meant? "));
        let bound = self.vocabulary.kind(bound);
        let outline = bound
            .outlines
            .first()
            .map(|&it| self.vocabulary.outline(it).name.as_str());
        format!(
            "Here each {0} is meant. {own}If what counts is how far it is from certain ones, write the distance: `{{distance: {{from: {0}.{1}, to: {{kind: {kind}, where: …}}}}, less-than: 3 m}}`; if it must hold of every {kind}, write `{{each: {kind}, require: …}}`.",
            bound.name,
            outline.unwrap_or("…"),
            own = own.unwrap_or_default()
        )
    }

    /// The fact of a kind that says of it what another says of other things: `gate.height` for `height-outside`.
    pub(super) fn own_of_same_sort(&self, tail: &str, kind: KindId) -> Option<String> {
        let first = tail.split('-').next()?;
        let named = |name: &str| self.vocabulary.fact_named(kind, name);
        let fact = named(tail).or_else(|| named(first))?;
        Some(self.vocabulary.fact_path(fact))
    }

    /// What to write where a term speaks of one thing and does not say of which.
    fn in_term(&self, kind: &str) -> String {
        match self.around.term {
            Some(node) if !takes_of(node) => format!(
                "Where the term is used, write `{}` in place of its name, with `each: {kind}` before it.",
                in_short(node)
            ),
            _ => format!("If the term is meant to be used for one {kind}, add `of: {kind}` to it."),
        }
    }

    /// One thing is meant, and a plan can have several.
    pub(super) fn which_one(&mut self, name: &str, said: &str, span: Span) -> &mut Fault {
        let message =
            format!("`{name}` speaks of {said}, and a plan can have several: which one is meant?");
        self.fault(Code::SayEach, span, message)
    }

    /// The condition that is read, if it is one of a rule for each thing of this kind.
    pub(super) fn when_of(&self, kind: KindId) -> Option<&'a Entry> {
        let when = self.around.when_of.filter(|when| when.kind == kind)?;
        Some(when.written)
    }

    /// A condition speaks of the things among which `where` chooses.
    pub(super) fn say_where(&mut self, when: &Entry, of_each: String, span: Span) {
        let key = &when.key;
        let message = format!("`{key}` speaks of the plan, once; {of_each}.");
        let help = match key.as_str() {
            "unless" => format!("Write `where: {}` in place of it.", is_not(&when.value)),
            _ => "Move this to `where`.".to_owned(),
        };
        self.fault(Code::MoveToWhere, span, message).help(help);
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
        self.unknown_outline(kind, (head, tail), span);
        None
    }
}
