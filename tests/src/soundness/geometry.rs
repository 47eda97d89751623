//! Distances and areas of exact shapes, in the plainest way: every edge against every edge.
//!
//! Shares nothing with the checker's own geometry, on purpose.

use rules_core::plan::{Form, Point};

use super::number::Real;
use super::world::Drawn;

/// A straight line from place to place.
pub type Edge = (Point, Point);

/// The edges of a form; a point is an edge of no length.
pub fn edges(form: &Form) -> Vec<Edge> {
    let chain = |points: &[Point]| -> Vec<Edge> {
        points.windows(2).map(|pair| (pair[0], pair[1])).collect()
    };
    match form {
        Form::Point(point) => vec![(*point, *point)],
        Form::Path(points) => chain(points),
        Form::Ring(points) => {
            let mut all = chain(points);
            all.push((points[points.len() - 1], points[0]));
            all
        }
    }
}

/// The corners of a form.
pub fn corners(form: &Form) -> &[Point] {
    match form {
        Form::Point(point) => std::slice::from_ref(point),
        Form::Path(points) | Form::Ring(points) => points,
    }
}

fn along(from: Point, to: Point) -> (i128, i128) {
    (
        i128::from(to.x) - i128::from(from.x),
        i128::from(to.y) - i128::from(from.y),
    )
}

/// Twice the signed area of the triangle of three places.
fn turn(a: Point, b: Point, c: Point) -> i128 {
    let ((x, y), (u, v)) = (along(a, b), along(a, c));
    x * v - y * u
}

fn on_edge((a, b): Edge, p: Point) -> bool {
    let within = |low: i64, high: i64, at: i64| low.min(high) <= at && at <= low.max(high);
    turn(a, b, p) == 0 && within(a.x, b.x, p.x) && within(a.y, b.y, p.y)
}

fn meet(one: Edge, two: Edge) -> bool {
    on_edge(one, two.0)
        || on_edge(one, two.1)
        || on_edge(two, one.0)
        || on_edge(two, one.1)
        || cross(one, two)
}

/// Whether two edges cross between their ends.
pub fn cross(one: Edge, two: Edge) -> bool {
    let sides = |edge: Edge, (p, q): Edge| {
        turn(edge.0, edge.1, p).signum() * turn(edge.0, edge.1, q).signum()
    };
    sides(one, two) < 0 && sides(two, one) < 0
}

/// Whether a place is in a ring and not on its line.
pub fn deep_in_ring(ring: &[Point], p: Point) -> bool {
    let mut sides = edges(&Form::Ring(ring.to_vec())).into_iter();
    in_ring(ring, p) && !sides.any(|side| on_edge(side, p))
}

/// Whether a place is in a ring or on its line.
pub fn in_ring(ring: &[Point], p: Point) -> bool {
    let mut inside = false;
    for (a, b) in edges(&Form::Ring(ring.to_vec())) {
        if on_edge((a, b), p) {
            return true;
        }
        let (low, high) = if a.y <= b.y { (a, b) } else { (b, a) };
        if low.y <= p.y && p.y < high.y && turn(low, high, p) > 0 {
            inside = !inside;
        }
    }
    inside
}

fn covers(form: &Form, p: Point) -> bool {
    match form {
        Form::Ring(ring) => in_ring(ring, p),
        _ => false,
    }
}

/// The exact distance from a place to an edge, and the nearest place on the edge as floats.
fn to_edge((a, b): Edge, p: Point) -> (Real, (f64, f64)) {
    let ((x, y), (u, v)) = (along(a, b), along(a, p));
    let (dot, length) = (x * u + y * v, x * x + y * y);
    let apart = |q: Point| {
        let (x, y) = along(q, p);
        let root = Real::root((x * x + y * y).unsigned_abs());
        (root, (q.x as f64, q.y as f64))
    };
    if dot <= 0 || length == 0 {
        return apart(a);
    }
    if dot >= length {
        return apart(b);
    }
    let cross = (x * v - y * u).unsigned_abs();
    let share = dot as f64 / length as f64;
    (
        Real::root_of_square_over(cross, length.unsigned_abs()),
        (a.x as f64 + share * x as f64, a.y as f64 + share * y as f64),
    )
}

