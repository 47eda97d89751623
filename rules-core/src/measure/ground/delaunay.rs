//! Which triangles of spots may be Delaunay triangles, where the spots have a tolerance.

use crate::plan::figure::Point;

/// A vector from one place to another, in metres, with its length.
#[derive(Clone, Copy)]
struct Vector {
    x: f64,
    y: f64,
    length: f64,
}

impl Vector {
    fn between(from: Point, to: Point) -> Vector {
        let (x, y) = ((to.x - from.x) as f64 * 1e-9, (to.y - from.y) as f64 * 1e-9);
        let length = (x * x + y * y).sqrt();
        Vector { x, y, length }
    }

    fn cross(self, other: Vector) -> f64 {
        self.x * other.y - self.y * other.x
    }

    fn dot(self, other: Vector) -> f64 {
        self.x * other.x + self.y * other.y
    }

    /// The error of either product where both vectors are off by `off`, that of the floats included.
    fn product_error(self, other: Vector, off: f64) -> f64 {
        off * (self.length + other.length) + off * off + 1e-12 * self.length * other.length
    }
}

/// With more places than `ALL`, they are only joined while there are at most `EACH` sides and triangles per place: there are more
/// where the places are not known well enough.
const ALL: usize = 150;
const EACH: usize = 40;
/// The number of nearest places to try first for ruling out a side: mostly one of them does.
const NEAREST: usize = 24;

/// All triangles that may be Delaunay triangles when every place is moved by no more than `off` nanometres; `None` where
/// there are too many.
///
/// A triangle is left out only if some place is in its circumcircle however all are moved. Where its three places may be on one
/// line, that must be so for both orientations.
pub(crate) fn possible(places: &[Point], off: i64) -> Option<Vec<[usize; 3]>> {
    // Two places move relative to each other by twice as much.
    let off = off as f64 * 2e-9;
    let most = match places.len() {
        ..=ALL => usize::MAX,
        many => EACH * many,
    };
    let sides = sides(places, off, most)?;
    let mut found = Vec::new();
    for (i, (after, near)) in sides.iter().enumerate() {
        for (at, j) in after.iter().enumerate() {
            let (thirds, _) = sides.get(*j)?;
            let shared = after.iter().skip(at + 1);
            for k in shared.filter(|k| thirds.binary_search(k).is_ok()) {
                let corners = [*places.get(i)?, *places.get(*j)?, *places.get(*k)?];
                if may_be(corners, near.iter().chain(places), off) {
                    found.push([i, *j, *k]);
                }
            }
            if found.len() > most {
                return None;
            }
        }
    }
    Some(found)
}

/// The later places with which a place may share a side, and its nearest places.
type Sides = (Vec<usize>, Vec<Point>);

/// For each place, the later ones in order with which it may share a side of a triangle.
///
/// Every circle through two places contains one half or the other of the circle that has them as a diameter. If each half
/// contains a place however all are moved, no circle through the two is empty.
fn sides(places: &[Point], off: f64, most: usize) -> Option<Vec<Sides>> {
    let mut count = 0;
    let mut all = Vec::new();
    for (i, from) in places.iter().enumerate() {
        let near = nearest(places, *from);
        let rest = places.iter().enumerate().skip(i + 1);
        let may = |to: &Point| !ruled_out([*from, *to], near.iter().chain(places), off);
        let after: Vec<usize> = rest.filter(|(_, to)| may(to)).map(|(j, _)| j).collect();
        count += after.len();
        if count > most {
            return None;
        }
        all.push((after, near));
    }
    Some(all)
}

fn nearest(places: &[Point], to: Point) -> Vec<Point> {
    let far = |place: &Point| Vector::between(to, *place).length;
    let mut near: Vec<Point> = places.to_vec();
    if near.len() > NEAREST {
        near.select_nth_unstable_by(NEAREST, |a, b| far(a).total_cmp(&far(b)));
        near.truncate(NEAREST);
    }
    near
}

