//! A line prepared for a search: its corners in floats, and runs of edges, each in an axis-aligned box.
//!
//! Floats hold the coordinates of a valid plan exactly; distances computed from them here are good to 0.02 nm.

use smallvec::SmallVec;

use crate::measure::figure::chain::Chain;
use crate::plan::figure::Point;

/// East and north; also used for a direction.
pub(crate) type Place = [f64; 2];

/// The number of corners that fit without an allocation.
const CORNERS: usize = 64;

/// The lesser of two floats: a single instruction, while `f64::min` also handles NaN.
#[inline]
pub(crate) fn less(one: f64, other: f64) -> f64 {
    if one < other { one } else { other }
}

/// The greater of two floats.
#[inline]
pub(crate) fn more(one: f64, other: f64) -> f64 {
    if one > other { one } else { other }
}

/// How far along a direction a place is.
#[inline]
pub(crate) fn along(at: Place, way: Place) -> f64 {
    at[0] * way[0] + at[1] * way[1]
}

/// The square of the distance between two places.
#[inline]
pub(crate) fn between(one: Place, other: Place) -> f64 {
    let (x, y) = (other[0] - one[0], other[1] - one[1]);
    x * x + y * y
}

/// An axis-aligned rectangle.
#[derive(Clone, Copy)]
pub(crate) struct Frame {
    low: Place,
    high: Place,
}

impl Frame {
    const NONE: Frame = Frame {
        low: [f64::INFINITY; 2],
        high: [f64::NEG_INFINITY; 2],
    };

    /// Around two places.
    #[inline]
    pub fn of(one: Place, other: Place) -> Frame {
        Frame {
            low: [less(one[0], other[0]), less(one[1], other[1])],
            high: [more(one[0], other[0]), more(one[1], other[1])],
        }
    }

    #[inline]
    pub fn around(places: &[Place]) -> Frame {
        places.iter().fold(Frame::NONE, |all, at| Frame {
            low: [less(all.low[0], at[0]), less(all.low[1], at[1])],
            high: [more(all.high[0], at[0]), more(all.high[1], at[1])],
        })
    }

    #[inline]
    pub fn join(self, other: Frame) -> Frame {
        let (low, high) = (other.low, other.high);
        Frame {
            low: [less(self.low[0], low[0]), less(self.low[1], low[1])],
            high: [more(self.high[0], high[0]), more(self.high[1], high[1])],
        }
    }

    /// The square of the least distance between two; 0 where they touch.
    #[inline]
    pub fn apart(&self, other: &Frame) -> f64 {
        let x = more(other.low[0] - self.high[0], self.low[0] - other.high[0]);
        let y = more(other.low[1] - self.high[1], self.low[1] - other.high[1]);
        let (x, y) = (more(x, 0.0), more(y, 0.0));
        x * x + y * y
    }

    /// The unit vector from the middle of this to that of another; zero where they are the same.
    #[inline]
    pub fn towards(&self, other: &Frame) -> Place {
        let x = other.low[0] - self.low[0] + other.high[0] - self.high[0];
        let y = other.low[1] - self.low[1] + other.high[1] - self.high[1];
        let length = (x * x + y * y).sqrt();
        let share = if length > 0.0 { 1.0 / length } else { 0.0 };
        [x * share, y * share]
    }

    /// Half the perimeter, for choosing which of two boxes to split.
    pub fn size(&self) -> f64 {
        self.high[0] - self.low[0] + self.high[1] - self.low[1]
    }
}

/// A buffer for the corners of a line.
pub(crate) type Corners = SmallVec<[Place; CORNERS]>;

/// The corners of a line, preceded by the start of its first edge.
pub(crate) struct FloatLine<'l>(&'l [Place]);