/// The same distance as a quick float, to skip pairs that cannot be nearest.
fn roughly((a, b): Edge, p: Point) -> f64 {
    let (x, y) = ((b.x - a.x) as f64, (b.y - a.y) as f64);
    let (u, v) = ((p.x - a.x) as f64, (p.y - a.y) as f64);
    let length = x * x + y * y;
    let share = match length > 0.0 {
        true => ((x * u + y * v) / length).clamp(0.0, 1.0),
        false => 0.0,
    };
    let (dx, dy) = (u - share * x, v - share * y);
    (dx * dx + dy * dy).sqrt()
}

/// Two places, as floats.
pub type Pair = ((f64, f64), (f64, f64));

/// The least distance between two forms, and the two places; areas count as filled.
fn apart(a: &Form, b: &Form) -> (Real, Pair) {
    let (of_a, of_b) = (edges(a), edges(b));
    let crossing = of_a
        .iter()
        .any(|one| of_b.iter().any(|two| meet(*one, *two)));
    if crossing || covers(a, corners(b)[0]) || covers(b, corners(a)[0]) {
        return (Real::whole(0), (middle(a), middle(b)));
    }
    let mut pairs = Vec::new();
    for p in corners(a) {
        pairs.extend(of_b.iter().map(|edge| (*edge, *p, false)));
    }
    for p in corners(b) {
        pairs.extend(of_a.iter().map(|edge| (*edge, *p, true)));
    }
    let least = pairs
        .iter()
        .map(|(edge, p, _)| roughly(*edge, *p))
        .fold(f64::MAX, f64::min);
    let mut best: Option<(Real, Pair)> = None;
    for (edge, p, turned) in pairs {
        if roughly(edge, p) > least * (1.0 + 1e-9) + 1.0 {
            continue;
        }
        let (distance, q) = to_edge(edge, p);
        let p = (p.x as f64, p.y as f64);
        let nearer = best
            .is_none_or(|(so_far, _)| distance.floor() < so_far.floor() || below(distance, so_far));
        if nearer {
            best = Some((distance, if turned { (q, p) } else { (p, q) }));
        }
    }
    best.unwrap_or((Real::whole(0), (middle(a), middle(b))))
}

fn below(one: Real, two: Real) -> bool {
    one.compared(two) == Some(std::cmp::Ordering::Less)
}

/// The mean of a form's corners.
pub fn middle(form: &Form) -> (f64, f64) {
    let points = corners(form);
    let count = points.len() as f64;
    let sum = points
        .iter()
        .fold((0.0, 0.0), |(x, y), p| (x + p.x as f64, y + p.y as f64));
    (sum.0 / count, sum.1 / count)
}

/// The least distance between two outlines, and the two places on their forms.
pub fn nearest(a: &Drawn, b: &Drawn) -> (Real, Pair) {
    let mut best: Option<(Real, Pair)> = None;
    for one in &a.forms {
        for two in &b.forms {
            let found = apart(one, two);
            if best.is_none_or(|(so_far, _)| below(found.0, so_far)) {
                best = Some(found);
            }
        }
    }
    let (distance, pair) = best.unwrap_or((Real::whole(0), ((0.0, 0.0), (0.0, 0.0))));
    let reach = Real::whole(i128::from(a.spread) + i128::from(b.spread));
    (distance.less(reach).no_less_than_nothing(), pair)
}

/// The greatest distance between a place of one and a place of the other, which is always between corners.
pub fn farthest(from: &Drawn, to: &Drawn) -> Real {
    let mut most = 0;
    for one in from.forms.iter().flat_map(corners) {
        for other in to.forms.iter().flat_map(corners) {
            let (x, y) = along(*one, *other);
            most = most.max((x * x + y * y).unsigned_abs());
        }
    }
    let reach = Real::whole(i128::from(from.spread) + i128::from(to.spread));
    Real::root(most).plus(reach)
}

