//! All outlines of one thing: those drawn, then those worked out from them, each checked.

use std::collections::{BTreeMap, BTreeSet};

use super::super::{Figure, Form};
use super::context::{Context, guess};
use super::shape::{Drawn, How, Outlined};
use crate::faults::Code;
use crate::measure::{Corners, Flaw, OffsetFault, flaw, inward, inward_off, outward, outward_off};
use crate::text::Span;
use crate::vocabulary::{KindId, OutlineId, Shape};

const SAME: &str = "Leave one of them out; the first point is not repeated at the end of an area.";

/// The outlines of one thing as written, each with its place; `None` where it is at fault.
pub(super) type Written = BTreeMap<OutlineId, (Option<Outlined>, Span)>;

/// Where an outline is to be worked out from: which, and how.
type Step = (OutlineId, How, Span);

impl Context<'_> {
    /// Figures of that accuracy for all outlines that are not at fault.
    pub fn figures(
        &mut self,
        kind: KindId,
        written: Written,
        accuracy: Option<i64>,
    ) -> BTreeMap<OutlineId, Figure> {
        let attempted: BTreeSet<_> = written.keys().copied().collect();
        let (mut drawn, mut waiting) = (BTreeMap::new(), BTreeMap::new());
        for (id, (outlined, span)) in written {
            match outlined {
                Some(Outlined::Drawn(forms)) => {
                    let accuracy = accuracy.map(|accuracy| accuracy.saturating_add(forms.off));
                    self.keep(&mut drawn, id, Drawn { accuracy, ..forms }, span);
                }
                Some(Outlined::From {
                    name,
                    span: at,
                    how,
                }) => {
                    if let Some(from) = self.own_outline(kind, &name, at) {
                        waiting.insert(id, (from, how, span));
                    }
                }
                None => {}
            }
        }
        let left = self.work_out(&mut drawn, waiting);
        self.refuse_left(&attempted, &left);
        let figure = |drawn: Drawn| Figure {
            curved: drawn.curved,
            ..Figure::new(drawn.forms, drawn.spread, drawn.accuracy)
        };
        drawn
            .into_iter()
            .map(|(id, drawn)| (id, figure(drawn)))
            .collect()
    }

    fn own_outline(&mut self, kind: KindId, name: &str, at: Span) -> Option<OutlineId> {
        let vocabulary = self.vocabulary;
        let found = vocabulary.outline_named(kind, name);
        if found.is_none() {
            let said = &vocabulary.kind(kind).said;
            let names: Vec<_> = vocabulary.outline_names(kind).collect();
            let help = guess(name, names.into_iter(), "Its outlines are");
            let message = format!("`{name}` is not an outline of {said}.");
            self.faults
                .add(Code::UnknownOutline, at, message)
                .help(help);
        }
        found
    }

    /// Works outlines out for as long as there is one whose ground is drawn; gives those that are left.
    fn work_out(
        &mut self,
        drawn: &mut BTreeMap<OutlineId, Drawn>,
        mut waiting: BTreeMap<OutlineId, Step>,
    ) -> BTreeMap<OutlineId, Step> {
        let ready = |waiting: &BTreeMap<OutlineId, Step>, drawn: &BTreeMap<OutlineId, Drawn>| {
            let mut steps = waiting.iter();
            let (id, step) = steps.find(|(_, step)| drawn.contains_key(&step.0))?;
            Some((*id, *step))
        };
        while let Some((id, (base, how, span))) = ready(&waiting, drawn) {
            waiting.remove(&id);
            match drawn.get(&base).map(|from| worked_out(from, how)) {
                Some(Ok(forms)) => self.keep(drawn, id, forms, span),
                Some(Err(why)) => self.refuse_derived(false, (id, base), why, span),
                None => {}
            }
        }
        waiting
    }

    /// Outlines taken from one that is not there, or in a circle from each other.
    fn refuse_left(&mut self, attempted: &BTreeSet<OutlineId>, left: &BTreeMap<OutlineId, Step>) {
        for (&id, &(base, _, span)) in left {
            let root =
                std::iter::successors(Some(base), |at| Some(left.get(at)?.0)).nth(left.len());
            let (why, follows) = match root {
                Some(_) => ("They are taken from each other in a circle.", false),
                None => ("That outline is not drawn.", attempted.contains(&base)),
            };
            self.refuse_derived(follows, (id, base), why, span);
        }
    }

    fn refuse_derived(
        &mut self,
        follows: bool,
        (id, base): (OutlineId, OutlineId),
        why: &str,
        span: Span,
    ) {
        let (name, base) = (
            &self.vocabulary.outline(id).name,
            &self.vocabulary.outline(base).name,
        );
        let message = format!("`{name}` cannot be worked out from `{base}`.");
        self.faults_after(follows)
            .add(Code::NotDerived, span, message)
            .help(why);
    }

    fn keep(
        &mut self,
        drawn: &mut BTreeMap<OutlineId, Drawn>,
        id: OutlineId,
        forms: Drawn,
        span: Span,
    ) {
        let outline = self.vocabulary.outline(id);
        let fit = |form: &Form| fits(form, forms.spread, outline.shape);
        if !forms.forms.iter().all(fit) {
            let message = format!(
                "`{}` cannot have the shape of the outline that it is taken from.",
                outline.name
            );
            self.faults.add(Code::WrongShape, span, message);
            return;
        }
        let flaw = forms.forms.iter().find_map(|form| match form {
            Form::Ring(ring) => flaw(ring),
            Form::Path(path) => twice(path),
            Form::Point(_) => None,
        });
        match flaw {
            Some(Flaw::Crossing(..)) if forms.off > 0 => {
                let message = format!("`{}` crosses or touches itself.", outline.name);
                self.faults.add(Code::CrossesItself, span, message).help(
                    "Look at how far its arcs stand out or in: one of them reaches another side.",
                );
            }
            Some(flaw) => self.refuse_flaw(&outline.name, flaw, span),
            None => {
                drawn.insert(id, forms);
            }
        }
    }

    fn refuse_flaw(&mut self, name: &str, flaw: Flaw, span: Span) {
        let (code, message) = match flaw {
            Flaw::Same(at) => (
                Code::SamePoint,
                format!("Points {} and {} of `{name}` are the same.", at + 1, at + 2),
            ),
            Flaw::Crossing(a, b) => {
                let (a, b) = (a + 1, b + 1);
                let message = format!(
                    "`{name}` crosses itself: the side after point {a} meets the side after point {b}."
                );
                (Code::CrossesItself, message)
            }
        };
        let help = match flaw {
            Flaw::Same(_) => SAME,
            Flaw::Crossing(..) => "Write the points in the order in which one walks round it.",
        };
        self.faults.add(code, span, message).help(help);
    }
}

