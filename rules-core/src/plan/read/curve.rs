//! Outlines with arcs or a hollow corner: kidneys, any sides that stand out or in, and the L.

use super::super::{Form, Point};
use super::context::Context;
use super::shape::{Drawn, MOST_POINTS, corners_at};
use crate::faults::Code;
use crate::grammar;
use crate::measure::{Kidney, Traced, signed_area2};
use crate::text::Node;

/// All arcs of one outline together take no more corners than this, and one of them no more than that.
const MOST_CORNERS: usize = 2_000;
const MOST_OF_ONE: usize = 400;

impl<'a> Context<'a> {
    pub(super) fn kidney(&mut self, node: &'a Node) -> Option<Drawn> {
        let [from, to, radius, hollow, back] = self.keys(node, &grammar::KIDNEY)?;
        let (from, to) = (self.point(&from?.value), self.point(&to?.value));
        let (radius, hollow) = (
            self.positive("radius", &radius?.value),
            self.positive("hollow", &hollow?.value),
        );
        let back = match back {
            Some(back) => self.positive("back", &back.value)?,
            None => 0,
        };
        let kidney = Kidney {
            ends: (from?, to?),
            radius: radius?,
            hollow: hollow?,
            back,
        };
        let outline = kidney.outline(MOST_OF_ONE * 3);
        if outline.is_none() {
            self.faults
                .add(Code::NoKidney, node.span, "No kidney has these measures.")
                .help(
                    "`hollow` and `back` are each less than half of the way from `from` to `to`, and the ends so small \
                     that an arc fits between them; otherwise draw it as `curved`.",
                );
        }
        outline.map(|traced| Drawn {
            smooth: true,
            ..Drawn::traced(traced)
        })
    }

    /// Corners, and between two of them how far the side stands out or in at its middle.
    pub(super) fn curved(&mut self, node: &'a Node) -> Option<Drawn> {
        let (corners, rises) = self.corners_and_rises(node)?;
        let arcs = rises.iter().filter(|rise| **rise != 0).count();
        let most = (MOST_CORNERS / arcs.max(1)).min(MOST_OF_ONE);
        // Out is to the right of a ring that runs with its area to the left.
        let out = if signed_area2(&corners) < 0 { -1 } else { 1 };
        let mut traced = Traced::new();
        let next = corners.iter().cycle().skip(1);
        for ((from, to), rise) in corners.iter().zip(next).zip(rises) {
            traced.bulge((*from, *to), rise * out, most);
        }
        Some(Drawn::traced(traced))
    }

    fn corners_and_rises(&mut self, node: &'a Node) -> Option<(Vec<Point>, Vec<i64>)> {
        let items = node.as_list().unwrap_or_default();
        let (mut corners, mut rises): (Vec<Point>, Vec<i64>) = (Vec::new(), Vec::new());
        let mut sound = items.len() <= MOST_POINTS;
        for item in items.iter().take(MOST_POINTS) {
            match (item.as_map(), rises.last_mut()) {
                (None, _) => match self.point(item) {
                    Some(corner) => {
                        corners.push(corner);
                        rises.push(0);
                    }
                    None => return None,
                },
                (Some(_), Some(rise)) if *rise == 0 => *rise = self.rise(item)?,
                (Some(_), _) => sound = false,
            }
        }
        if !sound || corners.len() < 3 {
            self.faults
                .add(
                    Code::NotCurved,
                    node.span,
                    "`curved` needs at least three corners, and no more than one `out` or `in` between two of them.",
                )
                .help("Write it so: `[[0, 0], [4, 0], {out: 600 mm}, [4, 3], [0, 3]]`.");
            return None;
        }
        Some((corners, rises))
    }

    /// `{out: 600 mm}` or `{in: 300 mm}`: how far a side stands out.
    fn rise(&mut self, node: &'a Node) -> Option<i64> {
        let [out, inward] = self.keys(node, &grammar::ARC)?;
        match (out, inward) {
            (Some(out), None) => self.positive("out", &out.value),
            (None, Some(inward)) => self.positive("in", &inward.value).map(|rise| -rise),
            _ => {
                self.faults
                    .add(
                        Code::NotAnArc,
                        node.span,
                        "An arc stands either `out` or `in`.",
                    )
                    .help("Write how far, at the middle of the side: `{out: 600 mm}`.");
                None
            }
        }
    }

    /// A rectangle less a smaller one at the corner across from the first.
    pub(super) fn l_shape(&mut self, node: &'a Node) -> Option<Drawn> {
        let [at, sizes @ .., turned] = self.keys(node, &grammar::L_SHAPE)?;
        let at = self.point(&at?.value);
        let sizes: [_; 4] =
            sizes.map(|entry| entry.and_then(|entry| self.positive(&entry.key, &entry.value)));
        let turned = match turned {
            Some(turned) => self.angle("turned", &turned.value)?,
            None => 0,
        };
        let [length, width, notch_length, notch_width] = sizes;
        let (at, long, wide) = (at?, length?, width?);
        let (inner, low) = (long - notch_length?, wide - notch_width?);
        if inner <= 0 || low <= 0 {
            self.faults
                .add(
                    Code::NoL,
                    node.span,
                    "The notch of an L is shorter and narrower than the L itself.",
                )
                .help("Measure the notch along the same two sides as the whole.");
            return None;
        }
        let corner = corners_at(at, turned);
        let ring = [
            (0, 0),
            (long, 0),
            (long, low),
            (inner, low),
            (inner, wide),
            (0, wide),
        ];
        let ring = ring.map(|(along, across)| corner(along, across)).to_vec();
        Some(Drawn::new(vec![Form::Ring(ring)], 0))
    }
}

#[cfg(test)]
#[path = "curve_tests.rs"]
mod tests;