/// The same in floats, with the two places.
pub fn farthest_pair(from: &Drawn, to: &Drawn) -> (f64, Pair) {
    let place = |at: &Point| (at.x as f64, at.y as f64);
    let mut best = (0.0, ((0.0, 0.0), (0.0, 0.0)));
    for one in from.forms.iter().flat_map(corners) {
        for other in to.forms.iter().flat_map(corners) {
            let (x, y) = along(*one, *other);
            let far = ((x * x + y * y) as f64).sqrt();
            if far >= best.0 {
                best = (far, (place(one), place(other)));
            }
        }
    }
    best
}

/// The area of an outline of rings without spread.
pub fn area(of: &Drawn) -> Real {
    let mut sum = Real::whole(0);
    for form in &of.forms {
        if let Form::Ring(points) = form {
            let twice: i128 = points
                .iter()
                .skip(1)
                .zip(points.iter().skip(2))
                .map(|(b, c)| turn(points[0], *b, *c))
                .sum();
            sum = sum.plus(Real::half(twice.abs()));
        }
    }
    sum
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ring(corners: &[(i64, i64)]) -> Drawn {
        let points = corners.iter().map(|&(x, y)| Point { x, y }).collect();
        Drawn {
            forms: vec![Form::Ring(points)],
            spread: 0,
        }
    }

    fn point(x: i64, y: i64, spread: i64) -> Drawn {
        Drawn {
            forms: vec![Form::Point(Point { x, y })],
            spread,
        }
    }

    const SQUARE: [(i64, i64); 4] = [(0, 0), (10, 0), (10, 10), (0, 10)];

    #[test]
    fn a_three_four_five_triangle_gives_five_less_the_spread() {
        let square = ring(&SQUARE);
        assert_eq!(nearest(&square, &point(13, 14, 0)).0, Real::whole(5));
        assert_eq!(nearest(&square, &point(13, 14, 2)).0, Real::whole(3));
        assert_eq!(nearest(&square, &point(13, 14, 9)).0, Real::whole(0));
        // From (0, 0) to (13, 14): the square root of 365, just over 19.
        assert_eq!(farthest(&square, &point(13, 14, 0)).floor(), 19);
        assert_eq!(farthest(&square, &point(15, 8, 3)).floor(), 20);
        // The diagonal of a square is 14.14; the width of a round thing is twice its radius.
        assert_eq!(farthest(&square, &square).floor(), 14);
        assert_eq!(farthest(&point(1, 1, 3), &point(1, 1, 3)), Real::whole(6));
    }

    #[test]
    fn inside_touching_and_crossing_are_nothing() {
        let square = ring(&SQUARE);
        let others = [
            ring(&[(2, 2), (3, 2), (3, 3)]),
            ring(&[(10, 3), (20, 3), (20, 5)]),
            ring(&[(-5, 4), (15, 4), (15, 5), (-5, 5)]),
            ring(&[(-5, -5), (20, -5), (20, 20), (-5, 20)]),
        ];
        for other in &others {
            assert_eq!(nearest(&square, other).0, Real::whole(0));
            assert_eq!(nearest(other, &square).0, Real::whole(0));
        }
    }

    #[test]
    fn a_slanting_edge_is_met_in_between() {
        // From (0, 0) to the line x + y = 10: ten over the root of two, 7.07….
        let line = Drawn {
            forms: vec![Form::Path(vec![
                Point { x: 10, y: 0 },
                Point { x: 0, y: 10 },
            ])],
            spread: 0,
        };
        let found = nearest(&point(0, 0, 0), &line).0;
        assert!((found.approximately() - 50_f64.sqrt()).abs() < 1e-5);
    }

    #[test]
    fn areas_do_not_mind_the_direction() {
        assert_eq!(area(&ring(&SQUARE)), Real::whole(100));
        assert_eq!(area(&ring(&[(0, 0), (0, 5), (3, 0)])), Real::half(15));
        let bent = ring(&[(0, 0), (4, 0), (4, 4), (2, 4), (2, 2), (0, 2)]);
        assert_eq!(area(&bent), Real::whole(12));
    }
}
