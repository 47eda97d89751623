//! Land on one side of a line, with the line extended across everything or only beside the line itself; and the triangle at a
//! corner of two lines. These constructions are less exact than the lines that they are made from.

use crate::measure::area::zone::corners;
use crate::measure::figure::chain::{Chain, Edge};
use crate::measure::figure::direction::{distance, dot, moved, unit};
use crate::measure::figure::exact::Vector;
use crate::plan::figure::{Figure, Form, Point};

/// Land on one side of a line, large enough for some figure.
#[derive(Debug, Clone, PartialEq)]
pub struct Land {
    /// The land.
    pub ring: Vec<Point>,
    /// The line, as extended.
    pub edge: Form,
    /// The factor by which the edge's farthest relevant part may be off by more than the line itself.
    pub sway: f64,
}

/// The side of a line, seen along it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hand {
    /// To the left.
    Left,
    /// To the right.
    Right,
}

impl Hand {
    /// The direction square to another, on this side of it.
    fn of(self, (x, y): (f64, f64)) -> (f64, f64) {
        match self {
            Hand::Left => (-y, x),
            Hand::Right => (y, -x),
        }
    }

    fn other(self) -> Hand {
        match self {
            Hand::Left => Hand::Right,
            Hand::Right => Hand::Left,
        }
    }
}

/// The direction in which a wall looks, from its first end to its last, if that is its outer side.
fn looking(wall: &[Point], hand: Hand) -> Option<(f64, f64)> {
    Some(hand.of(unit(*wall.first()?, *wall.last()?)?))
}

/// Whether two walls, each with its outer side, look more or less the same way.
pub fn look_alike(one: (&[Point], Hand), other: (&[Point], Hand)) -> bool {
    let both = looking(one.0, one.1).zip(looking(other.0, other.1));
    both.is_some_and(|(one, other)| dot(one, other) > 0.0)
}

/// Several pieces of a wall as one line, joined straight from each to the next along the first of them, and its outer side.
pub fn in_a_row(pieces: &[(&[Point], Hand)]) -> Option<(Vec<Point>, Hand)> {
    let mut all: Vec<Vec<Point>> = pieces.iter().map(|piece| left_handed(*piece)).collect();
    let first = all.first()?;
    let (from, along) = (*first.first()?, unit(*first.first()?, *first.last()?)?);
    let far = |at: &Point| dot(Vector::between(from, *at).floats(), along);
    let middle = |piece: &[Point]| piece.first().map_or(0.0, far) + piece.last().map_or(0.0, far);
    all.sort_by(|one, other| middle(one).total_cmp(&middle(other)));
    let mut line = all.concat();
    line.dedup();
    Some((line, Hand::Left))
}

/// A wall in the direction in which its outer side is to the left.
fn left_handed((wall, hand): (&[Point], Hand)) -> Vec<Point> {
    let mut wall = wall.to_vec();
    if hand == Hand::Right {
        wall.reverse();
    }
    wall
}

/// The rounding of constructed corners to whole nanometres, in two steps.
pub const ROUNDED: i64 = 3;

/// The land on one side of a line that is extended at both ends past a figure; `None` where the line bends so far that extending
/// it makes no sense, or has no length.
pub fn beyond(line: &[Point], hand: Hand, near: &Figure) -> Option<Land> {
    let (first, last) = (first_edge(line)?, last_edge(line)?);
    let across = unit(*line.first()?, *line.last()?)?;
    let (back, on) = (unit(first.b, first.a)?, unit(last.a, last.b)?);
    if dot(back, across) > -0.3 || dot(on, across) < 0.3 {
        return None;
    }
    let far = far_from(line, near);
    let (start, end) = (moved(first.a, back, far), moved(last.b, on, far));
    let out = hand.of(across);
    let mut edge = vec![start];
    edge.extend_from_slice(line);
    edge.push(end);
    let mut ring = edge.clone();
    ring.extend([moved(end, out, 2.0 * far), moved(start, out, 2.0 * far)]);
    let over = |edge: Edge| overshoot(edge, near);
    let sway = 1.0
        + 2.0
            * (over(first)).max(over(Edge {
                a: last.b,
                b: last.a,
            }));
    is_simple(&ring).then_some(Land {
        ring,
        edge: Form::Path(edge),
        sway,
    })
}

