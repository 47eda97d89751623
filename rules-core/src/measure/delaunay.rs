//! Which triangles of spots may be Delaunay's, when nobody knows to the last millimetre where the spots are.

use crate::plan::figure::Point;

/// A way from one place to another, in metres, and its square.
#[derive(Clone, Copy)]
struct Way {
    x: f64,
    y: f64,
    length: f64,
}

impl Way {
    fn between(from: Point, to: Point) -> Way {
        let (x, y) = ((to.x - from.x) as f64 * 1e-9, (to.y - from.y) as f64 * 1e-9);
        let length = (x * x + y * y).sqrt();
        Way { x, y, length }
    }

    fn cross(self, other: Way) -> f64 {
        self.x * other.y - self.y * other.x
    }

    /// What the cross product may be off by where both ways are off by `off`; floats included.
    fn doubt(self, other: Way, off: f64) -> f64 {
        off * (self.length + other.length) + off * off + 1e-12 * self.length * other.length
    }
}

/// All triangles that may be one of Delaunay's, once every place was moved by no more than `off` nanometres.
///
/// A triangle is left out only where some spot lies in its circle however all are moved; where its three places may lie
/// on one line, it must be so for both ways round.
pub(super) fn possible(places: &[Point], off: i64) -> Vec<[usize; 3]> {
    // Two places move against each other by twice as much.
    let off = off as f64 * 2e-9;
    let mut found = Vec::new();
    for (i, a) in places.iter().enumerate() {
        for (j, b) in places.iter().enumerate().skip(i + 1) {
            for (k, c) in places.iter().enumerate().skip(j + 1) {
                if may_be([*a, *b, *c], places, off) {
                    found.push([i, j, k]);
                }
            }
        }
    }
    found
}

fn may_be([a, b, c]: [Point; 3], places: &[Point], off: f64) -> bool {
    let (u, v) = (Way::between(a, b), Way::between(a, c));
    let (turn, doubt) = (u.cross(v), u.doubt(v, off));
    let (mut left, mut right) = (turn >= -doubt, turn <= doubt);
    for d in places {
        let (inside, doubt) = in_circle([a, b, c], *d, off);
        left &= inside <= doubt;
        right &= inside >= -doubt;
        if !left && !right {
            return false;
        }
    }
    true
}

/// Above 0 where a place lies in the circle through three that go round against the clock, and below 0 where they go
/// round with it; with what that may be off by.
fn in_circle(corners: [Point; 3], place: Point, off: f64) -> (f64, f64) {
    let [p, q, r] = corners.map(|corner| Way::between(place, corner));
    let (mut sum, mut doubt) = (0.0, 0.0);
    for (one, two, three) in [(p, q, r), (q, r, p), (r, p, q)] {
        let square = one.length * one.length;
        let (cross, slack) = (two.cross(three), two.doubt(three, off));
        sum += square * cross;
        doubt += square * slack
            + (2.0 * one.length * off + off * off) * (cross.abs() + slack)
            + 1e-12 * square * cross.abs();
    }
    (sum, doubt)
}
