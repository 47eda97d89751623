//! Cutting and joining polygons, paid for before it is begun: where many sides cross many others nothing can stop it midway.
//!
//! What comes out once all steps are spent is worth nothing, and nobody gets to see it.

use geo::{
    BooleanOps, Coord, Line, LineString, LinesIter, MultiLineString, MultiPolygon, Polygon,
    unary_union,
};

use crate::measure::figure::touching::{Rectangle, touching};
use crate::work;

/// Two sides that cross cost so many steps to join.
const STEPS_A_CROSSING: u64 = 30;
/// Two sides that only come near each other cost so many.
const STEPS_A_PAIR: u64 = 2;

/// Some polygons as one area.
pub(crate) fn joined(all: &[Polygon]) -> MultiPolygon {
    match is_paid(all.iter().flat_map(LinesIter::lines_iter)) {
        true => unary_union(all),
        false => MultiPolygon(Vec::new()),
    }
}

/// What two areas share.
pub(crate) fn shared(one: &MultiPolygon, other: &MultiPolygon) -> MultiPolygon {
    match is_paid(one.lines_iter().chain(other.lines_iter())) {
        true => one.intersection(other),
        false => MultiPolygon(Vec::new()),
    }
}

/// What of an area another leaves.
pub(crate) fn left(whole: &MultiPolygon, without: &MultiPolygon) -> MultiPolygon {
    match is_paid(whole.lines_iter().chain(without.lines_iter())) {
        true => whole.difference(without),
        false => MultiPolygon(Vec::new()),
    }
}

/// What of a line lies in an area, or beyond it.
pub(crate) fn clipped(area: &MultiPolygon, line: LineString, beyond: bool) -> MultiLineString {
    match is_paid(area.lines_iter().chain(line.lines_iter())) {
        true => area.clip(&MultiLineString(vec![line]), beyond),
        false => MultiLineString(Vec::new()),
    }
}

/// Counts what joining will take; whether it may be begun.
fn is_paid(sides: impl Iterator<Item = Line>) -> bool {
    let around = |side: &Line| Rectangle::of(side.start.x_y(), side.end.x_y());
    let sides: Vec<Line> = sides.collect();
    let rectangles: Vec<_> = sides.iter().map(around).collect();
    touching(&rectangles, |one, other| {
        let both = sides.get(one).zip(sides.get(other));
        let crossing = both.is_some_and(|(one, other)| part(one, other) && part(other, one));
        work::step(if crossing {
            STEPS_A_CROSSING
        } else {
            STEPS_A_PAIR
        });
        true
    });
    !work::is_spent()
}

/// Whether the ends of a side lie to either hand of another.
fn part(side: &Line, other: &Line) -> bool {
    let along = other.delta();
    let hand = |end: Coord| {
        let from = end - other.start;
        along.x * from.y - along.y * from.x
    };
    hand(side.start) * hand(side.end) < 0.0
}
