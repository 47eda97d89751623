//! Greatest distances: from one thing to the farthest part of another, and beyond a line.

use std::collections::BinaryHeap;

use crate::measure::distance::beyond::beyond_hull;
use crate::measure::distance::course::outermost;
use crate::measure::distance::search::nearly;
use crate::measure::distance::{Gap, between_lines, forms_gap};
use crate::measure::figure::chain::{Bounds, Chain, Edge, points};
use crate::measure::figure::convex::is_convex;
use crate::measure::figure::exact::part_way;
use crate::measure::figure::inside::{Side, contains, side};
use crate::plan::figure::{Curved, Figure, Form, Point};
use crate::work;

/// The precision to which the result is bounded, in nanometres.
const FINE: i64 = 1_000_000;
/// The most pieces to look at for that.
const PATIENCE: usize = 4_000;
/// Midpoints rounded to whole nanometres are no farther than this from the side that is halved, however often.
const STRAY: i64 = 2;

/// The distance of the farthest part of `a` from `b`: "no part beyond" is an at-most on this.
///
/// Exact where `b` is convex (a point, a straight line, or an area without a corner pointing in, each with or without a
/// spread), and where both have the same forms. For any other `b` the farthest place may be in the middle of
/// a side; `low` to `high` then surely contains the answer, mostly within 1 mm. `from` is the farthest place found, to the
/// nearest nanometre, and `to` the place on `b` nearest to it.
pub fn farthest(a: &Figure, b: &Figure) -> Gap {
    let Some(corner) = farthest_corner(a, b) else {
        return Gap::unknown();
    };
    let plain = convex(b);
    let gap = if plain || a.forms == b.forms {
        corner
    } else {
        subdivide(a, b, corner)
    };
    let gap = widened(gap, a, b, false);
    match beyond_hull(a, b) {
        Some((low, high)) if plain => Gap {
            low: low.max(0),
            high: high.max(0),
            ..gap
        },
        Some((low, _)) => gap.at_least(low),
        None => gap,
    }
}

/// A greatest distance between forms, corrected for their spreads; `surely` where all of the spread of `a` is known to be on
/// the far side.
fn widened(gap: Gap, a: &Figure, b: &Figure, surely: bool) -> Gap {
    let wide = |end: i64, spread: i64| {
        let far = end.saturating_add(spread).saturating_sub(b.spread);
        far.max(0)
    };
    let sure = if surely && gap.low > 0 { a.spread } else { 0 };
    Gap {
        low: wide(gap.low, sure),
        high: wide(gap.high, a.spread),
        ..gap
    }
}

/// The same from the arcs of `a` themselves, to a few nanometres. `None` where not all forms of `a` have courses, or where `b`
/// is not convex or has arcs of its own: there the corners have to do.
pub fn farthest_of_arcs(a: &Figure, b: &Figure) -> Option<Gap> {
    let [form] = b.forms.as_slice() else {
        return None;
    };
    let known = a.curved.len() == a.forms.len() && b.curved.is_empty() && convex(b);
    let courses: Option<Vec<&Curved>> = a.curved.iter().map(Option::as_ref).collect();
    let courses = courses.filter(|all| known && !all.is_empty())?;
    let places = courses.iter().flat_map(|curved| &curved.courses);
    let places = places.flat_map(|course| {
        let arc = course.arc.as_ref();
        let outer = arc.into_iter().flat_map(|arc| outermost(course, arc, form));
        std::iter::once(course.from).chain(outer)
    });
    let best = places
        .map(|place| nearest(place, b))
        .reduce(|best, gap| if gap.span() > best.span() { gap } else { best })?;
    // The places are rounded to the nanometre.
    let rounded = Gap {
        low: best.low.saturating_sub(2),
        high: best.high.saturating_add(2),
        ..best
    };
    let gap = widened(rounded, a, b, true);
    // The corners stand on the arcs, so they reach no farther.
    Some(match beyond_hull(a, b) {
        Some((low, _)) => gap.at_least(low.saturating_sub(2)),
        None => gap,
    })
}

fn convex(figure: &Figure) -> bool {
    match figure.forms.as_slice() {
        [Form::Point(_)] => true,
        [Form::Path(points)] => points.len() == 2,
        [Form::Ring(ring)] => is_convex(ring),
        _ => false,
    }
}

fn nearest(point: Point, b: &Figure) -> Gap {
    forms_gap(&[Form::Point(point)], &b.forms)
}

pub(super) fn farthest_corner(a: &Figure, b: &Figure) -> Option<Gap> {
    let corners = a.forms.iter().flat_map(points);
    corners
        .map(|corner| nearest(*corner, b))
        .reduce(|best, gap| if gap.span() > best.span() { gap } else { best })
}

