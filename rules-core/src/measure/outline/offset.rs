//! Offsets of outlines: outward with round or square corners, or inward.

use crate::measure::distance::between_lines;
use crate::measure::figure::chain::{Chain, Edge};
use crate::measure::figure::convex::is_convex;
use crate::measure::figure::exact::Vector;
use crate::measure::figure::inside::{Place, contains};
use crate::measure::figure::size::signed_area2;
use crate::measure::outline::valid::is_sound;
use crate::plan::figure::{Figure, Form, Point};

/// How the corners of a wider outline are built.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Corners {
    /// The same distance everywhere: arcs around the corners.
    Round,
    /// Straight sides extended until they meet.
    Square,
}

/// Why an outline cannot be derived from another.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OffsetFault {
    /// A corner so acute that its sides would meet more than ten times the distance away.
    TooAcute,
    /// Square corners were asked for where there are arcs.
    AlreadyRound,
    /// Square corners or an inward offset were asked for something that is not an area.
    NotAnArea,
    /// The wider outline would run into itself.
    RunsIntoItself,
    /// An inward offset was asked for an area with a corner pointing in.
    NotConvex,
    /// Nothing is left that far in.
    NothingLeft,
}

/// A square corner is at most this many times the offset from its base.
const MITRE_LIMIT: f64 = 10.0;

/// The outline `by` nanometres farther out; `by` is not negative.
///
/// Round corners are exact. Square ones are rounded to the nanometre, which is added to the accuracy.
///
/// # Errors
/// For square corners, see [`OffsetFault`].
pub fn outward(figure: &Figure, by: i64, corners: Corners) -> Result<Figure, OffsetFault> {
    let by = by.max(0);
    if corners == Corners::Round {
        return Ok(Figure {
            spread: figure.spread.saturating_add(by),
            ..figure.clone()
        });
    }
    if figure.spread > 0 {
        return Err(OffsetFault::AlreadyRound);
    }
    let forms = figure.forms.iter().map(|form| match form {
        Form::Ring(ring) => mitred(ring, by).map(Form::Ring),
        Form::Point(_) | Form::Path(_) => Err(OffsetFault::NotAnArea),
    });
    Ok(Figure::new(
        forms.collect::<Result<_, _>>()?,
        0,
        rounded_accuracy(figure),
    ))
}

fn rounded_accuracy(figure: &Figure) -> Option<i64> {
    figure.accuracy.map(|accuracy| accuracy.saturating_add(1))
}

fn mitred(ring: &[Point], by: i64) -> Result<Vec<Point>, OffsetFault> {
    // For a ring that runs anticlockwise, outward is to the right.
    let out = if signed_area2(ring) < 0 { -1.0 } else { 1.0 };
    let before = ring.iter().cycle().skip(ring.len().saturating_sub(1));
    let after = ring.iter().cycle().skip(1);
    let corners = ring.iter().zip(before).zip(after);
    let moved = corners.map(|((corner, before), after)| {
        let (one, other) = (unit(*before, *corner), unit(*corner, *after));
        let (x, y) = (one.1 + other.1, -one.0 - other.0);
        // The square of the sum of two unit normals is 2 + 2 cos; the corner moves √(2 / (1 + cos)) times the offset.
        let squared = x * x + y * y;
        if squared * MITRE_LIMIT * MITRE_LIMIT < 4.0 {
            return Err(OffsetFault::TooAcute);
        }
        let reach = out * 2.0 * by as f64 / squared;
        Ok(Point {
            x: corner.x.saturating_add((x * reach).round() as i64),
            y: corner.y.saturating_add((y * reach).round() as i64),
        })
    });
    let moved: Vec<Point> = moved.collect::<Result<_, _>>()?;
    let sound = keeps_its_sides(ring, &moved) && is_sound(&moved);
    sound.then_some(moved).ok_or(OffsetFault::RunsIntoItself)
}

/// Whether each side still has its direction: a side that is reversed has run through another.
fn keeps_its_sides(ring: &[Point], moved: &[Point]) -> bool {
    let mut sides = Chain::ring(ring).edges().zip(Chain::ring(moved).edges());
    let ahead = |(one, other): (Edge, Edge)| {
        Vector::between(one.a, one.b).dot(Vector::between(other.a, other.b)) > 0
    };
    sides.all(ahead)
}

fn unit(from: Point, to: Point) -> (f64, f64) {
    let (x, y) = Vector::between(from, to).floats();
    let length = (x * x + y * y).sqrt();
    (x / length, y / length)
}

