//! Two lines of some hundred edges against each other: runs of a few edges in boxes, and how far the edges of two runs
//! come towards each other. Cheaper to lay out than trees for a single question.
//!
//! All in floats, which hold the coordinates of a valid plan exactly; what is made of them here is good to 0.02 nm, as
//! the floats that limits are made from.

use smallvec::SmallVec;

use super::chain::{Chain, Edge};
use super::search::Visitor;

/// Edges in a run at most.
const RUN: usize = 8;
/// Up to so many edges runs are half as long.
const SHORT: usize = 80;

type Place = [f64; 2];

/// An upright rectangle.
#[derive(Clone, Copy)]
struct Frame {
    low: Place,
    high: Place,
}

impl Frame {
    const NONE: Frame = Frame {
        low: [f64::INFINITY; 2],
        high: [f64::NEG_INFINITY; 2],
    };

    #[inline]
    fn join(self, other: Frame) -> Frame {
        let (low, high) = (other.low, other.high);
        Frame {
            low: [less(self.low[0], low[0]), less(self.low[1], low[1])],
            high: [more(self.high[0], high[0]), more(self.high[1], high[1])],
        }
    }

    /// The square of the least distance between two, 0 when they touch.
    #[inline]
    fn apart(&self, other: &Frame) -> f64 {
        let x = more(other.low[0] - self.high[0], self.low[0] - other.high[0]);
        let y = more(other.low[1] - self.high[1], self.low[1] - other.high[1]);
        let (x, y) = (more(x, 0.0), more(y, 0.0));
        x * x + y * y
    }

    /// The direction from the middle of this to that of another, of length 1, or none where they are the same.
    fn towards(&self, other: &Frame) -> Place {
        let x = other.low[0] - self.low[0] + other.high[0] - self.high[0];
        let y = other.low[1] - self.low[1] + other.high[1] - self.high[1];
        let length = (x * x + y * y).sqrt();
        let share = if length > 0.0 { 1.0 / length } else { 0.0 };
        [x * share, y * share]
    }
}

/// Of two floats the lesser; a single instruction, where `f64::min` also looks for what is no number.
#[inline]
fn less(one: f64, other: f64) -> f64 {
    if one < other { one } else { other }
}

#[inline]
fn more(one: f64, other: f64) -> f64 {
    if one > other { one } else { other }
}

/// An edge with what is asked of it again and again.
struct Laid {
    edge: Edge,
    ends: [Place; 2],
    frame: Frame,
}

impl Laid {
    #[inline]
    fn new(edge: Edge) -> Self {
        let [start, end] = [edge.a, edge.b].map(|end| [end.x as f64, end.y as f64]);
        let single = |at: Place| Frame { low: at, high: at };
        Laid {
            edge,
            ends: [start, end],
            frame: single(start).join(single(end)),
        }
    }

    /// How far its two ends lie in a direction.
    #[inline]
    fn along(&self, way: Place) -> (f64, f64) {
        let [start, end] = self.ends.map(|end| end[0] * way[0] + end[1] * way[1]);
        (start, end)
    }
}

/// The edges of a line, a few and a few, each few in a box.
pub(crate) struct Runs {
    /// How many edges are a few.
    few: usize,
    edges: Vec<Laid>,
    frames: Vec<Frame>,
}

impl Runs {
    pub fn new(chain: Chain) -> Self {
        let count = chain.points.len();
        let mut edges = Vec::with_capacity(count);
        edges.extend(chain.edges().map(Laid::new));
        let few = if count > SHORT { RUN } else { RUN / 2 };
        let frames = edges.chunks(few).map(around).collect();
        Runs { few, edges, frames }
    }

    fn each(&self) -> impl Iterator<Item = (&[Laid], &Frame)> {
        self.edges.chunks(self.few).zip(&self.frames)
    }

    /// The end of the edge in the middle of each run.
    fn sample(&self) -> impl Iterator<Item = &Laid> {
        self.edges.iter().skip(self.few / 2).step_by(self.few)
    }
}

fn around(run: &[Laid]) -> Frame {
    run.iter()
        .fold(Frame::NONE, |all, laid| all.join(laid.frame))
}

/// A distance, squared, that some two corners are not farther apart than: the nearest of a few, and what is nearest to it.
pub(crate) fn guess(one: &Runs, other: &Runs) -> f64 {
    let mut least = (f64::INFINITY, [0.0; 2]);
    for laid in one.sample() {
        let (squared, _) = nearest(other.sample(), laid.ends[1]);
        if squared < least.0 {
            least = (squared, laid.ends[1]);
        }
    }
    let (_, beside) = nearest(other.edges.iter(), least.1);
    nearest(one.edges.iter(), beside).0
}

/// Of the ends of some edges the nearest to a place, after the square of its distance.
#[inline]
fn nearest<'l>(edges: impl Iterator<Item = &'l Laid>, to: Place) -> (f64, Place) {
    let mut least = (f64::INFINITY, to);
    for laid in edges {
        let [_, end] = laid.ends;
        let (x, y) = (end[0] - to[0], end[1] - to[1]);
        let squared = x * x + y * y;
        if squared < least.0 {
            least = (squared, end);
        }
    }
    least
}

/// The pairs of edges that may matter, in the order of their edges.
pub(crate) fn visit(one: &Runs, other: &Runs, visitor: &mut impl Visitor) {
    for (run, around) in one.each() {
        let limit = visitor.limit();
        let mut facing: SmallVec<[Facing; 16]> = SmallVec::new();
        for (against, beside) in other.each() {
            if around.apart(beside) <= limit {
                facing.push(Facing::new(around.towards(beside), against));
            }
        }
        for laid in run {
            let reach = visitor.limit().max(0.0).sqrt();
            facing
                .iter()
                .for_each(|facing| facing.meet(laid, reach, visitor));
        }
    }
}

/// The edges of a run, seen in the direction of their box.
struct Facing<'e> {
    way: Place,
    run: &'e [Laid],
    /// How far ahead the first of them begins.
    least: f64,
}

impl<'e> Facing<'e> {
    fn new(way: Place, run: &'e [Laid]) -> Self {
        let begins = |laid: &Laid| {
            let (start, end) = laid.along(way);
            less(start, end)
        };
        let least = run.iter().map(begins).fold(f64::INFINITY, less);
        Facing { way, run, least }
    }

    /// An edge with all that may matter: what begins farther ahead of it than the limit lies farther away.
    #[inline]
    fn meet(&self, laid: &Laid, limit: f64, visitor: &mut impl Visitor) {
        let (start, end) = laid.along(self.way);
        let reach = more(start, end) + limit;
        if self.least > reach {
            return;
        }
        for other in self.run {
            let apart = laid.frame.apart(&other.frame);
            if apart <= visitor.limit() {
                let (start, end) = other.along(self.way);
                if less(start, end) <= reach {
                    visitor.pair(laid.edge, other.edge, apart == 0.0);
                }
            }
        }
    }
}
