//! A form as a chain of edges, and boxes around them.

use std::cmp::Ordering;

use crate::measure::figure::exact::{Vector, between, turn};
use crate::plan::figure::{Form, Point};

/// A straight edge; for a single point both ends are the same.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Edge {
    pub a: Point,
    pub b: Point,
}

/// An axis-aligned rectangle.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Bounds {
    pub low: Point,
    pub high: Point,
}

impl Bounds {
    #[inline]
    pub fn of(a: Point, b: Point) -> Self {
        Bounds {
            low: Point {
                x: a.x.min(b.x),
                y: a.y.min(b.y),
            },
            high: Point {
                x: a.x.max(b.x),
                y: a.y.max(b.y),
            },
        }
    }

    #[inline]
    pub fn join(self, other: Self) -> Self {
        Bounds {
            low: Point {
                x: self.low.x.min(other.low.x),
                y: self.low.y.min(other.low.y),
            },
            high: Point {
                x: self.high.x.max(other.high.x),
                y: self.high.y.max(other.high.y),
            },
        }
    }

    /// The box with a rim of `by` around it.
    pub fn wider(self, by: i64) -> Self {
        let moved = |at: Point, by: i64| Point {
            x: at.x.saturating_add(by),
            y: at.y.saturating_add(by),
        };
        Bounds {
            low: moved(self.low, by.saturating_neg()),
            high: moved(self.high, by),
        }
    }

    /// The box around some points, if there are any.
    pub fn around(points: &[Point]) -> Option<Self> {
        let (first, rest) = points.split_first()?;
        Some(rest.iter().fold(Bounds::of(*first, *first), |all, p| {
            all.join(Bounds::of(*p, *p))
        }))
    }

    #[inline]
    pub fn touches(&self, other: &Self) -> bool {
        self.low.x <= other.high.x
            && other.low.x <= self.high.x
            && self.low.y <= other.high.y
            && other.low.y <= self.high.y
    }

    /// The square of the least distance between two boxes; 0 where they touch.
    #[inline]
    pub fn apart(&self, other: &Self) -> f64 {
        let x = gap(self.low.x, self.high.x, other.low.x, other.high.x);
        let y = gap(self.low.y, self.high.y, other.low.y, other.high.y);
        x * x + y * y
    }

    /// Half the perimeter, for choosing which of two boxes to split.
    pub fn size(&self) -> i64 {
        let across = Vector::between(self.low, self.high);
        across.x.saturating_add(across.y)
    }
}

#[inline]
fn gap(low: i64, high: i64, other_low: i64, other_high: i64) -> f64 {
    other_low
        .wrapping_sub(high)
        .max(low.wrapping_sub(other_high))
        .max(0) as f64
}

impl Edge {
    #[inline]
    pub fn bounds(&self) -> Bounds {
        Bounds::of(self.a, self.b)
    }

    /// Whether two edges have a point in common, decided exactly.
    pub fn meets(&self, other: &Self) -> bool {
        let (c, d) = (turn(self.a, self.b, other.a), turn(self.a, self.b, other.b));
        if c == d && c != Ordering::Equal {
            return false;
        }
        let (a, b) = (
            turn(other.a, other.b, self.a),
            turn(other.a, other.b, self.b),
        );
        if a == b && a != Ordering::Equal {
            return false;
        }
        if c != d && a != b {
            return true;
        }
        // All on one line, or one of them is a single point.
        self.holds(other.a) || self.holds(other.b) || other.holds(self.a) || other.holds(self.b)
    }

    /// Whether the edges cross at a point inside both.
    pub fn crosses(&self, other: &Self) -> bool {
        let (c, d) = (turn(self.a, self.b, other.a), turn(self.a, self.b, other.b));
        let (a, b) = (
            turn(other.a, other.b, self.a),
            turn(other.a, other.b, self.b),
        );
        let split = |one: Ordering, two: Ordering| one != two && one.is_ne() && two.is_ne();
        split(a, b) && split(c, d)
    }

    /// Whether a point lies on the edge, ends included.
    pub fn holds(&self, p: Point) -> bool {
        between(self.a, self.b, p) && turn(self.a, self.b, p).is_eq()
    }
}

/// The edges of a form. The first edge of a ring is the one that closes it; that of a path is its first point alone. So each
/// point is the end of exactly one edge, and it is enough to look at ends.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Chain<'a> {
    pub points: &'a [Point],
    pub closed: bool,
}

impl<'a> Chain<'a> {
    pub fn of(form: &'a Form) -> Self {
        Chain {
            points: form.points(),
            closed: matches!(form, Form::Ring(_)),
        }
    }

    pub fn ring(points: &'a [Point]) -> Self {
        Chain {
            points,
            closed: true,
        }
    }

    /// Where the first edge starts.
    #[inline]
    pub fn start(self) -> Option<&'a Point> {
        if self.closed {
            self.points.last()
        } else {
            self.points.first()
        }
    }

    /// The edge that ends at a corner.
    #[inline]
    pub fn edge(self, corner: usize) -> Option<Edge> {
        let before = corner.checked_sub(1);
        let start = before.map_or_else(|| self.start(), |before| self.points.get(before));
        let end = self.points.get(corner);
        start.zip(end).map(|(a, b)| Edge { a: *a, b: *b })
    }

    #[inline]
    pub fn edges(self) -> impl Iterator<Item = Edge> + Clone + 'a {
        let mut before = self.start().copied();
        self.points
            .iter()
            .filter_map(move |&b| before.replace(b).map(|a| Edge { a, b }))
    }

    pub fn first(self) -> Option<Point> {
        self.points.first().copied()
    }
}

/// The corners of a form, as drawn.
pub(crate) fn points(form: &Form) -> &[Point] {
    Chain::of(form).points
}
