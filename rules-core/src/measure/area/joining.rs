//! Cutting and joining polygons. The steps are counted beforehand, because these operations cannot be stopped midway, and take
//! long where many sides cross.
//!
//! Once all steps are spent the results are empty and wrong, but then no findings are given at all.

use geo::{
    BooleanOps, Coord, Line, LineString, LinesIter, MultiLineString, MultiPolygon, Polygon,
    unary_union,
};

use crate::measure::figure::touching::{Rectangle, touching};
use crate::work;

/// The steps for two sides that cross.
const STEPS_A_CROSSING: u64 = 30;
/// The steps for two sides that only come near each other.
const STEPS_A_PAIR: u64 = 2;

/// The union of some polygons.
pub(crate) fn joined(all: &[Polygon]) -> MultiPolygon {
    match is_paid(all.iter().flat_map(LinesIter::lines_iter)) {
        true => unary_union(all),
        false => MultiPolygon(Vec::new()),
    }
}

/// The intersection of two areas.
pub(crate) fn shared(one: &MultiPolygon, other: &MultiPolygon) -> MultiPolygon {
    match is_paid(one.lines_iter().chain(other.lines_iter())) {
        true => one.intersection(other),
        false => MultiPolygon(Vec::new()),
    }
}

/// The difference of two areas.
pub(crate) fn difference(whole: &MultiPolygon, without: &MultiPolygon) -> MultiPolygon {
    match is_paid(whole.lines_iter().chain(without.lines_iter())) {
        true => whole.difference(without),
        false => MultiPolygon(Vec::new()),
    }
}

/// The part of a line in an area, or outside it.
pub(crate) fn clipped(area: &MultiPolygon, line: LineString, beyond: bool) -> MultiLineString {
    match is_paid(area.lines_iter().chain(line.lines_iter())) {
        true => area.clip(&MultiLineString(vec![line]), beyond),
        false => MultiLineString(Vec::new()),
    }
}

/// Counts the steps that an operation will take; whether enough are left for it.
fn is_paid(sides: impl Iterator<Item = Line>) -> bool {
    let around = |side: &Line| Rectangle::of(side.start.x_y(), side.end.x_y());
    let sides: Vec<Line> = sides.collect();
    let rectangles: Vec<_> = sides.iter().map(around).collect();
    touching(&rectangles, |one, other| {
        let both = sides.get(one).zip(sides.get(other));
        let crossing =
            both.is_some_and(|(one, other)| straddles(one, other) && straddles(other, one));
        work::step(if crossing {
            STEPS_A_CROSSING
        } else {
            STEPS_A_PAIR
        });
        true
    });
    !work::is_spent()
}

/// Whether the ends of a side are on opposite sides of another side's line.
fn straddles(side: &Line, other: &Line) -> bool {
    let along = other.delta();
    let hand = |end: Coord| {
        let from = end - other.start;
        along.x * from.y - along.y * from.x
    };
    hand(side.start) * hand(side.end) < 0.0
}
