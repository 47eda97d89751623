//! Operands: the outlines between which is measured.

use std::sync::Arc;

use crate::faults::Code;
use crate::grammar;
use crate::quantity::{Dimension, ONE};
use crate::ruleset::read::Reader;
use crate::ruleset::read::names::known::Known;
use crate::ruleset::read::names::{Things, head_of, parts};
use crate::ruleset::{Operand, Part, Selection, Which};
use crate::text::{Content, Node, Span};
use crate::vocabulary::{KindId, Number, OutlineId, Shape};

/// Which pools outlines are of: a rule speaks of one of them, and of all only where it says so.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Pools {
    /// Nothing says so.
    Unsaid,
    /// The one that is judged.
    Each,
    /// All together.
    All,
}

/// More parts than this come from terms that multiply each other.
const MOST_PARTS: usize = 200;

impl<'a> Reader<'a> {
    /// Outlines: one, a list of them, a term, or `{kind, outline, where, in, counted}`.
    pub(crate) fn operand(&mut self, node: &'a Node) -> Option<Operand> {
        self.operand_with(node, Self::only_outline, Pools::Unsaid)
    }

    /// As [`operand`](Self::operand), where `all` or `each` says which pools are meant.
    pub(crate) fn operand_of(&mut self, node: &'a Node, pools: Pools) -> Option<Operand> {
        self.operand_with(node, Self::only_outline, pools)
    }

    /// As [`operand`](Self::operand), for what a barrier is made of: there, a thing with a `line` is meant by it.
    pub(crate) fn barrier_operand(&mut self, node: &'a Node) -> Option<Operand> {
        let line = |reader: &mut Self, kind: KindId, name: &str, span: Span| {
            let line = reader.vocabulary.outline_named(kind, "line");
            line.or_else(|| reader.only_outline(kind, name, span))
        };
        self.operand_with(node, line, Pools::Unsaid)
    }

    fn operand_with(
        &mut self,
        node: &'a Node,
        outline: impl Fn(&mut Self, KindId, &str, Span) -> Option<OutlineId> + Copy,
        pools: Pools,
    ) -> Option<Operand> {
        match &node.content {
            Content::Scalar { text, .. } => self.named_operand((text, node.span), outline, pools),
            Content::List(items) => {
                let read = items
                    .iter()
                    .map(|item| self.operand_with(item, outline, pools));
                let read: Vec<_> = read.collect();
                let operands: Vec<_> = read.into_iter().collect::<Option<_>>()?;
                let parts = operands.iter().flat_map(|operand| operand.parts.to_vec());
                self.of_parts(parts.collect(), node.span)
            }
            Content::Map(_) => self.operand_map(node, outline, pools),
            Content::Empty => {
                let message = "An outline is expected here, and nothing is written.";
                self.fault(Code::EmptyValue, node.span, message);
                None
            }
        }
    }

    fn of_parts(&mut self, parts: Vec<Part>, span: Span) -> Option<Operand> {
        if parts.is_empty() || parts.len() > MOST_PARTS {
            self.fault(
                Code::BadList,
                span,
                format!("A list of 1 to {MOST_PARTS} outlines is expected here."),
            )
.help("Write them between the brackets, as in `[pool.water, pool.deck]`; a single one needs no brackets.");
            return None;
        }
        Some(Operand {
            term: None,
            parts: parts.into(),
        })
    }

