//! Plane geometry in plain floats, in nanometres: the true values of measures in one exact world.

use rules_core::plan::Point;

use super::site::Shape;

/// A place.
pub type P = (f64, f64);

/// As floats.
pub fn p(at: Point) -> P {
    (at.x as f64, at.y as f64)
}

/// All as floats.
pub fn all(list: &[Point]) -> Vec<P> {
    list.iter().map(|at| p(*at)).collect()
}

fn sub(a: P, b: P) -> P {
    (a.0 - b.0, a.1 - b.1)
}

fn dot(a: P, b: P) -> f64 {
    a.0 * b.0 + a.1 * b.1
}

/// Twice the area of the triangle of two vectors, positive where the second lies to the left of the first.
pub fn cross(a: P, b: P) -> f64 {
    a.0 * b.1 - a.1 * b.0
}

/// The length of a vector.
pub fn length(a: P) -> f64 {
    libm::sqrt(dot(a, a))
}

/// The distance between two places.
pub fn apart(a: P, b: P) -> f64 {
    length(sub(a, b))
}

/// The place a share of the way from one place to another.
pub fn part_way(a: P, b: P, share: f64) -> P {
    (a.0 + share * (b.0 - a.0), a.1 + share * (b.1 - a.1))
}

/// The distance from a place to a segment.
pub fn to_segment(at: P, (a, b): (P, P)) -> f64 {
    let line = sub(b, a);
    let squared = dot(line, line);
    let share = if squared > 0.0 {
        (dot(sub(at, a), line) / squared).clamp(0.0, 1.0)
    } else {
        0.0
    };
    apart(at, part_way(a, b, share))
}

/// Whether two segments cross.
pub fn meets((a, b): (P, P), (c, d): (P, P)) -> bool {
    let side = |p: P, q: P, r: P| cross(sub(q, p), sub(r, p));
    side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0
}

/// The segments of a shape's line.
pub fn pieces(shape: &Shape) -> Vec<(P, P)> {
    let list = all(shape.corners());
    match shape {
        Shape::Area(_) => sides(&list),
        Shape::Curved(..) => sides(&with_its_arc(shape)),
        _ if list.len() == 1 => vec![(list[0], list[0])],
        _ => list
            .iter()
            .copied()
            .zip(list.iter().copied().skip(1))
            .collect(),
    }
}

/// The sides of a ring.
pub fn sides(ring: &[P]) -> Vec<(P, P)> {
    ring.iter()
        .copied()
        .zip(ring.iter().copied().cycle().skip(1))
        .collect()
}

/// Whether a place lies within a ring, by counting the sides north of it.
pub fn within(ring: &[P], at: P) -> bool {
    let over = |(a, b): &(P, P)| {
        (a.0 > at.0) != (b.0 > at.0) && at.1 < a.1 + (b.1 - a.1) * (at.0 - a.0) / (b.0 - a.0)
    };
    sides(ring).iter().filter(|side| over(side)).count() % 2 == 1
}

/// The distance from a place to a shape; zero inside it.
pub fn to_shape(at: P, shape: &Shape) -> f64 {
    if matches!(shape, Shape::Area(ring) if within(&all(ring), at)) {
        return 0.0;
    }
    let least = pieces(shape)
        .into_iter()
        .map(|piece| to_segment(at, piece))
        .fold(f64::INFINITY, f64::min);
    (least - shape.radius() as f64).max(0.0)
}

/// The distance between two shapes.
pub fn distance(one: &Shape, other: &Shape) -> f64 {
    let inside = |outer: &Shape, inner: &Shape| matches!(outer, Shape::Area(ring) if within(&all(ring), p(inner.corners()[0])));
    if inside(one, other) || inside(other, one) {
        return 0.0;
    }
    let least = between(&pieces(one), &pieces(other));
    (least - (one.radius() + other.radius()) as f64).max(0.0)
}

