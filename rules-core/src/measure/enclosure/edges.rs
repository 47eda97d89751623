//! All straight edges of all walls, in boxes around boxes, and what lies near what.

use super::super::chain::{Bounds, Chain, Edge};
use super::super::distance::from_point;
use super::super::exact::Span;
use super::super::search::nearly;
use super::{Doubt, Opening, View, Wall};
use crate::plan::figure::{Form, Point};

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
    spread: i64,
    doubt: Doubt,
}

/// The edges of all walls.
pub(super) struct Edges<'a> {
    pub walls: &'a [Wall<'a>],
    pub view: View,
    pub pieces: Vec<Piece>,
    /// The root first, then its two children, and so on: node `n` has `2n + 1` and `2n + 2`.
    boxes: Vec<Option<Bounds>>,
    leaves: usize,
    /// The most by which two edges can be nearer than their lines.
    pub slack: i64,
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
        };
        let most = |of: fn(&Piece) -> i64| edges.pieces.iter().map(of).max().unwrap_or(0);
        let spread = most(|piece| piece.spread);
        let doubt = match view {
            View::Narrowest => most(|piece| piece.doubt.accuracy.saturating_add(piece.doubt.shift)),
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
        let most = self
            .pieces
            .iter()
            .map(|piece| piece.doubt.against(doubt).saturating_add(piece.spread));
        let reach = most.max().unwrap_or(0) as f64;
        self.visit(
            Bounds::of(at, at),
            |best_yet| best_yet + 2.0 * reach + MARGIN,
            f64::INFINITY,
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

    /// Whether any edge but two, and like them, comes clearly nearer to a place than so far.
    pub fn any_within(&self, at: Point, radius: f64, but: (usize, usize), like: &Piece) -> bool {
        let mut found = false;
        let clear = radius * (1.0 - 1e-9) - 2.0;
        if clear <= 0.0 {
            return false;
        }
        self.visit(
            Bounds::of(at, at),
            |best| best,
            clear,
            |index, piece| {
                if index != but.0
                    && index != but.1
                    && self.alike(piece, like)
                    && nearly(&piece.edge, at) < clear * clear
                {
                    found = true;
                    return -1.0;
                }
                clear
            },
        );
        found
    }

    /// Goes through the edges near a box, the nearer boxes first. What is returned for an edge is a distance beyond
    /// which, once widened, nothing matters any more.
    fn visit(
        &self,
        around: Bounds,
        widened: impl Fn(f64) -> f64,
        start: f64,
        mut each: impl FnMut(usize, &Piece) -> f64,
    ) {
        let mut best = start;
        let mut open = vec![(0.0, 0_usize)];
        while let Some((apart, node)) = open.pop() {
            let limit = widened(best);
            if limit < 0.0 || apart > limit * limit {
                continue;
            }
            if let Some((first, pieces)) = self.leaf(node) {
                for (offset, piece) in pieces.iter().enumerate() {
                    best = best.min(each(first + offset, piece));
                }
                continue;
            }
            let mut next = [2 * node + 1, 2 * node + 2].map(|child| {
                self.node(child)
                    .map(|bounds| (bounds.apart(&around), child))
            });
            if let [Some(left), Some(right)] = next
                && left.0 <= right.0
            {
                next.reverse();
            }
            open.extend(next.into_iter().flatten());
        }
    }

    /// Every edge after the given one that comes within a distance of it.
    pub fn near(
        &self,
        index: usize,
        piece: &Piece,
        within: i64,
        mut each: impl FnMut(usize, &Piece),
    ) {
        let around = piece.edge.bounds();
        let within = within as f64 + MARGIN;
        self.visit(
            around,
            |best| best,
            within,
            |other, against| {
                if other > index && against.edge.bounds().apart(&around) <= within * within {
                    each(other, against);
                }
                within
            },
        );
    }

    fn node(&self, node: usize) -> Option<Bounds> {
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
        spread: of.figure.spread,
        doubt: of.doubt,
    }));
    if let Some(last) = pieces.last_mut() {
        last.next = chain.closed.then_some(first);
    }
}

/// Edges that follow each other lie near each other, so their own order is order enough.
fn boxes_around(pieces: &[Piece]) -> (Vec<Option<Bounds>>, usize) {
    let around = |run: &[Piece]| {
        run.iter()
            .map(|piece| piece.edge.bounds())
            .reduce(Bounds::join)
    };
    let width = pieces.len().div_ceil(LEAF).max(1).next_power_of_two();
    let lowest = pieces
        .chunks(LEAF)
        .map(around)
        .chain(std::iter::repeat(None));
    let mut levels = vec![lowest.take(width).collect::<Vec<_>>()];
    while let Some(row) = levels.last().filter(|row| row.len() > 1) {
        let joined = row
            .chunks(2)
            .map(|pair| pair.iter().flatten().copied().reduce(Bounds::join));
        levels.push(joined.collect());
    }
    (levels.into_iter().rev().flatten().collect(), width - 1)
}