impl<'l> FloatLine<'l> {
    #[inline]
    pub fn new(chain: Chain, corners: &'l mut Corners) -> Self {
        let place = |at: &Point| [at.x as f64, at.y as f64];
        corners.extend(chain.start().into_iter().map(place));
        corners.extend(chain.points.iter().map(place));
        FloatLine(corners)
    }

    /// All its edges as one run.
    #[inline]
    pub fn whole(&self) -> EdgeRun<'l> {
        EdgeRun::new(0, self.0)
    }

    /// Its edges in runs of `length`.
    pub fn runs(&self, length: usize) -> impl Iterator<Item = EdgeRun<'l>> {
        let firsts = (0..self.corners().len()).step_by(length);
        firsts.filter_map(move |first| self.run(first, length))
    }

    /// The run of `length` edges from the `first` on, or as many as there are.
    #[inline]
    pub fn run(&self, first: usize, length: usize) -> Option<EdgeRun<'l>> {
        let end = (first + length + 1).min(self.0.len());
        self.0.get(first..end).map(|at| EdgeRun::new(first, at))
    }

    /// Its corners, without the start.
    pub fn corners(&self) -> &'l [Place] {
        self.0.get(1..).unwrap_or_default()
    }
}

/// A run of consecutive edges.
#[derive(Clone, Copy)]
pub(crate) struct EdgeRun<'l> {
    first: usize,
    pub at: &'l [Place],
    pub frame: Frame,
}

impl<'l> EdgeRun<'l> {
    fn new(first: usize, at: &'l [Place]) -> Self {
        let frame = Frame::around(at);
        EdgeRun { first, at, frame }
    }

    /// The index of the last edge.
    pub fn last(&self) -> usize {
        self.first + self.at.len().saturating_sub(2)
    }

    #[inline]
    pub fn edges(&self) -> impl Iterator<Item = IndexedEdge<'l>> + use<'l> {
        let first = self.first;
        let ends = self.at.array_windows().enumerate();
        ends.map(move |(index, ends)| IndexedEdge {
            index: first + index,
            ends,
        })
    }

    /// The corner that is farthest along a direction, and how far.
    #[inline]
    pub fn farthest(&self, way: Place) -> (f64, Place) {
        let mut most = (f64::NEG_INFINITY, way);
        for at in self.at {
            let far = along(*at, way);
            most = if far > most.0 { (far, *at) } else { most };
        }
        most
    }
}

/// An edge of a line, with its index.
#[derive(Clone, Copy)]
pub(crate) struct IndexedEdge<'l> {
    pub index: usize,
    pub ends: &'l [Place; 2],
}

impl IndexedEdge<'_> {
    #[inline]
    pub fn frame(&self) -> Frame {
        Frame::of(self.ends[0], self.ends[1])
    }

    #[inline]
    pub fn end(&self) -> Place {
        self.ends[1]
    }

    /// How far along a direction it ends.
    #[inline]
    pub fn reaches(&self, way: Place) -> f64 {
        more(along(self.ends[0], way), along(self.ends[1], way))
    }

    /// How far along a direction it begins.
    #[inline]
    pub fn begins(&self, way: Place) -> f64 {
        less(along(self.ends[0], way), along(self.ends[1], way))
    }

    /// The square of the distance from a place. The root of it is good to 0.02 nm within 20 km: the differences are
    /// exact, and the nearest place on the edge is off by no more than some units in the last place of the distance
    /// to an end.
    #[inline]
    pub fn nearly(&self, at: Place) -> f64 {
        let [start, end] = *self.ends;
        let (x, y) = (end[0] - start[0], end[1] - start[1]);
        let (px, py) = (at[0] - start[0], at[1] - start[1]);
        #[expect(
            clippy::manual_clamp,
            reason = "a single point has no length: `max` turns the NaN into 0, `clamp` would not"
        )]
        let share = ((px * x + py * y) / (x * x + y * y)).max(0.0).min(1.0);
        let (px, py) = (px - share * x, py - share * y);
        px * px + py * py
    }
}