/// The least distance between two sets of segments.
pub fn between(ones: &[(P, P)], others: &[(P, P)]) -> f64 {
    let mut least = f64::INFINITY;
    for a in ones {
        for b in others {
            if meets(*a, *b) {
                return 0.0;
            }
            least = least.min(to_segment(a.0, *b)).min(to_segment(a.1, *b));
            least = least.min(to_segment(b.0, *a)).min(to_segment(b.1, *a));
        }
    }
    least
}

/// The circle of an arc: its centre, the vector from there to the arc's top, and the angle from the top to its ends.
struct Circle {
    middle: P,
    spoke: P,
    ends: (f64, f64),
}

impl Circle {
    /// The arc through two places that bulges by `rise` between them. Its centre is where the perpendicular bisectors
    /// of the chords from either end to the top meet.
    fn through(a: P, b: P, rise: f64) -> Self {
        let long = apart(a, b);
        let out = ((b.1 - a.1) / long, (a.0 - b.0) / long);
        let top = (
            f64::midpoint(a.0, b.0) + out.0 * rise,
            f64::midpoint(a.1, b.1) + out.1 * rise,
        );
        // The perpendicular bisector of the chord of half the arc meets the arc's axis; the radius follows from similar
        // triangles.
        let radius = (long * long / 4.0 + rise * rise) / (2.0 * rise);
        let middle = (top.0 - out.0 * radius, top.1 - out.1 * radius);
        let mut circle = Circle {
            middle,
            spoke: sub(top, middle),
            ends: (0.0, 0.0),
        };
        circle.ends = (circle.angle(a), circle.angle(b));
        circle
    }

    /// The angle of a place from the arc's top.
    fn angle(&self, at: P) -> f64 {
        let off = sub(at, self.middle);
        libm::atan2(cross(self.spoke, off), dot(self.spoke, off))
    }

    fn at(&self, angle: f64) -> P {
        let (sin, cos) = (libm::sin(angle), libm::cos(angle));
        (
            self.middle.0 + self.spoke.0 * cos - self.spoke.1 * sin,
            self.middle.1 + self.spoke.0 * sin + self.spoke.1 * cos,
        )
    }

    fn distance(&self, at: P) -> f64 {
        let (from, to) = (self.ends.0.min(self.ends.1), self.ends.0.max(self.ends.1));
        match (from..=to).contains(&self.angle(at)) {
            true => (apart(at, self.middle) - apart(self.spoke, (0.0, 0.0))).abs(),
            false => apart(at, self.at(from)).min(apart(at, self.at(to))),
        }
    }
}

/// The length of an arc that bulges by `rise` between two places: its angle times its radius.
pub fn along_arc((a, b): (P, P), rise: f64) -> f64 {
    let circle = Circle::through(a, b, rise);
    (circle.ends.0 - circle.ends.1).abs() * apart(circle.spoke, (0.0, 0.0))
}

/// The ring of a shape whose first side is an arc, the arc in three thousand steps.
pub fn with_its_arc(shape: &Shape) -> Vec<P> {
    const STEPS: u32 = 3000;
    let Shape::Curved(corners, rise) = shape else {
        return all(shape.corners());
    };
    let corners = all(corners);
    let circle = Circle::through(corners[0], corners[1], *rise as f64);
    let (from, to) = circle.ends;
    let step = |step: u32| circle.at(from + (to - from) * f64::from(step) / f64::from(STEPS));
    (0..STEPS)
        .map(step)
        .chain(corners.into_iter().skip(1))
        .collect()
}

/// The distance from a place to a shape whose first side is an arc, using the arc's circle.
pub fn to_curved(at: P, shape: &Shape) -> f64 {
    let Shape::Curved(corners, rise) = shape else {
        return to_shape(at, shape);
    };
    if within(&with_its_arc(shape), at) {
        return 0.0;
    }
    let sides = sides(&all(corners));
    let circle = Circle::through(sides[0].0, sides[0].1, *rise as f64);
    let straight = sides[1..].iter().map(|side| to_segment(at, *side));
    straight.fold(circle.distance(at), f64::min)
}