/// The land straight beside a line on one side: as wide as the line from end to end, and deep enough for some figure.
pub fn beside(line: &[Point], hand: Hand, near: &Figure) -> Option<Land> {
    let out = looking(line, hand)?;
    let far = far_from(line, near);
    let (first, last) = (*line.first()?, *line.last()?);
    let (start, end) = (moved(first, out, far), moved(last, out, far));
    let mut edge = vec![start];
    edge.extend_from_slice(line);
    edge.push(end);
    let chord = distance(first, last);
    let deep = corners(near)
        .map(|p| Vector::between(first, p).floats())
        .map(|(x, y)| (x * out.0 + y * out.1).max(0.0))
        .fold(0.0, f64::max);
    is_simple(&edge).then(|| Land {
        ring: edge.clone(),
        edge: Form::Path(edge),
        sway: 1.0 + 2.0 * (deep + near.spread as f64) / chord,
    })
}

/// The land on the inner side of a wall, as wide as its building is along the wall: where a wall that is not drawn, at the other
/// side of the building, has its yard.
pub fn opposite(wall: &[Point], hand: Hand, building: &[Point], near: &Figure) -> Option<Land> {
    let first = *wall.first()?;
    let along = unit(first, *wall.last()?)?;
    let reach = building.iter().map(|p| {
        let (x, y) = Vector::between(first, *p).floats();
        dot((x, y), along)
    });
    let (from, to) = (reach.clone().reduce(f64::min)?, reach.reduce(f64::max)?);
    let ends = [moved(first, along, from), moved(first, along, to)];
    beside(&ends, hand.other(), near)
}

/// The side of an extended line on which all points of a figure are.
pub fn hand_of(line: &[Point], of: &Figure) -> Option<Hand> {
    let holds = |hand| {
        let land = beyond(line, hand, of)?;
        corners(of)
            .all(|p| {
                crate::measure::figure::inside::side(&land.ring, p)
                    != crate::measure::figure::inside::Side::Outside
            })
            .then_some(hand)
    };
    match (holds(Hand::Left), holds(Hand::Right)) {
        (Some(_), Some(_)) => None,
        (left, right) => left.or(right),
    }
}

/// The outer side of a wall, from the building's own outline.
pub fn outward(wall: &[Point], building: &[Point]) -> Option<Hand> {
    const STEP: f64 = 1e7;
    let edge = first_edge(wall)?;
    let across = unit(edge.a, edge.b)?;
    let middle = crate::measure::figure::exact::part_way(edge.a, edge.b, 0.5);
    let inside = |hand: Hand| {
        crate::measure::figure::inside::side(building, moved(middle, hand.of(across), STEP))
            == crate::measure::figure::inside::Side::Inside
    };
    match (inside(Hand::Left), inside(Hand::Right)) {
        (true, false) => Some(Hand::Right),
        (false, true) => Some(Hand::Left),
        _ => None,
    }
}

fn first_edge(line: &[Point]) -> Option<Edge> {
    let [a, b, ..] = line else { return None };
    Some(Edge { a: *a, b: *b })
}

fn last_edge(line: &[Point]) -> Option<Edge> {
    let [.., a, b] = line else { return None };
    Some(Edge { a: *a, b: *b })
}

/// How far a figure extends beyond the first end of an edge, as a share of the edge's length.
fn overshoot(edge: Edge, near: &Figure) -> f64 {
    let length = distance(edge.a, edge.b);
    let Some(back) = unit(edge.b, edge.a) else {
        return 0.0;
    };
    let over = corners(near)
        .map(|p| Vector::between(edge.a, p).floats())
        .map(|(x, y)| x * back.0 + y * back.1)
        .fold(f64::NEG_INFINITY, f64::max);
    ((over + near.spread as f64) / length).max(0.0)
}

/// Three times the distance from a line to the farthest place of a figure, and a metre more.
fn far_from(line: &[Point], near: &Figure) -> f64 {
    let most = corners(near)
        .flat_map(|p| line.iter().map(move |q| distance(p, *q)))
        .fold(0.0, f64::max);
    3.0 * (most + near.spread as f64) + 1e9
}

fn is_simple(ring: &[Point]) -> bool {
    let edges: Vec<Edge> = Chain::ring(ring).edges().collect();
    let crossing =
        |(at, edge): (usize, &Edge)| edges.iter().skip(at + 1).any(|other| edge.crosses(other));
    !edges.iter().enumerate().any(crossing)
}

