//! Searching the pairs of edges that may be the nearest.

use smallvec::SmallVec;

use crate::measure::distance::edge_runs::{
    Corners, EdgeRun, FloatLine, IndexedEdge, Place, along, between, less, more,
};
use crate::measure::distance::nearest::{MARGIN, Nearest};
use crate::measure::distance::{runs, tree};
use crate::measure::figure::chain::{Chain, Edge};
use crate::measure::figure::exact::floats_between;
use crate::plan::figure::Point;
use crate::work;

/// Up to this many pairs, or with this few corners on one side, all edges are compared with all.
const FEW: usize = 400;
const FEW_CORNERS: usize = 8;
/// Up to this many pairs runs are quicker than trees.
const SOME: usize = 1 << 20;

/// The most edges in a run or in a leaf of a tree.
pub(crate) const TOGETHER: usize = 8;

/// How to compare the edges of two lines.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Strategy {
    /// All edges of one with all of the other.
    Whole,
    /// Runs of edges with runs of edges.
    Runs,
    /// Trees of runs.
    Trees,
}

impl Strategy {
    fn of(one: Chain, other: Chain) -> Self {
        let (corners, against) = (one.points.len(), other.points.len());
        let pairs = corners.saturating_mul(against);
        if pairs <= FEW || corners.min(against) <= FEW_CORNERS {
            Strategy::Whole
        } else if pairs <= SOME {
            Strategy::Runs
        } else {
            Strategy::Trees
        }
    }
}

/// Finds the nearest places of two lines.
pub(crate) fn search(nearest: &mut Nearest) {
    // A corner costs about ten times as much here as in one pass round a ring.
    work::corners(10 * (nearest.one.points.len() + nearest.other.points.len()));
    by(Strategy::of(nearest.one, nearest.other), nearest);
}

/// The same by one of the three strategies.
pub(crate) fn by(way: Strategy, nearest: &mut Nearest) {
    let (mut corners, mut others) = (Corners::new(), Corners::new());
    let one = FloatLine::new(nearest.one, &mut corners);
    let other = FloatLine::new(nearest.other, &mut others);
    match way {
        Strategy::Whole => whole(&one, &other, nearest),
        Strategy::Runs => runs::search(&one, &other, nearest),
        Strategy::Trees => tree::search(&one, &other, nearest),
    }
}

/// All edges of one with all of the other. In the direction from one box to the other, an edge that begins farther ahead than
/// the limit is too far away; mostly that leaves few pairs.
fn whole(one: &FloatLine, other: &FloatLine, nearest: &mut Nearest) {
    let (few, against) = (one.whole(), other.whole());
    let way = few.frame.towards(&against.frame);
    let (ahead, first) = few.farthest(way);
    let (back, second) = against.farthest([-way[0], -way[1]]);
    nearest.apart = -back - ahead > MARGIN;
    nearest.within(between(first, second));
    if !nearest.apart {
        let (_, second) = nearest_corner(other.corners(), first);
        nearest.within(nearest_corner(one.corners(), second).0);
    }
    let mut near: SmallVec<[(f64, IndexedEdge); 24]> = SmallVec::new();
    for side in against.edges() {
        let begins = side.begins(way);
        if begins <= ahead + nearest.reach() {
            near.push((begins, side));
        }
    }
    for side in few.edges() {
        let ahead = side.reaches(way);
        if -back > ahead + nearest.reach() {
            continue;
        }
        for (begins, against) in &near {
            let between = begins - ahead;
            if between <= MARGIN {
                pair(&side, against, nearest);
            } else if between <= nearest.reach() {
                nearest.pair(&side, against);
            }
        }
        if nearest.met_by(side.index) {
            return;
        }
    }
}

/// The nearest corner to a place, and before it the square of its distance.
#[inline]
pub(crate) fn nearest_corner(corners: &[Place], to: Place) -> (f64, Place) {
    let least = corners
        .iter()
        .map(|at| between(*at, to))
        .fold(f64::INFINITY, less);
    let nearest = corners.iter().find(|at| between(**at, to) <= least);
    (least, nearest.copied().unwrap_or(to))
}

/// Compares a run of edges of one line with a run of the other, in the direction between their boxes. Besides edges this
/// leaves out single ends: most of them where two lines run side by side.
#[inline]
pub(crate) fn meet(one: &EdgeRun, other: &EdgeRun, nearest: &mut Nearest) {
    let way = one.frame.towards(&other.frame);
    let mut far = [0.0; TOGETHER + 1];
    let mut first = f64::INFINITY;
    for (far, at) in far.iter_mut().zip(other.at) {
        *far = along(*at, way);
        first = less(first, *far);
    }
    let mut tip = one.at.first().map_or(first, |at| along(*at, way));
    for side in one.edges() {
        let start = tip;
        tip = along(side.end(), way);
        let ahead = more(start, tip);
        if first > ahead + nearest.reach() {
            continue;
        }
        for ([start, end], against) in far.array_windows().zip(other.edges()) {
            let begins = less(*start, *end);
            if begins > ahead + nearest.reach() {
                continue;
            }
            if begins - ahead <= MARGIN {
                pair(&side, &against, nearest);
                continue;
            }
            if begins <= tip + nearest.reach() {
                nearest.end(&side, &against);
            }
            if *end <= ahead + nearest.reach() {
                nearest.back(&side, &against);
            }
        }
        if nearest.met_by(side.index) {
            return;
        }
    }
}

/// Compares two edges that may meet, starting with their boxes.
fn pair(side: &IndexedEdge, against: &IndexedEdge, nearest: &mut Nearest) {
    let between = side.frame().apart(&against.frame());
    if between == 0.0 {
        nearest.close_pair(side, against);
    } else if between <= nearest.limit() {
        nearest.pair(side, against);
    }
}

/// The square of the distance from a point to an edge, in floats. Its root is good to 0.02 nm within 20 km: the differences are
/// exact, and the product loses at most one unit in the last place of the distance to an end.
#[inline]
pub(crate) fn nearly(edge: &Edge, point: Point) -> f64 {
    let (x, y) = floats_between(edge.a, edge.b);
    let (px, py) = floats_between(edge.a, point);
    let along = px * x + py * y;
    let squared = x * x + y * y;
    if along <= 0.0 {
        return px * px + py * py;
    }
    if along >= squared {
        let (qx, qy) = (px - x, py - y);
        return qx * qx + qy * qy;
    }
    let across = x * py - y * px;
    across * across / squared
}
