//! The shortest walking route round obstacles that have a tolerance.
//!
//! All turns of a shortest route are at corners of obstacles, so it is enough to search from corner to corner. The results are
//! a route that is free wherever the tolerances put everything, and a lower bound for the length of any route.

mod hurdle;
mod legs;
mod search;
#[cfg(test)]
mod tests;

use hurdle::is_free;
use legs::Leg;
use search::shortest;

use super::distance::figure_gap;
use crate::measure::figure::chain::{Chain, Edge};
use crate::measure::figure::direction::{moved, unit};
use crate::measure::figure::inside::contains;
use crate::measure::outline::offset::narrowed;
use crate::plan::figure::{Figure, Form, Point};

/// Where a route begins or ends: anywhere at an outline.
#[derive(Debug, Clone, Copy)]
pub struct Stand<'f> {
    /// The outline.
    pub figure: &'f Figure,
    /// Its tolerance, in nanometres.
    pub off: i64,
}

/// An obstacle: nobody crosses its lines or enters its areas.
#[derive(Debug, Clone, Copy)]
pub struct Hurdle<'f> {
    /// Its outline.
    pub figure: &'f Figure,
    /// Its tolerance, in nanometres.
    pub off: i64,
    /// Whether the start or the end of the route is part of it: that end is then at its edge, never inside.
    pub own: [bool; 2],
}

/// A walking route.
#[derive(Debug, Clone, PartialEq)]
pub struct Walk {
    /// An upper bound for the length of the shortest route in any world, in nanometres.
    pub length: i64,
    /// The route from end to end as drawn; each turn is beside a corner of an obstacle.
    pub way: Vec<Point>,
}

/// With more places to turn than this there is no search, and the route is unknown.
const MOST: usize = 800;

/// A route that is free in every world; `None` where none was found, which proves nothing.
///
/// In each world, an end is within `off` of its drawn place, and there is a straight line from there to this route.
pub fn way_round(from: &Stand, to: &Stand, hurdles: &[Hurdle]) -> Option<Walk> {
    let places: Vec<Point> = hurdles.iter().flat_map(hurdle::turns).collect();
    if places.len() > MOST {
        return None;
    }
    let free = |leg: &Leg| is_free(leg, (from.off, to.off), hurdles);
    let (long, way) = shortest(from.figure, to.figure, &places, &free)?;
    let gap = figure_gap(from.figure, to.figure);
    let straight = way == [gap.from, gap.to];
    // Each end of the route was rounded to the nanometre.
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

/// How far each side of an obstacle is moved in before the search for the least length, in nanometres: more than the rounding of
/// all places on a route.
const SPARE: i64 = 10_000;

/// A lower bound for the length of any route, in nanometres; `None` where it is no better than the straight distance, or unknown.
/// Of the obstacles only areas count, and only the parts that are surely within them.
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
    // Each end was rounded to the nanometre, and a few nanometres are lost in the sum.
    Some(
        (long.floor() as i64)
            .saturating_sub(off)
            .saturating_sub(10)
            .max(0),
    )
}

/// Whether no place of the end can be inside the obstacle, whatever their tolerances.
fn keeps_off(end: &Stand, solid: &Hurdle) -> bool {
    figure_gap(end.figure, solid.figure).low >= end.off.saturating_add(solid.off)
}

/// Whether no place of the end can be inside the ring, whatever the end's tolerance.
fn lies_off(end: &Stand, ring: &[Point]) -> bool {
    let solid = Figure::new(vec![Form::Ring(ring.to_vec())], 0, None);
    figure_gap(end.figure, &solid).low > end.off
}

/// The part surely within an area, whatever its tolerance.
fn sure_parts(solid: &Hurdle) -> Vec<Vec<Point>> {
    let by = solid.off.saturating_add(SPARE);
    let rings = solid.figure.forms.iter().filter_map(|form| match form {
        Form::Ring(ring) => narrowed(ring, by),
        Form::Point(_) | Form::Path(_) => None,
    });
    rings.collect()
}

/// How far beside a corner a route passes it, in nanometres.
const NEAR: f64 = 1000.0;

/// Places just beside each corner of a ring, on both sides along its bisector.
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
