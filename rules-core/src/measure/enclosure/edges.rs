//! All straight edges of all walls, in a tree of boxes, for finding edges near each other.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::rc::Rc;

use smallvec::SmallVec;

use super::super::distance::from_point;
use super::links::Link;
use super::{Opening, Tolerance, View, Wall};
use crate::measure::distance::search::nearly;
use crate::measure::figure::chain::{Bounds, Chain, Edge};
use crate::measure::figure::exact::{Span, floats_between};
use crate::plan::figure::{Form, Point};
use crate::work;

/// The number of edges in one leaf.
const LEAF: usize = 4;
/// A margin for the error of the floats, which are good to 0.02 nm.
const MARGIN: f64 = 1.0;

/// One straight edge of a wall.
#[derive(Debug, Clone, Copy)]
pub(super) struct Piece {
    pub edge: Edge,
    /// The index of its wall.
    pub wall: usize,
    /// The edge that begins where this one ends, if any.
    pub next: Option<usize>,
    /// The edge that ends where this one begins, if any.
    before: Option<usize>,
    spread: i64,
    tolerance: Tolerance,
}

impl Piece {
    /// Its thickness and its tolerance.
    fn class(&self) -> (i64, Tolerance) {
        (self.spread, self.tolerance)
    }
}

/// A box around some consecutive edges.
#[derive(Debug, Clone, Copy)]
struct Boxed {
    bounds: Bounds,
    /// Their thickness and tolerance, where it is the same for all.
    class: Option<(i64, Tolerance)>,
}

impl Boxed {
    fn of(piece: &Piece) -> Self {
        Boxed {
            bounds: piece.edge.bounds(),
            class: Some(piece.class()),
        }
    }

    fn join(self, other: Self) -> Self {
        Boxed {
            bounds: self.bounds.join(other.bounds),
            class: self.class.filter(|class| Some(*class) == other.class),
        }
    }
}

/// The far ends of the edges before and after an edge. A link from the edge that passes either of them need not be looked at:
/// links from there are shorter.
struct Neighbours {
    own: [Point; 2],
    ends: [Option<Point>; 2],
    class: (i64, Tolerance),
    /// How far below zero the product must be, in square nanometres.
    clear: f64,
}

impl Neighbours {
    /// Whether, for every link from the edge into a box, one of the two ends is clearly inside the link's disc, which means
    /// that the angle there is more than a right angle. The dot product that shows this is linear in both ends of the link,
    /// so it is enough to test corners.
    fn hide(&self, boxed: &Boxed) -> bool {
        let (low, high) = (boxed.bounds.low, boxed.bounds.high);
        let corners = [
            (low.x, low.y),
            (low.x, high.y),
            (high.x, low.y),
            (high.x, high.y),
        ];
        let inside = |end: Point, own: Point, (x, y): (i64, i64)| {
            let (px, py) = floats_between(end, own);
            let (qx, qy) = floats_between(end, Point { x, y });
            let (one, other) = (px * qx, py * qy);
            one + other < -self.clear - (one.abs() + other.abs()) * 1e-15
        };
        boxed.class == Some(self.class)
            && self.ends.into_iter().flatten().any(|end| {
                let all = |own: Point| corners.iter().all(|corner| inside(end, own, *corner));
                self.own.into_iter().all(all)
            })
    }
}

/// The edges of all walls.
pub(super) struct Edges<'a> {
    pub walls: &'a [Wall<'a>],
    pub view: View,
    pub pieces: Vec<Piece>,
    /// The root first, then its two children, and so on: node `n` has `2n + 1` and `2n + 2`.
    boxes: Vec<Option<Boxed>>,
    leaves: usize,
    /// How much nearer two edges can be than their drawn lines.
    pub slack: i64,
    /// Each pair of thickness and tolerance that occurs, once.
    classes: Vec<(i64, Tolerance)>,
    /// The links found so far, by window: they do not depend on the start and the goal.
    pub found: RefCell<BTreeMap<i64, Rc<[Link]>>>,
}

