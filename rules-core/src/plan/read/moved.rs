//! Outlines that are worked out from another of the same thing.

use super::context::Context;
use super::shape::{How, Outlined};
use crate::faults::Code;
use crate::grammar::{self, words};
use crate::measure::Corners;
use crate::quantity::{Unit, show_exactly};
use crate::text::{Entry, Node};

impl<'a> Context<'a> {
    /// `{same-as: line}`.
    pub(super) fn same_as(&mut self, node: &'a Node, way: &'a Entry) -> Option<Outlined> {
        self.keys(node, &grammar::SAME)?;
        let name = self.scalar("same-as", &way.value)?.to_owned();
        Some(Outlined::From {
            name,
            span: way.value.span,
            how: How::Same,
        })
    }

    /// `{outward: 300 mm, from: water, corners: square}`.
    pub(super) fn moved(&mut self, node: &'a Node) -> Option<Outlined> {
        if let (Some(_), Some(inward)) = (node.get("outward"), node.get("inward")) {
            let message = "An outline lies either outward or inward of another.";
            self.faults.add(Code::TwoWays, inward.span, message);
            return None;
        }
        let (how, from) = if node.get("inward").is_some() {
            let [inward, from] = self.keys(node, &grammar::INWARD)?;
            (How::Inward(self.positive("inward", &inward?.value)?), from)
        } else {
            let [outward, from, corners] = self.keys(node, &grammar::OUTWARD)?;
            let by = self.positive("outward", &outward?.value);
            self.not_so_wide(by, &outward?.value)?;
            let corners = self.word("corners", &corners?.value, &words(&grammar::CORNERS));
            let corners = if corners? == "round" {
                Corners::Round
            } else {
                Corners::Square
            };
            (How::Outward(by?, corners), from)
        };
        let from = from?;
        let name = self.scalar("from", &from.value)?.to_owned();
        Some(Outlined::From {
            name,
            span: from.value.span,
            how,
        })
    }

    /// A coping or a deck that is wider than any lot: its figure was written in another unit.
    fn not_so_wide(&mut self, by: Option<i64>, node: &Node) -> Option<()> {
        const WIDEST: i64 = 100_000_000_000;
        if by.is_none_or(|by| by <= WIDEST) {
            return Some(());
        }
        let written = node.text().unwrap_or_default();
        let metres = show_exactly(i128::from(by?), Unit::METRE);
        let message =
            format!("`{written}` is {metres} here, which is wider than any coping or deck.");
        self.faults
            .add(Code::BeyondLimits, node.span, message)
            .help(format!(
                "Write its unit, as in `{written} mm` or `{written} cm`."
            ));
        None
    }
}
