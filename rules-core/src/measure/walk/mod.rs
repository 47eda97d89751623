//! The shortest way on foot round what stands in the way, where nobody knows exactly where that stands.
//!
//! All turns of a shortest way are at corners of what is in the way, so it is enough to go from corner to corner. What is
//! found is a way that is free however everything is off, or a length that no way comes below.

mod hurdle;
mod legs;
mod search;
#[cfg(test)]
mod tests;

use super::distance::figure_gap;
use crate::measure::figure::chain::{Chain, Edge};
use crate::measure::figure::inside::contains;
use crate::measure::figure::offset::narrowed;
use crate::measure::lot::sides::{moved, unit};
use crate::plan::figure::{Figure, Form, Point};
use hurdle::is_free;
use legs::Leg;
use search::shortest;

/// Where a way begins or ends: anywhere at an outline that may be off by so many nanometres.
#[derive(Debug, Clone, Copy)]
pub struct Stand<'f> {
    /// The outline.
    pub figure: &'f Figure,
    /// How far off it may be, in nanometres.
    pub off: i64,
}

/// Something that stands in the way: nobody crosses its lines or enters its areas.
#[derive(Debug, Clone, Copy)]
pub struct Hurdle<'f> {
    /// Its outline.
    pub figure: &'f Figure,
    /// How far off it may be, in nanometres.
    pub off: i64,
    /// Whether the one or the other end of the way is a part of it: then that end is at its edge, never in it.
    pub own: [bool; 2],
}

/// A way on foot.
#[derive(Debug, Clone, PartialEq)]
pub struct Walk {
    /// No way need be longer, in nanometres, however everything is off.
    pub length: i64,
    /// From the one end to the other as drawn, each turn beside a corner of something in the way.
    pub way: Vec<Point>,
}

/// More places to turn than this are not searched: the way is then not known.
const MOST: usize = 800;

/// A way that is free in every world; `None` where none was found, which says nothing.
///
/// In a world, an end lies within `off` of its drawn place, and from there it is straight to the way that is told here.
pub fn way_round(from: &Stand, to: &Stand, hurdles: &[Hurdle]) -> Option<Walk> {
    let places: Vec<Point> = hurdles.iter().flat_map(hurdle::turns).collect();
    if places.len() > MOST {
        return None;
    }
    let free = |leg: &Leg| is_free(leg, (from.off, to.off), hurdles);
    let (long, way) = shortest(from.figure, to.figure, &places, &free)?;
    let gap = figure_gap(from.figure, to.figure);
    let straight = way == [gap.from, gap.to];
    // Each end of the way was rounded to the nanometre.
    let long = if straight {
        gap.high
    } else {
        long.ceil() as i64 + 2
    };
    Some(Walk {
        length: long.saturating_add(from.off).saturating_add(to.off),
        way,
    })
}

/// So much is taken off of each side of what is in the way before looking for the least length, in nanometres: more than
/// the rounding of every place in it.
const SPARE: i64 = 10_000;

/// A length that no way round comes below, in nanometres; `None` where the straight distance says as much, or where none
/// is known. Of what stands in the way only areas count, and of these what is surely within them.
pub fn least_way(from: &Stand, to: &Stand, solids: &[Hurdle]) -> Option<i64> {
    let gap = figure_gap(from.figure, to.figure);
    if gap.low == 0 {
        return None;
    }
    let kept_off = |solid: &&Hurdle| {
        let ends = [from, to].into_iter().zip(solid.own);
        ends.into_iter()
            .all(|(end, own)| own || keeps_off(end, solid))
    };
    let rings: Vec<Vec<Point>> = solids
        .iter()
        .filter(kept_off)
        .flat_map(sure_parts)
        .filter(|ring| [from, to].iter().all(|end| lies_off(end, ring)))
        .collect();
    let places: Vec<Point> = rings.iter().flat_map(|ring| beside_corners(ring)).collect();
    let free = |leg: &Leg| {
        let step = Form::Path(vec![leg.from, leg.to]);
        rings.iter().all(|ring| !contains(ring, &step).shares())
    };
    let direct = Leg::between(gap.from, gap.to);
    if places.len() > MOST || free(&direct) {
        return None;
    }
    let (long, _) = shortest(from.figure, to.figure, &places, &free)?;
    let off = from.off.saturating_add(to.off);
    // Each end was rounded to the nanometre, and a few of them are lost in adding up.
    Some(
        (long.floor() as i64)
            .saturating_sub(off)
            .saturating_sub(10)
            .max(0),
    )
}

/// Whether no place of the end can lie in what is in the way, however both are off.
fn keeps_off(end: &Stand, solid: &Hurdle) -> bool {
    figure_gap(end.figure, solid.figure).low >= end.off.saturating_add(solid.off)
}

/// Whether no place of the end can lie in the ring, however the end is off.
fn lies_off(end: &Stand, ring: &[Point]) -> bool {
    let solid = Figure::new(vec![Form::Ring(ring.to_vec())], 0, None);
    figure_gap(end.figure, &solid).low > end.off
}

/// What surely is within an area, however it is off.
fn sure_parts(solid: &Hurdle) -> Vec<Vec<Point>> {
    let by = solid.off.saturating_add(SPARE);
    let rings = solid.figure.forms.iter().filter_map(|form| match form {
        Form::Ring(ring) => narrowed(ring, by),
        Form::Point(_) | Form::Path(_) => None,
    });
    rings.collect()
}

/// How far beside a corner a way passes it, in nanometres.
const NEAR: f64 = 1000.0;

/// Just beside each corner of a ring, on both sides, along the line that halves its angle.
fn beside_corners(ring: &[Point]) -> Vec<Point> {
    let edges: Vec<Edge> = Chain::ring(ring).edges().collect();
    let next = edges.iter().cycle().skip(1);
    edges
        .iter()
        .zip(next)
        .flat_map(|(one, next)| beside_corner(one, next))
        .collect()
}

fn beside_corner(one: &Edge, next: &Edge) -> Vec<Point> {
    let (Some(u), Some(v)) = (unit(one.a, one.b), unit(next.a, next.b)) else {
        return Vec::new();
    };
    let (x, y) = (u.0 - v.0, u.1 - v.1);
    let long = (x * x + y * y).sqrt();
    if long < 1e-9 {
        return Vec::new();
    }
    let half = (x / long, y / long);
    [NEAR, -NEAR].map(|by| moved(next.a, half, by)).to_vec()
}