/// Two points of a line in a row that are the same.
fn twice(path: &[super::super::Point]) -> Option<Flaw> {
    let pairs = path.iter().zip(path.iter().skip(1));
    pairs.clone().position(|(a, b)| a == b).map(Flaw::Same)
}

/// Whether a form can be an outline of that shape: an area may be a point or a line with a spread round it.
fn fits(form: &Form, spread: i64, shape: Shape) -> bool {
    match shape {
        Shape::Point => matches!(form, Form::Point(_)),
        Shape::Line => matches!(form, Form::Path(_)) && spread == 0,
        Shape::Area => matches!(form, Form::Ring(_)) || spread > 0,
    }
}

/// An outline worked out from another: its corners move as the base's make them move.
fn worked_out(from: &Drawn, how: How) -> Result<Drawn, &'static str> {
    let round = from.spread > 0 || from.smooth;
    let how = match how {
        // What is round already has no corners to make square.
        How::Outward(by, _) if round => How::Outward(by, Corners::Round),
        how => how,
    };
    // Moved straight sides would no longer be near the moved arcs.
    if from.off > 0 && !matches!(how, How::Same | How::Outward(_, Corners::Round)) {
        return Err("It has arcs: write `corners: round`, or draw this outline.");
    }
    let figure = Figure::new(from.forms.clone(), from.spread, from.accuracy);
    let accuracy = match how {
        How::Same => figure.accuracy,
        How::Outward(by, corners) => outward_off(&figure, by, corners),
        How::Inward(by) => inward_off(&figure, by),
    };
    let moved = match how {
        How::Same => Ok(figure),
        How::Outward(by, corners) => outward(&figure, by, corners),
        How::Inward(by) => inward(&figure, by),
    };
    moved
        .map(|figure| Drawn {
            off: from.off,
            accuracy,
            curved: from.curved.clone(),
            smooth: from.smooth,
            ..Drawn::new(figure.forms, figure.spread)
        })
        .map_err(|fault| why_not(fault, &from.forms))
}

/// Why an outline cannot be worked out, and what to do instead.
fn why_not(fault: OffsetFault, forms: &[Form]) -> &'static str {
    match (fault, forms) {
        (OffsetFault::NotAnArea | OffsetFault::AlreadyRound, _) => {
            "A line or a point has no square corners: write `corners: round`."
        }
        (OffsetFault::TooAcute | OffsetFault::RunsIntoItself, _) => {
            "Its sides would cross, so that the outline has to be drawn."
        }
        (OffsetFault::NotConvex, [_]) => {
            "It has hollows, so that the outline inside it has to be drawn."
        }
        (OffsetFault::NotConvex, _) => {
            "It has several parts, so that the outline inside it has to be drawn."
        }
        (OffsetFault::NothingLeft, [Form::Ring(_)]) => "Nothing would be left inside.",
        (OffsetFault::NothingLeft, _) => "It is too narrow: nothing would be left inside.",
    }
}