impl<'a> Edges<'a> {
    pub fn new(walls: &'a [Wall<'a>], view: View) -> Self {
        let mut pieces = Vec::new();
        for (index, wall) in walls.iter().enumerate() {
            for form in &wall.figure.forms {
                add(&mut pieces, index, wall, form);
            }
        }
        let (boxes, leaves) = boxes_around(&pieces);
        let mut edges = Edges {
            walls,
            view,
            pieces,
            boxes,
            leaves,
            slack: 0,
            classes: Vec::new(),
            found: RefCell::default(),
        };
        edges.classes = edges.pieces.iter().map(Piece::class).collect();
        edges.classes.sort_unstable();
        edges.classes.dedup();
        let most =
            |of: fn(&(i64, Tolerance)) -> i64| edges.classes.iter().map(of).max().unwrap_or(0);
        let spread = most(|kind| kind.0);
        let tolerance = match view {
            View::Narrowest => most(|kind| kind.1.accuracy.saturating_add(kind.1.shift)),
            _ => 0,
        };
        edges.slack = spread.saturating_add(tolerance).saturating_mul(2);
        edges
    }

    /// How much the walls' thicknesses and tolerances change the distance between their lines.
    pub fn change(&self, one: &Piece, other: &Piece) -> i64 {
        let tolerance = self.signed(one.tolerance.against(other.tolerance));
        tolerance
            .saturating_sub(one.spread)
            .saturating_sub(other.spread)
    }

    fn signed(&self, tolerance: i64) -> i64 {
        match self.view {
            View::Drawn => 0,
            View::Widest => tolerance,
            View::Narrowest => tolerance.saturating_neg(),
        }
    }

    /// Whether two edges have the same thickness and tolerance.
    pub fn alike(&self, one: &Piece, other: &Piece) -> bool {
        one.spread == other.spread && (self.view == View::Drawn || one.tolerance == other.tolerance)
    }

    /// The distance of a point from the walls, and where the nearest wall is.
    pub fn room(&self, at: Point, tolerance: Tolerance) -> (Span, Option<Opening>) {
        let mut low = i64::MAX;
        let mut best: Option<(Span, Opening)> = None;
        let classes = self.classes.iter();
        let most = classes.map(|(spread, own)| own.against(tolerance).saturating_add(*spread));
        let reach = most.max().unwrap_or(0) as f64;
        self.visit(
            (Bounds::of(at, at), f64::INFINITY),
            |best_yet| best_yet + 2.0 * reach + MARGIN,
            |_| false,
            |_, piece| {
                let gap = from_point(at, &piece.edge);
                let tolerance = piece.tolerance.against(tolerance);
                let own = gap.low.saturating_sub(piece.spread);
                low = low.min(own.saturating_sub(if self.view == View::Drawn {
                    0
                } else {
                    tolerance
                }));
                let change = self.signed(tolerance).saturating_sub(piece.spread);
                let span = Span {
                    low: gap.low.saturating_add(change),
                    high: gap.high.saturating_add(change),
                };
                if best.is_none_or(|(least, _)| span < least) {
                    best = Some((
                        span,
                        Opening {
                            from: gap.to,
                            to: at,
                            walls: (piece.wall, piece.wall),
                        },
                    ));
                }
                gap.high as f64
            },
        );
        match best {
            None => (Span::exactly(i64::MAX), None),
            Some((span, opening)) => (
                Span {
                    low,
                    high: span.high,
                },
                Some(opening),
            ),
        }
    }

    /// Whether any edge but these two, of the same class, is clearly nearer to a place than `radius`. The edges before and after
    /// the two are tried first, since it mostly is one of them.
    pub fn any_within(&self, at: Point, radius: f64, but: (usize, usize), like: &Piece) -> bool {
        let clear = radius * (1.0 - 1e-12) - 2.0;
        if clear <= 0.0 {
            return false;
        }
        let near = |index: usize, piece: &Piece| {
            index != but.0
                && index != but.1
                && self.alike(piece, like)
                && nearly(&piece.edge, at) < clear * clear
        };
        let beside = [but.0, but.1].into_iter().flat_map(|index| {
            let piece = self.pieces.get(index);
            [
                piece.and_then(|piece| piece.before),
                piece.and_then(|piece| piece.next),
            ]
        });
        let mut beside = beside.flatten();
        if beside.any(|index| {
            self.pieces
                .get(index)
                .is_some_and(|piece| near(index, piece))
        }) {
            return true;
        }
        let mut found = false;
        self.visit(
            (Bounds::of(at, at), clear),
            |best| best,
            |_| false,
            |index, piece| {
                found |= near(index, piece);
                if found { -1.0 } else { clear }
            },
        );
        found
    }

    /// Visits the edges near a box, the nearer boxes first, without the boxes that `skip` leaves out. The visitor `each` returns
    /// a distance; edges farther than the least of these, once widened, are not visited.
    fn visit(
        &self,
        (around, start): (Bounds, f64),
        widened: impl Fn(f64) -> f64,
        skip: impl Fn(&Boxed) -> bool,
        mut each: impl FnMut(usize, &Piece) -> f64,
    ) {
        let mut best = start;
        let mut open: SmallVec<[(f64, usize); 32]> = SmallVec::new();
        open.push((0.0, 0));
        while let Some((apart, node)) = open.pop() {
            let limit = widened(best);
            if limit < 0.0 || apart > limit * limit {
                continue;
            }
            if let Some((first, pieces)) = self.leaf(node) {
                work::corners(5 * pieces.len());
                for (offset, piece) in pieces.iter().enumerate() {
                    best = best.min(each(first + offset, piece));
                }
                continue;
            }
            let mut next = [2 * node + 1, 2 * node + 2].map(|child| {
                self.node(child)
                    .filter(|boxed| !skip(boxed))
                    .map(|boxed| (boxed.bounds.apart(&around), child))
            });
            if let [Some(left), Some(right)] = next
                && left.0 <= right.0
            {
                next.reverse();
            }
            open.extend(next.into_iter().flatten());
        }
    }

    /// Visits every later edge within a distance of this one, without those that its neighbours hide.
    pub fn near(
        &self,
        index: usize,
        piece: &Piece,
        within: i64,
        mut each: impl FnMut(usize, &Piece),
    ) {
        let around = piece.edge.bounds();
        let within = within as f64 + MARGIN;
        let neighbours = self.neighbours(piece, within);
        self.visit(
            (around, within),
            |best| best,
            |boxed| neighbours.hide(boxed),
            |other, against| {
                let boxed = Boxed::of(against);
                let near = other > index && boxed.bounds.apart(&around) <= within * within;
                if near && !neighbours.hide(&boxed) {
                    each(other, against);
                }
                within
            },
        );
    }

    fn neighbours(&self, piece: &Piece, within: f64) -> Neighbours {
        let (before, after) = (piece.before, piece.next);
        let end = |index: Option<usize>, pick: fn(&Edge) -> Point| {
            index
                .and_then(|index| self.pieces.get(index))
                .map(|piece| pick(&piece.edge))
        };
        Neighbours {
            own: [piece.edge.a, piece.edge.b],
            ends: [end(before, |edge| edge.a), end(after, |edge| edge.b)],
            class: piece.class(),
            // As in `any_within` for a disc of this width, plus the rounding of the floats.
            clear: within * within * 1e-12 + within * 4.0 + 16.0,
        }
    }

    fn node(&self, node: usize) -> Option<Boxed> {
        self.boxes.get(node).copied().flatten()
    }

    fn leaf(&self, node: usize) -> Option<(usize, &[Piece])> {
        let first = node.checked_sub(self.leaves)? * LEAF;
        let end = (first + LEAF).min(self.pieces.len());
        Some((first, self.pieces.get(first..end)?))
    }
}

