//! The straight links between walls: their lengths and their ends.

use std::cmp::Ordering;
use std::rc::Rc;

use super::super::distance::{Gap, from_point, in_common};
use super::View;
use super::edges::{Edges, Piece};
use crate::measure::distance::search::nearly;
use crate::measure::figure::chain::Edge;
use crate::measure::figure::exact::{Span, Vector, floats_between, part_way};
use crate::plan::figure::Point;
use crate::work;

/// The shortest link between two edges.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Link {
    pub width: Span,
    /// The two edges.
    pub edges: (usize, usize),
    /// Where it ends on each.
    pub feet: (Point, Point),
}

/// The first search is for links up to this length, in nanometres; each later one is for up to four times as much.
const FIRST: i64 = 150_000_000;

/// The upper limit of the window of lengths that begins at `above`.
pub(super) fn window(above: i64) -> i64 {
    match above < 0 {
        true => FIRST,
        false => above.saturating_mul(4),
    }
}

/// All links that may matter within the window that begins at `above`, in order of length; found once.
pub(super) fn links(edges: &Edges, above: i64) -> Rc<[Link]> {
    let known = edges.found.borrow().get(&above).cloned();
    known.unwrap_or_else(|| {
        let found: Rc<[Link]> = find(edges, above, window(above)).into();
        edges.found.borrow_mut().insert(above, found.clone());
        found
    })
}

fn find(edges: &Edges, above: i64, most: i64) -> Vec<Link> {
    let mut found = Vec::new();
    let within = most.saturating_add(edges.slack);
    for (index, piece) in edges.pieces.iter().enumerate() {
        if work::step_is_too_many() {
            break;
        }
        edges.near(index, piece, within, |other, against| {
            work::step(3);
            if piece.next == Some(other) || against.next == Some(index) {
                return;
            }
            let pair = (index, other);
            if !matters(
                edges,
                roughly(&piece.edge, &against.edge),
                pair,
                (piece, against),
            ) {
                return;
            }
            let link = link(edges, (index, piece), (other, against));
            if link.width.high > above && link.width.high <= most {
                found.push(link);
            }
        });
    }
    found.sort_unstable();
    found
}

/// The two ends of the shortest link between two edges, to a nanometre or so; the same point twice where they meet.
fn roughly(one: &Edge, other: &Edge) -> (Point, Point) {
    if one.bounds().touches(&other.bounds()) && one.meets(other) {
        return (one.a, one.a);
    }
    let ends = [
        (one.a, other, false),
        (one.b, other, false),
        (other.a, one, true),
        (other.b, one, true),
    ];
    let far = |(end, edge, _): &(Point, &Edge, bool)| nearly(edge, *end);
    let [first, rest @ ..] = ends;
    let less = |best, next| if far(&next) < far(&best) { next } else { best };
    let (end, edge, turned) = rest.into_iter().fold(first, less);
    let foot = foot(end, edge);
    if turned { (foot, end) } else { (end, foot) }
}

fn foot(point: Point, edge: &Edge) -> Point {
    let (x, y) = floats_between(edge.a, edge.b);
    let (px, py) = floats_between(edge.a, point);
    let squared = x * x + y * y;
    match squared > 0.0 {
        true => part_way(
            edge.a,
            edge.b,
            ((px * x + py * y) / squared).clamp(0.0, 1.0),
        ),
        false => edge.a,
    }
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

/// Whether two edges that meet as drawn meet in every possible plan: because they share a drawn point, or because they cross
/// so far from their ends that they cannot come apart.
fn stays(one: &Piece, other: &Piece, tolerance: i64) -> bool {
    let (a, b) = (&one.edge, &other.edge);
    let corners = [a.a, a.b];
    if corners.contains(&b.a) || corners.contains(&b.b) {
        return true;
    }
    let clear = |point: Point, edge: &Edge| from_point(point, edge).low > tolerance;
    a.crosses(b) && clear(a.a, b) && clear(a.b, b) && clear(b.a, a) && clear(b.b, a)
}

/// The shortest link between two edges, found exactly; the first among equals.
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

/// Whether a link has to be kept: it need not be if another edge comes inside the disc on it, since the two links by way of
/// that edge do as well.
fn matters(
    edges: &Edges,
    (from, to): (Point, Point),
    pair: (usize, usize),
    (one, other): (&Piece, &Piece),
) -> bool {
    if from == to || !edges.alike(one, other) {
        return true;
    }
    let (x, y) = Vector::between(from, to).floats();
    let radius = (x * x + y * y).sqrt() / 2.0;
    !edges.any_within(part_way(from, to, 0.5), radius, pair, one)
}
