//! Going through the pairs of edges that may matter, and no others.

use smallvec::SmallVec;

use super::chain::{Bounds, Chain, Edge};
use super::exact::{floats_between, part_way};
use super::runs::{self, Runs};
use crate::plan::figure::Point;

/// Up to this many pairs, or with so few corners on one side, plain loops are quicker than laying anything out.
const FEW: usize = 400;
const FEW_CORNERS: usize = 8;
/// Up to this many pairs runs are quicker than trees.
const SOME: usize = 1 << 20;
/// Edges in one leaf of a tree.
const LEAF: usize = 8;

/// What is done with the pairs: `limit` is the square of the distance beyond which a pair cannot matter, and `touching`
/// whether the boxes around the two touch.
pub(crate) trait Visitor {
    fn limit(&self) -> f64;
    fn pair(&mut self, one: Edge, other: Edge, touching: bool);
}

/// Two forms, ready to be gone through more than once.
pub(crate) enum Pairs<'a> {
    Few(Chain<'a>, Chain<'a>, Bounds),
    Some(Runs, Runs),
    Many(Tree, Tree),
    None,
}

impl<'a> Pairs<'a> {
    pub fn new(one: Chain<'a>, other: Chain<'a>) -> Self {
        let (corners, against) = (one.points.len(), other.points.len());
        let pairs = corners.saturating_mul(against);
        if pairs > FEW && corners.min(against) > FEW_CORNERS {
            return match pairs {
                ..=SOME => Pairs::Some(Runs::new(one), Runs::new(other)),
                _ => Pairs::Many(Tree::new(one), Tree::new(other)),
            };
        }
        match Bounds::around(other.points) {
            Some(around) => Pairs::Few(one, other, around),
            None => Pairs::None,
        }
    }

    /// A distance, squared, that some two corners are not farther apart than; good enough to spare most pairs.
    pub fn guess(&self) -> f64 {
        let (one, other, around) = match self {
            Pairs::Few(one, other, around) => (one, other, around),
            Pairs::Some(one, other) => return runs::guess(one, other),
            _ => return f64::INFINITY,
        };
        let near = part_way(around.low, around.high, 0.5);
        let first = nearest_corner(one.points, near).map(|(_, p)| p);
        let second = first
            .and_then(|p| nearest_corner(other.points, p))
            .map(|(_, p)| p);
        second
            .and_then(|p| nearest_corner(one.points, p))
            .map_or(f64::INFINITY, |(squared, _)| squared)
    }

    pub fn visit(&self, visitor: &mut impl Visitor) {
        match self {
            Pairs::Few(one, other, around) => plain(*one, *other, around, visitor),
            Pairs::Some(one, other) => runs::visit(one, other, visitor),
            Pairs::Many(one, other) => together(one, other, visitor),
            Pairs::None => {}
        }
    }
}

fn nearest_corner(corners: &[Point], to: Point) -> Option<(f64, Point)> {
    let squared = |p: &Point| {
        let (x, y) = floats_between(*p, to);
        (x * x + y * y, *p)
    };
    corners
        .iter()
        .map(squared)
        .reduce(|best, found| if found.0 < best.0 { found } else { best })
}

/// Most edges of either lie too far from all of the other; what is left is a few against a few.
fn plain(one: Chain, other: Chain, around: &Bounds, visitor: &mut impl Visitor) {
    let Some(own) = Bounds::around(one.points) else {
        return;
    };
    let limit = visitor.limit();
    let boxed = other.edges().map(|edge| (edge, edge.bounds()));
    let near: SmallVec<[(Edge, Bounds); 24]> = boxed
        .filter(|(_, bounds)| bounds.apart(&own) <= limit)
        .collect();
    for edge in one.edges() {
        let bounds = edge.bounds();
        if bounds.apart(around) > visitor.limit() {
            continue;
        }
        for (against, beside) in &near {
            let apart = bounds.apart(beside);
            if apart <= visitor.limit() {
                visitor.pair(edge, *against, apart == 0.0);
            }
        }
    }
}

/// Boxes around boxes around runs of edges. Edges that follow each other lie near each other, so their own order
/// is order enough and nothing is sorted.
pub(crate) struct Tree {
    edges: Vec<Edge>,
    /// The root first, then its two children, and so on: node `n` has `2n + 1` and `2n + 2`.
    boxes: Vec<Option<Bounds>>,
    /// Where the lowest row of boxes begins.
    leaves: usize,
}

impl Tree {
    pub fn new(chain: Chain) -> Self {
        let edges: Vec<Edge> = chain.edges().collect();
        let rows = edges.chunks(LEAF).map(around_edges);
        let width = edges.len().div_ceil(LEAF).next_power_of_two();
        let mut levels = vec![
            rows.chain(std::iter::repeat(None))
                .take(width)
                .collect::<Vec<_>>(),
        ];
        while let Some(row) = levels.last().filter(|row| row.len() > 1) {
            levels.push(
                row.chunks(2)
                    .map(|pair| pair.iter().flatten().copied().reduce(Bounds::join))
                    .collect(),
            );
        }
        let boxes = levels.into_iter().rev().flatten().collect();
        Tree {
            edges,
            boxes,
            leaves: width - 1,
        }
    }

    fn node(&self, node: usize) -> Option<Bounds> {
        self.boxes.get(node).copied().flatten()
    }

    fn leaf(&self, node: usize) -> Option<&[Edge]> {
        let start = node.checked_sub(self.leaves)? * LEAF;
        let end = (start + LEAF).min(self.edges.len());
        self.edges.get(start..end)
    }

    fn children(&self, node: usize) -> [(usize, Option<Bounds>); 2] {
        [2 * node + 1, 2 * node + 2].map(|child| (child, self.node(child)))
    }
}

fn around_edges(edges: &[Edge]) -> Option<Bounds> {
    edges.iter().map(Edge::bounds).reduce(Bounds::join)
}

/// Both trees from the roots down, the nearer pair of boxes first.
fn together(one: &Tree, other: &Tree, visitor: &mut impl Visitor) {
    let mut open = vec![(0.0, 0, 0)];
    while let Some((apart, a, b)) = open.pop() {
        if apart > visitor.limit() {
            continue;
        }
        if let (Some(edges), Some(against)) = (one.leaf(a), other.leaf(b)) {
            leaves(edges, against, visitor);
            continue;
        }
        let (Some(around), Some(against)) = (one.node(a), other.node(b)) else {
            continue;
        };
        let split_first =
            one.leaf(a).is_none() && (other.leaf(b).is_some() || around.size() >= against.size());
        let mut next = if split_first {
            one.children(a)
                .map(|(child, bounds)| bounds.map(|bounds| (bounds.apart(&against), child, b)))
        } else {
            other
                .children(b)
                .map(|(child, bounds)| bounds.map(|bounds| (bounds.apart(&around), a, child)))
        };
        if let [Some(left), Some(right)] = next
            && left.0 <= right.0
        {
            next.reverse();
        }
        open.extend(next.into_iter().flatten());
    }
}

fn leaves(edges: &[Edge], against: &[Edge], visitor: &mut impl Visitor) {
    for one in edges {
        let bounds = one.bounds();
        for other in against {
            let apart = bounds.apart(&other.bounds());
            if apart <= visitor.limit() {
                visitor.pair(*one, *other, apart == 0.0);
            }
        }
    }
}

/// The square of the distance from a point to an edge, in floats. The root of it is good to 0.02 nm within 20 km:
/// the differences are exact, and the product loses at most a unit in the last place of the distance to an end.
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
