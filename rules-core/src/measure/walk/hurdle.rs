//! Whether a straight leg of a route is free of obstacles in every world, and where a route may turn.

use super::super::distance::distance;
use super::legs::Leg;
use super::{Hurdle, beside_corners};
use crate::measure::figure::chain::{Bounds, Chain, Edge};
use crate::measure::figure::direction::moved;
use crate::measure::figure::inside::contains;
use crate::plan::figure::{Form, Point};
use crate::work;

/// Where a route may turn. At an exact area, on both sides of each corner; otherwise at the corners of an octagon around each
/// corner. The octagon is wider than the tolerance, so that a route along a wall keeps clear of it too.
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

/// The eight compass directions.
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

/// Whether a leg is free of all obstacles, wherever the tolerances put them and the ends of the route.
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

/// Whether a leg is free of an exact obstacle: it meets no line and enters no area. An edge that an end of the route is on does
/// not count.
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

/// Whether a leg keeps clear of a form by the form's tolerance, and at its ends by the tolerances of both.
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