fn add(pieces: &mut Vec<Piece>, wall: usize, of: &Wall, form: &Form) {
    let chain = Chain::of(form);
    let first = pieces.len();
    pieces.extend(chain.edges().enumerate().map(|(offset, edge)| Piece {
        edge,
        wall,
        next: Some(first + offset + 1),
        before: (first + offset).checked_sub(1).filter(|at| *at >= first),
        spread: of.figure.spread,
        tolerance: of.tolerance,
    }));
    let last = pieces.len().saturating_sub(1);
    if let Some(last) = pieces.last_mut() {
        last.next = chain.closed.then_some(first);
    }
    if let (true, Some(piece)) = (chain.closed, pieces.get_mut(first)) {
        piece.before = Some(last);
    }
}

/// Consecutive edges are near each other, so they can stay in their own order.
fn boxes_around(pieces: &[Piece]) -> (Vec<Option<Boxed>>, usize) {
    let around = |run: &[Piece]| run.iter().map(Boxed::of).reduce(Boxed::join);
    let width = pieces.len().div_ceil(LEAF).max(1).next_power_of_two();
    let lowest = pieces
        .chunks(LEAF)
        .map(around)
        .chain(std::iter::repeat(None));
    let mut levels = vec![lowest.take(width).collect::<Vec<_>>()];
    while let Some(row) = levels.last().filter(|row| row.len() > 1) {
        let joined = row
            .chunks(2)
            .map(|pair| pair.iter().flatten().copied().reduce(Boxed::join));
        levels.push(joined.collect());
    }
    (levels.into_iter().rev().flatten().collect(), width - 1)
}
