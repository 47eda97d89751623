//! Whether a straight piece of a way is free of what stands in the way, in every world; and where a way may turn.

use super::super::distance::distance;
use super::legs::Leg;
use super::{Hurdle, beside_corners};
use crate::measure::figure::chain::{Bounds, Chain, Edge};
use crate::measure::figure::inside::contains;
use crate::measure::lot::sides::moved;
use crate::plan::figure::{Form, Point};
use crate::work;

/// Where a way may turn: on both sides of each corner of an area that stands exactly where it is drawn; else at the corners
/// of an eight-cornered ring around each corner, so much wider than that may be off that a way along a wall keeps clear of
/// the wall too.
pub(super) fn turns(hurdle: &Hurdle) -> Vec<Point> {
    let off = hurdle.off.saturating_add(hurdle.figure.spread);
    let of_form = |form: &Form| match form {
        Form::Ring(ring) if off == 0 => beside_corners(ring),
        _ => around_corners(form, off as f64),
    };
    hurdle.figure.forms.iter().flat_map(of_form).collect()
}

fn around_corners(form: &Form, off: f64) -> Vec<Point> {
    let by = 1.2 * off + 2000.0;
    let around = |corner: &Point| EIGHT.map(|way| moved(*corner, way, by));
    Chain::of(form).points.iter().flat_map(around).collect()
}

/// The eight directions of the wind.
const EIGHT: [(f64, f64); 8] = [
    (1.0, 0.0),
    (HALF, HALF),
    (0.0, 1.0),
    (-HALF, HALF),
    (-1.0, 0.0),
    (-HALF, -HALF),
    (0.0, -1.0),
    (HALF, -HALF),
];
const HALF: f64 = std::f64::consts::FRAC_1_SQRT_2;

/// Whether a piece of a way is free of everything in the way, however that and the ends of the way are off.
pub(super) fn is_free(leg: &Leg, ends: (i64, i64), hurdles: &[Hurdle]) -> bool {
    let from = if leg.starts { ends.0 } else { 0 };
    let to = if leg.ends { ends.1 } else { 0 };
    work::corners(hurdles.len() * 2);
    hurdles.iter().all(|hurdle| hurdle.lets_pass(leg, from, to))
}

impl Hurdle<'_> {
    fn lets_pass(&self, leg: &Leg, from: i64, to: i64) -> bool {
        let forms = &self.figure.forms;
        let off = self.off.saturating_add(self.figure.spread);
        if off == 0 && from == 0 && to == 0 {
            return forms.iter().all(|form| is_clear(form, leg));
        }
        forms
            .iter()
            .all(|form| keeps_clear(form, leg, (off, from, to)))
    }
}

/// Whether nothing exact stands in a piece of a way: no line is met, no area entered. What either end of the whole way lies
/// on does not hold it back.
fn is_clear(form: &Form, leg: &Leg) -> bool {
    let step = Edge {
        a: leg.from,
        b: leg.to,
    };
    let own = |edge: &Edge| leg.starts && edge.holds(leg.from) || leg.ends && edge.holds(leg.to);
    match form {
        Form::Point(_) => true,
        Form::Path(_) => !Chain::of(form)
            .edges()
            .any(|edge| edge.meets(&step) && !own(&edge)),
        Form::Ring(ring) => !contains(ring, &Form::Path(vec![leg.from, leg.to])).shares(),
    }
}

/// Whether a piece of a way keeps as far from a form as this may be off, and at its ends as far as both together.
fn keeps_clear(form: &Form, leg: &Leg, (off, from, to): (i64, i64, i64)) -> bool {
    is_beyond(form, leg.from, leg.to, off)
        && is_beyond(form, leg.from, leg.from, off.saturating_add(from))
        && is_beyond(form, leg.to, leg.to, off.saturating_add(to))
}

fn is_beyond(form: &Form, a: Point, b: Point, by: i64) -> bool {
    let (step, far) = (Bounds::of(a, b), by as f64);
    let away = |around: Bounds| around.apart(&step) > far * far;
    Bounds::around(Chain::of(form).points).is_some_and(away)
        || distance(&Form::Path(vec![a, b]), form).low >= by.max(1)
}