/// Places no farther than `by` from a point: to either side of a line's direction, and straight away from the line.
pub fn moved_away(at: Point, line: &[Point], by: i64) -> Vec<Point> {
    // Less by the rounding, so that they are no farther.
    let by = by.saturating_sub(2).max(0) as f64;
    let path = Form::Path(line.to_vec());
    let foot = crate::measure::distance::distance(&Form::Point(at), &path).to;
    let along = line.first().zip(line.last());
    let along = along.and_then(|(first, last)| unit(*first, *last));
    let beside = along.map(|(x, y)| [(-y, x), (y, -x)]);
    let ways = beside.into_iter().flatten().chain(unit(foot, at));
    ways.map(|way| moved(at, way, by)).collect()
}

/// The triangle at a corner of two lines.
#[derive(Debug, Clone, PartialEq)]
pub struct Triangle {
    /// The corner and the ends of the two legs.
    pub ring: Vec<Point>,
    /// The tolerance of the three, in nanometres.
    pub tolerance: i64,
    /// Whether the two lines surely make a corner.
    pub sure: bool,
}

/// A line with its tolerance.
#[derive(Debug, Clone, Copy)]
pub struct UncertainLine<'a> {
    /// The line.
    pub line: &'a [Point],
    /// Its tolerance, in nanometres.
    pub tolerance: i64,
}

/// The corner that two lines may make.
#[derive(Debug, Clone, PartialEq)]
pub enum Corner {
    /// They surely make no corner: they are (nearly) parallel, or end too far from each other.
    None,
    /// They make this one, surely or perhaps.
    Triangle(Triangle),
    /// Where it is cannot be found.
    Unknown,
}

/// Lines at an angle of less than ten degrees (this is its sine) count as parallel.
const PARALLEL: f64 = 0.173_648;

/// The triangle between two lines, from the corner where they meet, if need be when each is extended by at most a leg, to a
/// leg's length along each. Where the lines cross, it is the triangle towards a place.
pub fn corner(one: UncertainLine, other: UncertainLine, legs: i64, towards: Point) -> Corner {
    let Some(meeting) = meeting(one.line, other.line) else {
        return Corner::None;
    };
    let (first, second) = (meeting.one, meeting.other);
    let turned = |by: i64, run: &Run| 3.2 * by as f64 / run.length;
    let turn = turned(one.tolerance, &first) + turned(other.tolerance, &second);
    let sway = |by: i64, run: &Run| by as f64 * (1.0 + 2.0 * run.over / run.length);
    let sine = meeting.sine - turn;
    let at_most = (sway(one.tolerance, &first) + sway(other.tolerance, &second)) / sine.max(0.02);
    let long = first.over.max(second.over);
    if meeting.sine + turn < PARALLEL || long > legs as f64 + at_most {
        return Corner::None;
    }
    let Some((a, b)) = legs_towards(one.line, other.line, &meeting, towards) else {
        return Corner::Unknown;
    };
    if sine < 0.02 {
        return Corner::Unknown;
    }
    let widest = turned(one.tolerance, &first).max(turned(other.tolerance, &second));
    let of_lines = one.tolerance.max(other.tolerance);
    let tolerance = at_most + legs as f64 * widest + of_lines as f64 + ROUNDED as f64;
    let end = |direction: &[Point]| along(meeting.at, direction, legs as f64);
    match (end(&a), end(&b)) {
        (Some(a), Some(b)) => Corner::Triangle(Triangle {
            ring: vec![meeting.at, a, b],
            tolerance: tolerance.ceil() as i64,
            sure: sine >= PARALLEL && long + at_most <= legs as f64,
        }),
        _ => Corner::Unknown,
    }
}

/// Where on a line a corner is.
#[derive(Debug, Clone, Copy)]
struct Run {
    /// Which edge.
    edge: usize,
    /// How far along it, as a share of its length; below 0 or above 1 where the line was extended.
    share: f64,
    length: f64,
    /// How far the line was extended.
    over: f64,
}

struct Meeting {
    at: Point,
    sine: f64,
    one: Run,
    other: Run,
}