/// A piece of `a`: a straight line from `low` to `high`, or the axis-aligned rectangle between them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Piece {
    /// No place in it is farther than this.
    most: i64,
    /// Which form of `a` it belongs to.
    form: usize,
    low: Point,
    high: Point,
}

fn subdivide(a: &Figure, b: &Figure, corner: Gap) -> Gap {
    let mut best = corner;
    let mut open: BinaryHeap<Piece> = a
        .forms
        .iter()
        .enumerate()
        .flat_map(|(at, form)| whole(at, form, b))
        .collect();
    let mut high = best.high;
    for turn in 0..=PATIENCE {
        let Some(piece) = open.pop() else { break };
        if piece.most <= best.high.saturating_add(FINE) || turn == PATIENCE || work::is_spent() {
            // The heap gives the greatest bound first, so nothing else is farther.
            high = high.max(piece.most);
            break;
        }
        let Some(form) = a.forms.get(piece.form) else {
            continue;
        };
        let middle = part_way(piece.low, piece.high, 0.5);
        let gap = nearest(middle, b);
        let low = gap.low.saturating_sub(STRAY);
        if low > best.low && belongs(form, middle) {
            best = Gap { low, ..gap };
        }
        open.extend(
            parts(&piece, form, middle)
                .into_iter()
                .filter_map(|(low, high)| bounded(piece.form, form, low, high, b)),
        );
    }
    Gap {
        high: high.max(best.high),
        ..best
    }
}

fn belongs(form: &Form, point: Point) -> bool {
    match form {
        Form::Ring(ring) => side(ring, point) != Side::Outside,
        Form::Point(_) | Form::Path(_) => true,
    }
}

fn whole(at: usize, form: &Form, b: &Figure) -> Vec<Piece> {
    match form {
        Form::Ring(ring) => Bounds::around(ring)
            .and_then(|all| bounded(at, form, all.low, all.high, b))
            .into_iter()
            .collect(),
        Form::Point(_) | Form::Path(_) => Chain::of(form)
            .edges()
            .filter_map(|edge| bounded(at, form, edge.a, edge.b, b))
            .collect(),
    }
}

fn parts(piece: &Piece, form: &Form, middle: Point) -> Vec<(Point, Point)> {
    let (low, high) = (piece.low, piece.high);
    if !matches!(form, Form::Ring(_)) {
        return vec![(low, middle), (middle, high)];
    }
    let corner = |x, y| Point { x, y };
    vec![
        (low, middle),
        (corner(middle.x, low.y), corner(high.x, middle.y)),
        (corner(low.x, middle.y), corner(middle.x, high.y)),
        (middle, high),
    ]
}

/// A piece with its bound; `None` when no part of it belongs to the form.
///
/// The distance to a straight side is convex, so over a piece it is greatest at a corner of the piece. The distance to all of
/// `b` is no more than that to any one side.
fn bounded(at: usize, form: &Form, low: Point, high: Point, b: &Figure) -> Option<Piece> {
    let area = matches!(form, Form::Ring(_));
    let corners = match area {
        true => vec![
            low,
            Point {
                x: high.x,
                y: low.y,
            },
            high,
            Point {
                x: low.x,
                y: high.y,
            },
        ],
        false => vec![low, high],
    };
    let shape = if area && low.x != high.x && low.y != high.y {
        Form::Ring(corners.clone())
    } else {
        Form::Path(vec![low, high])
    };
    if let Form::Ring(ring) = form
        && !contains(ring, &shape).shares()
    {
        return None;
    }
    let held = b
        .forms
        .iter()
        .any(|other| matches!(other, Form::Ring(ring) if contains(ring, &shape).is_within()));
    let most = if held {
        STRAY
    } else {
        least_reach(&corners, b)
    };
    Some(Piece {
        most,
        form: at,
        low,
        high,
    })
}

fn least_reach(corners: &[Point], b: &Figure) -> i64 {
    let against: usize = b.forms.iter().map(|form| points(form).len()).sum();
    work::corners(against * corners.len());
    let reach = |edge: Edge| {
        corners
            .iter()
            .map(|corner| nearly(&edge, *corner))
            .fold(0.0, f64::max)
    };
    let least = b
        .forms
        .iter()
        .flat_map(|form| Chain::of(form).edges())
        .map(reach)
        .fold(f64::INFINITY, f64::min);
    (least.sqrt().ceil() as i64).saturating_add(1 + STRAY)
}

/// Whether no part of a figure is beyond the line of a ring, decided exactly; touching it is not beyond.
pub fn lies_within(ring: &[Point], figure: &Figure) -> bool {
    let held = |form: &Form| contains(ring, form).is_within();
    let clear = |form: &Form| {
        let gap = between_lines(Chain::of(form), Chain::ring(ring));
        figure.spread == 0 || gap.low >= figure.spread
    };
    figure.forms.iter().all(|form| held(form) && clear(form))
}
