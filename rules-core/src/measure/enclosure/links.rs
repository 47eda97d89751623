//! The straight links between walls: how long, and from where to where.

use std::cmp::Ordering;

use super::super::chain::Edge;
use super::super::distance::{Gap, from_point, in_common};
use super::super::exact::{Span, Vector, part_way};
use super::View;
use super::edges::{Edges, Piece};
use crate::plan::figure::Point;

/// The shortest link between two edges.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Link {
    pub width: Span,
    /// The two edges.
    pub edges: (usize, usize),
    /// Where it ends on each.
    pub feet: (Point, Point),
}

/// All links that may matter, longer than `above` and no longer than `most`, in order.
pub(super) fn links(edges: &Edges, above: i64, most: i64) -> Vec<Link> {
    let mut found = Vec::new();
    let within = most.saturating_add(edges.slack);
    for (index, piece) in edges.pieces.iter().enumerate() {
        edges.near(index, piece, within, |other, against| {
            if piece.next == Some(other) || against.next == Some(index) {
                return;
            }
            let link = link(edges, (index, piece), (other, against));
            if link.width.high > above
                && link.width.high <= most
                && matters(edges, &link, piece, against)
            {
                found.push(link);
            }
        });
    }
    found.sort_unstable();
    found
}

fn link(edges: &Edges, one: (usize, &Piece), other: (usize, &Piece)) -> Link {
    let gap = shortest(&one.1.edge, &other.1.edge);
    let change = edges.change(one.1, other.1);
    let width = match gap.high == 0 && edges.view == View::Widest && stays(one.1, other.1, change) {
        true => Span::exactly(0),
        false => Span {
            low: gap.low.saturating_add(change).max(0),
            high: gap.high.saturating_add(change).max(0),
        },
    };
    Link {
        width,
        edges: (one.0, other.0),
        feet: (gap.from, gap.to),
    }
}

/// Whether two edges that meet as drawn do so in every possible plan: written at the same point, or crossing so far
/// from their ends that they cannot come apart.
fn stays(one: &Piece, other: &Piece, doubt: i64) -> bool {
    let (a, b) = (&one.edge, &other.edge);
    let corners = [a.a, a.b];
    if corners.contains(&b.a) || corners.contains(&b.b) {
        return true;
    }
    let clear = |point: Point, edge: &Edge| from_point(point, edge).low > doubt;
    a.crosses(b) && clear(a.a, b) && clear(a.b, b) && clear(b.a, a) && clear(b.b, a)
}

/// The shortest way from one edge to another, decided exactly; the first among equals.
fn shortest(one: &Edge, other: &Edge) -> Gap {
    if one.bounds().touches(&other.bounds()) && one.meets(other) {
        let at = in_common(one, other);
        return Gap {
            low: 0,
            high: 0,
            from: at,
            to: at,
        };
    }
    let ends = [
        from_point(one.a, other),
        from_point(one.b, other),
        back(from_point(other.a, one)),
        back(from_point(other.b, one)),
    ];
    let [first, rest @ ..] = ends;
    let less = |best: Gap, next: Gap| match next.span().cmp(&best.span()) {
        Ordering::Less => next,
        _ => best,
    };
    rest.into_iter().fold(first, less)
}

fn back(gap: Gap) -> Gap {
    Gap {
        from: gap.to,
        to: gap.from,
        ..gap
    }
}

/// Whether no other edge comes inside the disc on a link: else the two links by way of that edge do as well.
fn matters(edges: &Edges, link: &Link, one: &Piece, other: &Piece) -> bool {
    let (from, to) = link.feet;
    if from == to || !edges.alike(one, other) {
        return true;
    }
    let (x, y) = Vector::between(from, to).floats();
    let radius = (x * x + y * y).sqrt() / 2.0;
    !edges.any_within(part_way(from, to, 0.5), radius, link.edges, one)
}