/// Where two lines meet with the least extension; the first of several.
fn meeting(one: &[Point], other: &[Point]) -> Option<Meeting> {
    let edges = |line: &[Point]| -> Vec<Edge> {
        let pairs = line.iter().zip(line.iter().skip(1));
        pairs.map(|(a, b)| Edge { a: *a, b: *b }).collect()
    };
    let (ones, others) = (edges(one), edges(other));
    let mut best: Option<Meeting> = None;
    for (i, a) in ones.iter().enumerate() {
        for (j, b) in others.iter().enumerate() {
            let ends = (i + 1 == ones.len(), j + 1 == others.len());
            let Some(found) = crossing((i, a), (j, b), ends) else {
                continue;
            };
            let over = |meeting: &Meeting| meeting.one.over + meeting.other.over;
            if best.as_ref().is_none_or(|best| over(&found) < over(best)) {
                best = Some(found);
            }
        }
    }
    best
}

fn crossing((i, a): (usize, &Edge), (j, b): (usize, &Edge), last: (bool, bool)) -> Option<Meeting> {
    let (u, v) = (unit(a.a, a.b)?, unit(b.a, b.b)?);
    let sine = u.0 * v.1 - u.1 * v.0;
    if sine.abs() < 1e-6 {
        return None;
    }
    let (x, y) = Vector::between(a.a, b.a).floats();
    let (s, t) = ((x * v.1 - y * v.0) / sine, (x * u.1 - y * u.0) / sine);
    let run = |edge: usize, far: f64, length: f64, last: bool| {
        let over = (-far).max(far - length).max(0.0);
        let allowed = (far >= 0.0 || edge == 0) && (far <= length || last);
        allowed.then_some(Run {
            edge,
            share: far / length,
            length,
            over,
        })
    };
    Some(Meeting {
        at: moved(a.a, u, s),
        sine: sine.abs(),
        one: run(i, s, distance(a.a, a.b), last.0)?,
        other: run(j, t, distance(b.a, b.b), last.1)?,
    })
}

/// The rest of a line on each side of a corner on it.
fn ways(line: &[Point], run: &Run) -> Vec<Vec<Point>> {
    let mut ways = Vec::new();
    if run.share < 1.0 {
        let skip = if run.share < 0.0 { 0 } else { run.edge + 1 };
        ways.push(line.iter().skip(skip).copied().collect());
    }
    if run.share > 0.0 {
        let take = if run.share > 1.0 {
            line.len()
        } else {
            run.edge + 1
        };
        ways.push(line.iter().take(take).rev().copied().collect());
    }
    ways
}

type Legs = (Vec<Point>, Vec<Point>);

/// The parts of both lines between which a place is; where there is no choice, the only ones.
fn legs_towards(one: &[Point], other: &[Point], meeting: &Meeting, towards: Point) -> Option<Legs> {
    let (ones, others) = (ways(one, &meeting.one), ways(other, &meeting.other));
    if let ([a], [b]) = (ones.as_slice(), others.as_slice()) {
        return Some((a.clone(), b.clone()));
    }
    let (x, y) = Vector::between(meeting.at, towards).floats();
    let between = |a: &[Point], b: &[Point]| {
        let (u, v) = (start(meeting.at, a)?, start(meeting.at, b)?);
        let sine = u.0 * v.1 - u.1 * v.0;
        let (s, t) = ((x * v.1 - y * v.0) / sine, (u.0 * y - u.1 * x) / sine);
        Some(s > 0.0 && t > 0.0)
    };
    let pairs = ones.iter().flat_map(|a| others.iter().map(move |b| (a, b)));
    let mut fit = pairs.filter(|(a, b)| between(a, b) == Some(true));
    fit.next().map(|(a, b)| (a.clone(), b.clone()))
}

fn start(at: Point, way: &[Point]) -> Option<(f64, f64)> {
    way.iter()
        .find(|p| distance(at, **p) > 2.0)
        .and_then(|p| unit(at, *p))
}

/// The place at a distance along a line, which goes straight on past its end.
fn along(at: Point, way: &[Point], far: f64) -> Option<Point> {
    let (mut from, mut left) = (at, far);
    let mut direction = None;
    for next in way.iter().filter(|p| **p != at) {
        let step = distance(from, *next);
        direction = unit(from, *next).or(direction);
        if step >= left {
            break;
        }
        (from, left) = (*next, left - step);
    }
    Some(moved(from, direction?, left))
}
