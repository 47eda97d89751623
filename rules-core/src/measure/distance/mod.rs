//! The least distance between two forms, exact to the last bit.
//!
//! Floats find where the distance is least; whole numbers then decide it. A form is its lines and, for a ring, everything
//! within it: forms that overlap or touch are 0 apart.

pub(super) mod beyond;
pub(super) mod course;
pub(super) mod crossings;
pub(super) mod deep;
#[cfg(test)]
pub(super) mod distance_tests;
pub(super) mod edge_runs;
pub(super) mod nearest;
pub(super) mod reach;
#[cfg(test)]
pub(super) mod reach_tests;
pub(super) mod runs;
pub(super) mod search;
pub(super) mod space;
pub(super) mod tree;
pub(super) mod widest;

use smallvec::SmallVec;

use crate::measure::distance::course::courses_gap;
use crate::measure::distance::nearest::{MARGIN, Nearest};
use crate::measure::distance::search::search;
use crate::measure::figure::chain::{Bounds, Chain, Edge};
use crate::measure::figure::exact::{Span, Vector, from_line, part_way, root};
use crate::measure::figure::inside::{Side, side};
use crate::plan::figure::{Figure, Form, Point};

/// The distance between two things, and where it was taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Gap {
    /// The distance in nanometres, rounded down.
    pub low: i64,
    /// The distance in nanometres, rounded up; the same as `low` when it is a whole number.
    pub high: i64,
    /// The place on the first thing, to the nearest nanometre.
    pub from: Point,
    /// The place on the second thing, to the nearest nanometre.
    pub to: Point,
}

impl Gap {
    pub(super) fn touching(at: Point) -> Self {
        Gap {
            low: 0,
            high: 0,
            from: at,
            to: at,
        }
    }

    /// The same, where it is known to be no less.
    pub(super) fn at_least(self, low: i64) -> Self {
        Gap {
            low: self.low.max(low.min(self.high)),
            ..self
        }
    }

    pub(super) fn new(span: Span, from: Point, to: Point) -> Self {
        Gap {
            low: span.low,
            high: span.high,
            from,
            to,
        }
    }

    /// An unknown distance: one of the things has no points at all.
    pub(crate) fn unknown() -> Self {
        let origin = Point { x: 0, y: 0 };
        Gap::new(Span::ANYTHING, origin, origin)
    }

    /// The distance without the places.
    pub fn span(&self) -> Span {
        Span {
            low: self.low,
            high: self.high,
        }
    }

    pub(super) fn swapped(self) -> Self {
        Gap {
            from: self.to,
            to: self.from,
            ..self
        }
    }
}

/// The distance between two forms. Areas count as filled, so it is 0 exactly where they touch or overlap.
///
/// Of several nearest places, the one whose edges come first in the order of search is given, on every machine the same. A form
/// without points may be anywhere.
pub fn distance(a: &Form, b: &Form) -> Gap {
    let mut nearest = Nearest::new(Chain::of(a), Chain::of(b));
    search(&mut nearest);
    let gap = nearest.gap();
    if nearest.apart || gap.high == 0 {
        return gap;
    }
    contained(a, b)
        .or_else(|| contained(b, a))
        .map_or(gap, Gap::touching)
}

/// A point of `inner`, if it is in the area of `outer`.
fn contained(outer: &Form, inner: &Form) -> Option<Point> {
    let Form::Ring(ring) = outer else { return None };
    Chain::of(inner)
        .first()
        .filter(|point| side(ring, *point) != Side::Outside)
}

/// The distance between the lines alone; areas do not count as filled.
pub(crate) fn between_lines(a: Chain, b: Chain) -> Gap {
    let mut nearest = Nearest::new(a, b);
    search(&mut nearest);
    nearest.gap()
}

/// The distance from a point to a line or to the border of an area.
pub(crate) fn to_line(point: Point, line: Chain) -> Gap {
    between_lines(
        Chain {
            points: std::slice::from_ref(&point),
            closed: false,
        },
        line,
    )
}

/// The distance from a point to an edge, exactly.
pub(crate) fn from_point(point: Point, edge: &Edge) -> Gap {
    let (line, off) = (
        Vector::between(edge.a, edge.b),
        Vector::between(edge.a, point),
    );
    let (along, squared) = (line.dot(off), line.squared());
    if along <= 0 {
        return Gap::new(root(off.squared()), point, edge.a);
    }
    if along.unsigned_abs() >= squared {
        return Gap::new(
            root(Vector::between(edge.b, point).squared()),
            point,
            edge.b,
        );
    }
    let foot = part_way(edge.a, edge.b, along as f64 / squared as f64);
    Gap::new(from_line(line.cross(off), squared), point, foot)
}

/// The point where two edges meet, to the nearest nanometre. They must meet.
pub(crate) fn in_common(one: &Edge, other: &Edge) -> Point {
    let corner = [
        (other, one.a),
        (other, one.b),
        (one, other.a),
        (one, other.b),
    ];
    if let Some((_, at)) = corner.into_iter().find(|(edge, point)| edge.holds(*point)) {
        return at;
    }
    let (line, against) = (
        Vector::between(one.a, one.b),
        Vector::between(other.a, other.b),
    );
    let share = Vector::between(one.a, other.a).cross(against) as f64 / line.cross(against) as f64;
    part_way(one.a, one.b, share)
}

/// The distance between two outlines: the least over their forms, minus both spreads.
///
/// Exact like [`distance`], because the spreads are whole numbers; arcs are measured as arcs. The one exception: where it is
/// open whether a straight side passes through the very end of an arc, `low` is 0 and `high` a few nanometres. The places are
/// on the outlines; where these overlap they are a single place in both.
pub fn figure_gap(a: &Figure, b: &Figure) -> Gap {
    let spread = a.spread.saturating_add(b.spread);
    let gap = match a.curved.is_empty() && b.curved.is_empty() {
        true => forms_gap(&a.forms, &b.forms),
        false => courses_gap(a, b),
    };
    let low = gap.low.saturating_sub(spread).max(0);
    let high = if gap.high == i64::MAX {
        gap.high
    } else {
        gap.high.saturating_sub(spread).max(0)
    };
    if spread == 0 || gap.high == i64::MAX {
        return Gap { low, high, ..gap };
    }
    let length = gap.high.max(1) as f64;
    let (start, end) = if high > 0 {
        (a.spread as f64 / length, 1.0 - b.spread as f64 / length)
    } else {
        let share = a.spread as f64 / spread as f64;
        (share, share)
    };
    let (from, to) = (
        part_way(gap.from, gap.to, start),
        part_way(gap.from, gap.to, end),
    );
    Gap {
        low,
        high,
        from,
        to,
    }
}

/// The least distance between two sets of forms; that of the first pair among equals.
pub(crate) fn forms_gap(a: &[Form], b: &[Form]) -> Gap {
    let boxed = |form| Bounds::around(Chain::of(form).points).map(|bounds| (form, bounds));
    let others: SmallVec<[_; 4]> = b.iter().filter_map(boxed).collect();
    let mut best: Option<Gap> = None;
    for (form, bounds) in a.iter().filter_map(boxed) {
        for (other, around) in &others {
            let reach = best.map_or(f64::INFINITY, |best| best.high as f64 + MARGIN);
            if bounds.apart(around) > reach * reach {
                continue;
            }
            let gap = distance(form, other);
            if best.is_none_or(|best| gap.span() < best.span()) {
                best = Some(gap);
            }
        }
    }
    best.unwrap_or_else(Gap::unknown)
}