/// Twice the area of a ring that runs anticlockwise.
pub fn twice_area(ring: &[P]) -> f64 {
    let origin = ring.first().copied().unwrap_or_default();
    sides(ring)
        .iter()
        .map(|(a, b)| cross(sub(*a, origin), sub(*b, origin)))
        .sum()
}

/// The area of a ring or of a round shape.
pub fn area(shape: &Shape) -> f64 {
    let radius = shape.radius() as f64;
    match shape {
        Shape::Area(ring) => twice_area(&all(ring)).abs() / 2.0,
        Shape::Round(..) => {
            let long: f64 = pieces(shape).into_iter().map(|(a, b)| apart(a, b)).sum();
            radius * (2.0 * long + std::f64::consts::PI * radius)
        }
        Shape::Curved(..) => twice_area(&with_its_arc(shape)).abs() / 2.0,
        Shape::Spot(_) | Shape::Line(_) => 0.0,
    }
}

/// The part of a ring to the left of a line through two places (Sutherland and Hodgman, 1974).
pub fn left_of(ring: &[P], (a, b): (P, P)) -> Vec<P> {
    let height = |at: P| cross(sub(b, a), sub(at, a));
    let mut kept = Vec::new();
    for (from, to) in sides(ring) {
        let (start, end) = (height(from), height(to));
        if start >= 0.0 {
            kept.push(from);
        }
        if (start < 0.0) != (end < 0.0) {
            kept.push(part_way(from, to, start / (start - end)));
        }
    }
    kept
}

/// The part of a ring within a convex ring that runs anticlockwise.
pub fn cut_to(ring: &[P], convex: &[P]) -> Vec<P> {
    sides(convex)
        .into_iter()
        .fold(ring.to_vec(), |left, side| left_of(&left, side))
}

/// The same ring, anticlockwise.
pub fn against_the_clock(mut ring: Vec<P>) -> Vec<P> {
    if twice_area(&ring) < 0.0 {
        ring.reverse();
    }
    ring
}

/// The area that a disc shares with a ring: each side makes a triangle with the centre, and the circle cuts it.
pub fn in_disc(ring: &[P], centre: P, radius: f64) -> f64 {
    let slice = |(a, b): (P, P)| {
        let (a, b) = (sub(a, centre), sub(b, centre));
        let line = sub(b, a);
        let (m, half) = (dot(line, line), dot(a, line));
        let root = half * half - m * (dot(a, a) - radius * radius);
        let sector = |u: P, v: P| radius * radius * libm::atan2(cross(u, v), dot(u, v)) / 2.0;
        if root <= 0.0 || m == 0.0 {
            return sector(a, b);
        }
        let (s, t) = (
            (-half - libm::sqrt(root)) / m,
            (-half + libm::sqrt(root)) / m,
        );
        if t <= 0.0 || s >= 1.0 {
            return sector(a, b);
        }
        let (enter, leave) = (part_way(a, b, s.max(0.0)), part_way(a, b, t.min(1.0)));
        let before = if s > 0.0 { sector(a, enter) } else { 0.0 };
        let after = if t < 1.0 { sector(leave, b) } else { 0.0 };
        before + cross(enter, leave) / 2.0 + after
    };
    sides(ring).into_iter().map(slice).sum::<f64>().abs()
}