/// The outline of everything at least `by` nanometres within a convex figure; `by` is not negative.
///
/// Up to the spread, only the spread is reduced, which is exact. Beyond that, straight sides are moved in and their corners
/// rounded to the nanometre, which is added to the accuracy.
///
/// # Errors
/// A shape with a corner pointing in, several shapes in one, or nothing left: see [`OffsetFault`].
pub fn inward(figure: &Figure, by: i64) -> Result<Figure, OffsetFault> {
    let by = by.max(0);
    let [form] = figure.forms.as_slice() else {
        return Err(OffsetFault::NotConvex);
    };
    let convex = match form {
        Form::Point(_) => true,
        Form::Path(points) => points.len() == 2,
        Form::Ring(ring) => is_convex(ring),
    };
    if !convex {
        return Err(OffsetFault::NotConvex);
    }
    if by <= figure.spread {
        return Ok(Figure {
            spread: figure.spread - by,
            ..figure.clone()
        });
    }
    let Form::Ring(ring) = form else {
        return Err(OffsetFault::NothingLeft);
    };
    let ring = shrunk(ring, by - figure.spread).ok_or(OffsetFault::NothingLeft)?;
    Ok(Figure::new(
        vec![Form::Ring(ring)],
        0,
        rounded_accuracy(figure),
    ))
}

/// Everything that is surely at least `by` nanometres within a convex figure; `Some(None)` where nothing is. `None` where the
/// figure is not convex.
pub fn narrower(figure: &Figure, by: i64) -> Option<Option<Figure>> {
    // Corners are rounded to the nanometre.
    let by = match by > figure.spread {
        true => by.saturating_add(2),
        false => by,
    };
    match inward(figure, by) {
        Ok(left) => Some(Some(left)),
        Err(OffsetFault::NothingLeft) => Some(None),
        Err(_) => None,
    }
}

/// A ring that is everywhere at least `by` nanometres within another, with each side moved in. `None` where the sides would run
/// into each other, or where a corner is too acute.
pub(crate) fn narrowed(ring: &[Point], by: i64) -> Option<Vec<Point>> {
    // Corners are rounded to the nanometre.
    let by = by.saturating_add(2);
    let moved = match is_convex(ring) {
        true => shrunk(ring, by)?,
        false => mitred(ring, -by).ok()?,
    };
    let within = contains(ring, &Form::Ring(moved.clone())) == Place::Within;
    let apart = between_lines(Chain::ring(ring), Chain::ring(&moved)).low;
    (within && apart >= by.saturating_sub(2)).then_some(moved)
}

/// The rest of a convex ring when each side is moved in.
fn shrunk(ring: &[Point], by: i64) -> Option<Vec<Point>> {
    let origin = *ring.first()?;
    let local = |p: Point| Vector::between(origin, p).floats();
    let in_left = if signed_area2(ring) < 0 { -1.0 } else { 1.0 };
    let mut left: Vec<(f64, f64)> = ring.iter().map(|p| local(*p)).collect();
    for Edge { a, b } in Chain::ring(ring).edges() {
        let (x, y) = unit(a, b);
        let (ax, ay) = local(a);
        let beyond = |p: (f64, f64)| in_left * (x * (p.1 - ay) - y * (p.0 - ax)) - by as f64;
        left = cut(&left, beyond);
    }
    let place = |(x, y): (f64, f64)| Point {
        x: origin.x.saturating_add(x.round() as i64),
        y: origin.y.saturating_add(y.round() as i64),
    };
    let mut points: Vec<Point> = left.into_iter().map(place).collect();
    points.dedup();
    if points.first() == points.last() {
        points.pop();
    }
    is_sound(&points).then_some(points)
}

/// The part of a convex shape where `height`, which is linear, is not negative.
fn cut(shape: &[(f64, f64)], height: impl Fn((f64, f64)) -> f64) -> Vec<(f64, f64)> {
    let mut kept = Vec::with_capacity(shape.len() + 1);
    let before = shape.iter().cycle().skip(shape.len().saturating_sub(1));
    for (&to, &from) in shape.iter().zip(before) {
        let (start, end) = (height(from), height(to));
        if (start < 0.0) != (end < 0.0) {
            let share = start / (start - end);
            kept.push((
                from.0 + share * (to.0 - from.0),
                from.1 + share * (to.1 - from.1),
            ));
        }
        if end >= 0.0 {
            kept.push(to);
        }
    }
    kept
}