/// Whether both halves of the circle with two places as a diameter contain a place, however all are moved.
fn ruled_out<'p>([a, b]: [Point; 2], places: impl Iterator<Item = &'p Point>, off: f64) -> bool {
    let across = Vector::between(a, b);
    let (mut left, mut right) = (false, false);
    for place in places {
        let (p, q) = (Vector::between(*place, a), Vector::between(*place, b));
        if p.dot(q) + p.product_error(q, off) >= 0.0 {
            continue;
        }
        let beside = Vector::between(a, *place);
        let turn = across.cross(beside);
        let error = across.product_error(beside, off);
        left |= turn > error;
        right |= turn < -error;
        if left && right {
            return true;
        }
    }
    false
}

fn may_be<'p>([a, b, c]: [Point; 3], places: impl Iterator<Item = &'p Point>, off: f64) -> bool {
    let (u, v) = (Vector::between(a, b), Vector::between(a, c));
    let (turn, error) = (u.cross(v), u.product_error(v, off));
    let (mut left, mut right) = (turn >= -error, turn <= error);
    for d in places {
        let (inside, error) = in_circle([a, b, c], *d, off);
        left &= inside <= error;
        right &= inside >= -error;
        if !left && !right {
            return false;
        }
    }
    true
}

/// The in-circle determinant with its error: above 0 where a place is inside the circle through three places given
/// anticlockwise, below 0 where they are given clockwise.
fn in_circle(corners: [Point; 3], place: Point, off: f64) -> (f64, f64) {
    let [p, q, r] = corners.map(|corner| Vector::between(place, corner));
    let (mut sum, mut error) = (0.0, 0.0);
    for (one, two, three) in [(p, q, r), (q, r, p), (r, p, q)] {
        let square = one.length * one.length;
        let (cross, slack) = (two.cross(three), two.product_error(three, off));
        sum += square * cross;
        error += square * slack
            + (2.0 * one.length * off + off * off) * (cross.abs() + slack)
            + 1e-12 * square * cross.abs();
    }
    (sum, error)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::figure::exact::turn;
    use crate::measure::figure::random::Dice;

    const M: i64 = 1_000_000_000;

    /// Every three of the places, whatever their sides.
    fn all_threes(places: &[Point], off: i64) -> Vec<[usize; 3]> {
        let (off, count) = (off as f64 * 2e-9, places.len());
        let mut found = Vec::new();
        for (i, a) in places.iter().enumerate() {
            for (j, b) in places.iter().enumerate().skip(i + 1) {
                for (k, c) in places.iter().enumerate().take(count).skip(j + 1) {
                    if may_be([*a, *b, *c], places.iter(), off) {
                        found.push([i, j, k]);
                    }
                }
            }
        }
        found
    }

    /// For exact places, the test of sides rules out only triangles that their circumcircles rule out too, except flat ones: on
    /// grids, where four or more places are on one circle, and without. For places with a tolerance it may rule out more; that
    /// this is right is tested with the ground.
    #[test]
    fn no_triangle_is_lost_by_its_sides() {
        let mut dice = Dice::new(61);
        let mut triangles = 0;
        for round in 0..300 {
            let step = [1, 1000, 5 * M][round % 3];
            let off = dice.from(0, 1) * dice.from(0, 400_000_000);
            let count = dice.from(3, 18);
            let places: Vec<Point> = (0..count)
                .map(|_| dice.point(20 * M / step))
                .map(|p| Point {
                    x: p.x * step,
                    y: p.y * step,
                })
                .collect();
            let found = possible(&places, off).unwrap();
            let all = all_threes(&places, off);
            assert!(found.iter().all(|three| all.contains(three)));
            let is_flat = |[a, b, c]: [usize; 3]| turn(places[a], places[b], places[c]).is_eq();
            let mut lost = all.iter().filter(|three| !found.contains(three));
            assert!(off > 0 || lost.all(|three| is_flat(*three)), "{places:?}");
            triangles += found.len();
        }
        assert!(triangles > 5_000, "{triangles}");
    }

    /// If the tolerances of a thousand places overlap, there are too many triangles, and none is given.
    #[test]
    fn too_many_triangles_are_none() {
        let mut dice = Dice::new(62);
        let places: Vec<Point> = (0..1_000).map(|_| dice.point(20 * M)).collect();
        assert_eq!(possible(&places, 30 * M), None);
    }
}