/// The shares of a segment between which it lies within a distance of something convex; `None` if it never does.
pub fn near_along((a, b): (P, P), by: f64, far: impl Fn(P) -> f64) -> Option<(f64, f64)> {
    let at = |share: f64| far(part_way(a, b, share));
    // The distance to something convex is convex, so ternary search finds its minimum and bisection the two crossings.
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..200 {
        let (one, two) = (low + (high - low) / 3.0, high - (high - low) / 3.0);
        if at(one) <= at(two) {
            high = two
        } else {
            low = one
        }
    }
    let least = f64::midpoint(low, high);
    if at(least) > by {
        return None;
    }
    let edge = |mut inner: f64, mut outer: f64| {
        if at(outer) <= by {
            return outer;
        }
        for _ in 0..100 {
            let middle = f64::midpoint(inner, outer);
            if at(middle) <= by {
                inner = middle
            } else {
                outer = middle
            }
        }
        inner
    };
    Some((edge(least, 0.0), edge(least, 1.0)))
}

/// The convex hull of some places, anticlockwise (Andrew's monotone chain, 1979).
pub fn hull(mut list: Vec<P>) -> Vec<P> {
    list.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
    let half = |list: &mut dyn Iterator<Item = P>| {
        let mut kept: Vec<P> = Vec::new();
        for at in list {
            while let [.., a, b] = kept.as_slice() {
                if cross(sub(*b, *a), sub(at, *a)) > 0.0 {
                    break;
                }
                kept.pop();
            }
            kept.push(at);
        }
        kept.pop();
        kept
    };
    let mut lower = half(&mut list.iter().copied());
    lower.extend(half(&mut list.iter().rev().copied()));
    lower
}

/// The shortest way from a place to a shape round a convex ring and some segments, to a few micrometres. Each corner is
/// reached through every other one until nothing gets shorter (Bellman and Ford). Obstacles are shrunk by a millionth,
/// so that a way along them is free.
pub fn on_foot(from: P, to: &Shape, ring: &[P], walls: &[(P, P)]) -> f64 {
    let many = ring.len() as f64;
    let sum = ring
        .iter()
        .fold((0.0, 0.0), |sum, at| (sum.0 + at.0, sum.1 + at.1));
    let middle = (sum.0 / many, sum.1 / many);
    let smaller: Vec<P> = ring
        .iter()
        .map(|at| part_way(middle, *at, 1.0 - 1e-6))
        .collect();
    let shorter = |(a, b): &(P, P)| (part_way(*b, *a, 1.0 - 1e-6), part_way(*a, *b, 1.0 - 1e-6));
    let mut blocks: Vec<(P, P)> = walls.iter().map(shorter).collect();
    blocks.extend(sides(&smaller));
    // A line between opposite corners, through the middle, crosses no side, so each corner is joined to the middle as
    // well.
    blocks.extend(smaller.iter().map(|at| (middle, *at)));
    let free = |a: P, b: P| blocks.iter().all(|block| !meets((a, b), *block));
    let mut places = vec![from];
    places.extend_from_slice(ring);
    places.extend(walls.iter().flat_map(|(a, b)| [*a, *b]));
    let mut far = vec![f64::INFINITY; places.len()];
    far[0] = 0.0;
    for _ in 0..places.len() {
        for (a, here) in places.iter().enumerate() {
            for (b, there) in places.iter().enumerate() {
                let long = far[a] + apart(*here, *there);
                if long < far[b] && free(*here, *there) {
                    far[b] = long;
                }
            }
        }
    }
    let last = |at: P| {
        let ends = pieces(to).into_iter().map(|piece| nearest_on(at, piece));
        let free = ends.filter(|end| free(at, *end)).map(|end| apart(at, end));
        (free.fold(f64::INFINITY, f64::min) - to.radius() as f64).max(0.0)
    };
    let ends = places.iter().zip(far).map(|(at, far)| far + last(*at));
    ends.fold(f64::INFINITY, f64::min)
}

fn nearest_on(at: P, (a, b): (P, P)) -> P {
    let line = sub(b, a);
    let squared = dot(line, line);
    if squared == 0.0 {
        return a;
    }
    part_way(a, b, (dot(sub(at, a), line) / squared).clamp(0.0, 1.0))
}
