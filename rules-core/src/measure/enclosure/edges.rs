//! All straight edges of all walls, in boxes around boxes, and what lies near what.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::rc::Rc;

use smallvec::SmallVec;

use super::super::distance::from_point;
use super::links::Link;
use super::{Doubt, Opening, View, Wall};
use crate::measure::distance::search::nearly;
use crate::measure::figure::chain::{Bounds, Chain, Edge};
use crate::measure::figure::exact::{Span, floats_between};
use crate::plan::figure::{Form, Point};
use crate::work;

/// Edges in one leaf.
const LEAF: usize = 4;
/// Floats are good to 0.02 nm.
const MARGIN: f64 = 1.0;

/// One straight edge of a wall.
#[derive(Debug, Clone, Copy)]
pub(super) struct Piece {
    pub edge: Edge,
    /// Its wall's place in the list.
    pub wall: usize,
    /// The edge that goes on where this one ends, if any.
    pub next: Option<usize>,
    /// The edge that ends where this one begins, if any.
    before: Option<usize>,
    spread: i64,
    doubt: Doubt,
}

impl Piece {
    /// How thick and how sure it is.
    fn sort(&self) -> (i64, Doubt) {
        (self.spread, self.doubt)
    }
}

/// Some edges that follow each other, in a box.
#[derive(Debug, Clone, Copy)]
struct Boxed {
    bounds: Bounds,
    /// One of them, where all are equally thick and equally sure.
    like: Option<(i64, Doubt)>,
}

impl Boxed {
    fn of(piece: &Piece) -> Self {
        Boxed {
            bounds: piece.edge.bounds(),
            like: Some(piece.sort()),
        }
    }

    fn join(self, other: Self) -> Self {
        Boxed {
            bounds: self.bounds.join(other.bounds),
            like: self.like.filter(|like| Some(*like) == other.like),
        }
    }
}

/// Where the edges before and after one end: what is seen from it past either is seen better from there.
struct Neighbours {
    own: [Point; 2],
    ends: [Option<Point>; 2],
    like: (i64, Doubt),
    /// How far the product that is looked at must be below nothing, in square nanometres.
    clear: f64,
}

impl Neighbours {
    /// Whether on every link from the edge into a box one of the two places lies clearly inside the link's disc: the
    /// angle there is then more than a right one. The product that tells so is linear in either end of the link, so
    /// that corners are enough.
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
        boxed.like == Some(self.like)
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
    /// The most by which two edges can be nearer than their lines.
    pub slack: i64,
    /// How thick and how sure edges are: each pair that occurs, once.
    kinds: Vec<(i64, Doubt)>,
    /// The links found so far, each window's once: they do not depend on where a way is sought.
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
            kinds: Vec::new(),
            found: RefCell::default(),
        };
        edges.kinds = edges.pieces.iter().map(Piece::sort).collect();
        edges.kinds.sort_unstable();
        edges.kinds.dedup();
        let most = |of: fn(&(i64, Doubt)) -> i64| edges.kinds.iter().map(of).max().unwrap_or(0);
        let spread = most(|kind| kind.0);
        let doubt = match view {
            View::Narrowest => most(|kind| kind.1.accuracy.saturating_add(kind.1.shift)),
            _ => 0,
        };
        edges.slack = spread.saturating_add(doubt).saturating_mul(2);
        edges
    }

    /// By how much the walls' widths and doubts change what is measured between lines.
    pub fn change(&self, one: &Piece, other: &Piece) -> i64 {
        let doubt = self.signed(one.doubt.against(other.doubt));
        doubt
            .saturating_sub(one.spread)
            .saturating_sub(other.spread)
    }

    fn signed(&self, doubt: i64) -> i64 {
        match self.view {
            View::Drawn => 0,
            View::Widest => doubt,
            View::Narrowest => doubt.saturating_neg(),
        }
    }

    /// Whether two edges are equally thick and equally sure.
    pub fn alike(&self, one: &Piece, other: &Piece) -> bool {
        one.spread == other.spread && (self.view == View::Drawn || one.doubt == other.doubt)
    }

    /// How far a point may be from the walls at least and at most, and where the nearest is.
    pub fn room(&self, at: Point, doubt: Doubt) -> (Span, Option<Opening>) {
        let mut low = i64::MAX;
        let mut best: Option<(Span, Opening)> = None;
        let kinds = self.kinds.iter();
        let most = kinds.map(|(spread, own)| own.against(doubt).saturating_add(*spread));
        let reach = most.max().unwrap_or(0) as f64;
        self.visit(
            (Bounds::of(at, at), f64::INFINITY),
            |best_yet| best_yet + 2.0 * reach + MARGIN,
            |_| false,
            |_, piece| {
                let gap = from_point(at, &piece.edge);
                let doubt = piece.doubt.against(doubt);
                let own = gap.low.saturating_sub(piece.spread);
                low = low.min(own.saturating_sub(if self.view == View::Drawn { 0 } else { doubt }));
                let change = self.signed(doubt).saturating_sub(piece.spread);
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

    /// Whether any edge but two, and like them, comes clearly nearer to a place than so far. Those before and after the
    /// two are looked at first: mostly it is one of them.
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

    /// Goes through the edges near a box, the nearer boxes first, and leaves boxes out as told. What is returned for an
    /// edge is a distance beyond which, once widened, nothing matters any more.
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

    /// Every edge after the given one that comes within a distance of it, but for those that its neighbours hide.
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
            like: piece.sort(),
            // As `any_within` has it for a disc of this width, and the rounding of the floats.
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
        doubt: of.doubt,
    }));
    let last = pieces.len().saturating_sub(1);
    if let Some(last) = pieces.last_mut() {
        last.next = chain.closed.then_some(first);
    }
    if let (true, Some(piece)) = (chain.closed, pieces.get_mut(first)) {
        piece.before = Some(last);
    }
}

/// Edges that follow each other lie near each other, so their own order is order enough.
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
