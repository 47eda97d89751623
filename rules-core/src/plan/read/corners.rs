//! The corners of the lot.

use super::super::Point;
use super::context::{Context, Stated, guess};
use super::shape::MOST_POINTS;
use crate::faults::Code;
use crate::grammar::plan;
use crate::measure::{Flaw, flaw};
use crate::text::{Entry, Span, in_short};

/// A corner of the lot.
pub(super) struct Corner<'a> {
    pub name: &'a str,
    pub span: Span,
    pub at: Point,
    pub accuracy: Stated,
}

impl<'a> Context<'a> {
    /// The corners in order, of which each has a name.
    pub(super) fn corners(&mut self, entry: &'a Entry) -> Option<Vec<Corner<'a>>> {
        let Some(entries) = entry.value.as_map() else {
            self.faults
                .add(
                    Code::NotCorners,
                    entry.value.span,
                    "The lot's corners need a name each.",
                )
                .help("Write them in order round the lot: `corners: {a: [0, 0], b: [24, 0], …}`.");
            return None;
        };
        if entries.len() > MOST_POINTS {
            let message = format!(
                "There are {} corners here; no more than {MOST_POINTS} are read, and no survey of a lot has as many.",
                entries.len()
            );
            self.faults
                .add(Code::TooManyPoints, entry.key_span, message);
            return None;
        }
        let read: Vec<_> = entries.iter().map(|entry| self.corner(entry)).collect();
        let corners: Option<Vec<_>> = read.into_iter().collect();
        let corners = corners?;
        if corners.len() < 3 {
            let message = format!(
                "A lot has at least three corners; this one has {}.",
                corners.len()
            );
            self.faults
                .add(Code::TooFewPoints, entry.value.span, message);
            return None;
        }
        let ring: Vec<_> = corners.iter().map(|corner| corner.at).collect();
        if let Some(flaw) = flaw(&ring) {
            self.refuse_lot(&corners, flaw, entry.value.span);
            return None;
        }
        Some(corners)
    }

    fn corner(&mut self, entry: &'a Entry) -> Option<Corner<'a>> {
        let (name, span) = (entry.key.as_str(), entry.key_span);
        let named = self.is_id("corners", name, span);
        if let [Some(x), Some(y)] = ["x", "y"].map(|axis| entry.value.get(axis)) {
            let message = "A point is two figures in brackets, without names.";
            let help = format!("Write `{name}: [{}, {}]`.", in_short(x), in_short(y));
            self.faults
                .add(Code::NotAPoint, entry.value.span, message)
                .help(help);
            return None;
        }
        let (at, accuracy) = if entry.value.as_map().is_some() {
            let [at, accuracy] = self.keys(&entry.value, &plan::LOT_CORNER)?;
            let accuracy = self.accuracy(accuracy);
            (self.point(&at?.value), accuracy)
        } else {
            (self.point(&entry.value), None)
        };
        let at = at.filter(|_| named)?;
        Some(Corner {
            name,
            span,
            at,
            accuracy,
        })
    }

    fn refuse_lot(&mut self, corners: &[Corner], flaw: Flaw, span: Span) {
        let name = |at: usize| {
            corners
                .iter()
                .cycle()
                .nth(at)
                .map_or("", |corner| corner.name)
        };
        let (code, message) = match flaw {
            Flaw::Same(at) => {
                let message = format!(
                    "Corners `{}` and `{}` are at the same place.",
                    name(at),
                    name(at + 1)
                );
                (Code::SamePoint, message)
            }
            Flaw::Crossing(a, b) => {
                let (a, b) = ((name(a), name(a + 1)), (name(b), name(b + 1)));
                let message = format!(
                    "The side from `{}` to `{}` meets the side from `{}` to `{}`.",
                    a.0, a.1, b.0, b.1
                );
                (Code::CrossesItself, message)
            }
        };
        let (help, span) = match (flaw, corners) {
            (Flaw::Same(at), [first, .., last]) if at + 1 == corners.len() => (
                format!(
                    "The lot closes by itself from its last corner to its first, `{}`: leave `{}` out.",
                    first.name, last.name
                ),
                last.span,
            ),
            _ => (
                "Write the corners in the order in which one walks round the lot.".to_owned(),
                span,
            ),
        };
        self.faults.add(code, span, message).help(help);
    }

    /// The corner of that name, as its place.
    pub(super) fn corner_named(
        &mut self,
        entry: &'a Entry,
        corners: &[Corner<'a>],
    ) -> Option<usize> {
        let text = self.scalar(&entry.key, &entry.value)?;
        let found = corners.iter().position(|corner| corner.name == text);
        if found.is_none() {
            let help = guess(
                text,
                corners.iter().map(|corner| corner.name),
                "The corners are",
            );
            let message = format!("The lot has no corner `{text}`.");
            self.faults
                .add(Code::UnknownCorner, entry.value.span, message)
                .help(help);
        }
        found
    }
}

/// Which corners a side from one of them can go to.
pub(super) fn after_corner(corners: &[Corner], from: usize) -> String {
    let name = |at: usize| {
        corners
            .get(at % corners.len().max(1))
            .map_or("", |it| it.name)
    };
    format!(
        "The corners follow each other in the order in which they are listed, the first after the last: after `{}` comes `{}`, as in `to: {}`.",
        name(from),
        name(from + 1),
        name(from + 1)
    )
}