    fn named_operand(
        &mut self,
        (name, span): (&'a str, Span),
        outline: impl Fn(&mut Self, KindId, &str, Span) -> Option<OutlineId>,
        pools: Pools,
    ) -> Option<Operand> {
        let (head, tail) = parts(name);
        if tail.is_none()
            && let Some(Known::Outlines(operand)) = self.term(head, span)?
        {
            return Some(Operand {
                term: Some(head.to_owned()),
                parts: operand.parts,
            });
        }
        if tail.is_none() && !self.is_name(head) {
            match self.called_outline(head, span, &outline) {
                true => self.unknown_kind(head, span),
                false => self.unknown_drawn(head, span),
            }
            return None;
        }
        let things = self.things(head, head_of(name, span))?;
        let kind = things.kind();
        let outline = match tail {
            Some(tail) => self.outline(kind, (head, tail), span)?,
            None => outline(self, kind, head, span)?,
        };
        if let (Some(when), Things::All(_)) = (self.when_of(kind), &things) {
            let kind = &self.vocabulary.kind(kind).name;
            let of_each = format!("`{name}` is drawn for each {kind}");
            self.say_where(when, of_each, span);
            return None;
        }
        let which = match things {
            Things::Bound(kind) => {
                self.note_bare(kind, name, span);
                Which::Bound(kind)
            }
            Things::All(selection) => {
                if pools != Pools::All {
                    self.note_loose(&selection);
                }
                self.which(selection, pools, (name, span))?
            }
        };
        Some(Operand {
            term: None,
            parts: Arc::new([Part {
                which,
                outline,
                counted: None,
                if_drawn: false,
            }]),
        })
    }

    /// Whether the kind that people call so stands for one outline here, so that its name is all there is to write.
    fn called_outline(
        &mut self,
        name: &str,
        span: Span,
        outline: &impl Fn(&mut Self, KindId, &str, Span) -> Option<OutlineId>,
    ) -> bool {
        let Some(kind) = self.vocabulary.kind_called(name) else {
            return false;
        };
        let before = self.faults().list.len();
        let found = outline(self, kind, name, span).is_some();
        self.faults().list.truncate(before);
        found
    }

    /// Which of the things that a selection selects are meant. Of pools that are chosen, a rule must say whether it means
    /// the one that is judged, where it is among them, or any of them.
    fn which(
        &mut self,
        selection: Selection,
        pools: Pools,
        (name, span): (&str, Span),
    ) -> Option<Which> {
        if self.pool() != Some(selection.kind) || pools == Pools::All {
            return Some(Which::All(selection));
        }
        if pools == Pools::Each {
            self.speak_of(selection.kind);
            return Some(Which::Meant(selection));
        }
        let message = format!(
            "Does `{name}` mean the pool that is judged, where it is one of these, or any of these?"
        );
        self.fault(Code::EachOrAll, span, message).help(format!(
            "Write `{{each: {name}}}` for the pool that is judged, or `{{all: {name}}}` for any of them, and for all of them in a total."
        ));
        None
    }

    /// Notes an outline of the pool of which nothing says whether one is meant or all.
    fn note_bare(&mut self, kind: KindId, name: &str, span: Span) {
        let bound = self.around.bound.iter().any(|bound| bound.kind == kind);
        if !bound {
            self.bare_pool = Some((name.to_owned(), span));
        }
    }

    /// Notes that a term names an outline of all things of a kind, which a rule for each of them may not mean.
    fn note_loose(&mut self, selection: &Selection) {
        let bare =
            selection.term.is_none() && selection.filter.is_none() && selection.part_of.is_none();
        let many = self.vocabulary.kind(selection.kind).number == Number::Many;
        if self.around.terms_deep > 0 && bare && many {
            self.loose.insert(selection.kind);
        }
    }

    fn operand_map(
        &mut self,
        node: &'a Node,
        outline: impl Fn(&mut Self, KindId, &str, Span) -> Option<OutlineId>,
        pools: Pools,
    ) -> Option<Operand> {
        if node.get("all").is_some() {
            let [all] = self.keys(node, &grammar::ALL_OUTLINES)?;
            return self.written(all, Self::of_all);
        }
        if node.get("each").is_some() {
            let [each] = self.keys(node, &grammar::EACH_OUTLINE)?;
            return self.written(each, Self::of_each);
        }
        let [written_kind, choosing @ .., written_outline, counted] =
            self.keys(node, &grammar::CHOSEN_OUTLINES)?;
        let (head, tail) = written_kind
            .and_then(|entry| entry.value.text())
            .map_or(("", None), parts);
        let (selection, _) = self.selected(node.span, written_kind, choosing)?;
        let kind = selection.kind;
        let span = written_kind.map_or(node.span, |entry| entry.value.span);
        let outline = match (tail, written_outline.and_then(|entry| entry.value.text())) {
            (Some(tail), _) => self.outline(kind, (head, tail), span),
            (None, Some(name)) => self.outline(
                kind,
                (head, name),
                written_outline.map_or(span, |entry| entry.value.span),
            ),
            (None, None) => outline(self, kind, head, span),
        };
        let counted = self.if_written(counted, Self::share)?;
        let which = self.which(selection, pools, ("{kind: pool, …}", node.span))?;
        Some(Operand {
            term: None,
            parts: Arc::new([Part {
                which,
                outline: outline?,
                counted,
                if_drawn: false,
            }]),
        })
    }

    /// A share of a whole that is stated, in billionths.
    fn share(&mut self, node: &'a Node) -> Option<i128> {
        let text = node.text().unwrap_or_default();
        let range = self.stated(text, node.span, Some(Dimension::Number))?.range;
        let share = range.is_exact() && (0..=ONE).contains(&range.low);
        if !share {
            let message = format!("`{text}` is not a share of a whole.");
            self.fault(Code::NotAShare, node.span, message)
                .help("Write one share from 0 % to 100 %, such as `50 %`.");
        }
        share.then_some(range.low)
    }

    /// Only areas have an area.
    pub(crate) fn must_be_area(&mut self, operand: &Operand, span: Span) -> Option<()> {
        let flat = |part: &&Part| self.vocabulary.outline(part.outline).shape != Shape::Area;
        let Some(part) = operand.parts.iter().find(flat) else {
            return Some(());
        };
        let path = self.vocabulary.outline_path(part.outline);
        self.fault(
            Code::NotAnArea,
            span,
            format!("`{path}` is not drawn as an area: it has neither a size nor an inside."),
        )
        .help("Name an area, as in `lot.boundary` or `pool.water`.");
        None
    }
}
