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

    fn dot(self, other: Way) -> f64 {
        self.x * other.x + self.y * other.y
    }

    /// What either product may be off by where both ways are off by `off`; floats included.
    fn doubt(self, other: Way, off: f64) -> f64 {
        off * (self.length + other.length) + off * off + 1e-12 * self.length * other.length
    }
}

/// Where there are more places than this, they are joined only as long as there are few sides and triangles for each:
/// more come from places that nobody knows well enough.
const ALL: usize = 150;
const EACH: usize = 40;
/// So many of the nearest places are asked first whether they part two others: mostly one of them does.
const NEAREST: usize = 24;

/// All triangles that may be one of Delaunay's, once every place was moved by no more than `off` nanometres; `None` where
/// there are too many to look at.
///
/// A triangle is left out only where some spot lies in its circle however all are moved; where its three places may lie
/// on one line, it must be so for both ways round.
pub(crate) fn possible(places: &[Point], off: i64) -> Option<Vec<[usize; 3]>> {
    // Two places move against each other by twice as much.
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

/// The places with which one may share a side, and its nearest.
type Sides = (Vec<usize>, Vec<Point>);

/// For each place those after it, in order, with which it may share a side of a triangle.
///
/// A circle through two places holds the one half or the other of the circle that has them at its ends. Where both halves
/// have a place in them however all are moved, no circle through the two is empty.
fn sides(places: &[Point], off: f64, most: usize) -> Option<Vec<Sides>> {
    let mut count = 0;
    let mut all = Vec::new();
    for (i, from) in places.iter().enumerate() {
        let near = nearest(places, *from);
        let rest = places.iter().enumerate().skip(i + 1);
        let may = |to: &Point| !parted([*from, *to], near.iter().chain(places), off);
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
    let far = |place: &Point| Way::between(to, *place).length;
    let mut near: Vec<Point> = places.to_vec();
    if near.len() > NEAREST {
        near.select_nth_unstable_by(NEAREST, |a, b| far(a).total_cmp(&far(b)));
        near.truncate(NEAREST);
    }
    near
}

/// Whether either half of the circle over two places has one in it, however all are moved.
fn parted<'p>([a, b]: [Point; 2], places: impl Iterator<Item = &'p Point>, off: f64) -> bool {
    let across = Way::between(a, b);
    let (mut left, mut right) = (false, false);
    for place in places {
        let (p, q) = (Way::between(*place, a), Way::between(*place, b));
        if p.dot(q) + p.doubt(q, off) >= 0.0 {
            continue;
        }
        let beside = Way::between(a, *place);
        let (turn, doubt) = (across.cross(beside), across.doubt(beside, off));
        left |= turn > doubt;
        right |= turn < -doubt;
        if left && right {
            return true;
        }
    }
    false
}

fn may_be<'p>([a, b, c]: [Point; 3], places: impl Iterator<Item = &'p Point>, off: f64) -> bool {
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

/// Above 0 where a place lies in the circle through three that go round anticlockwise, and below 0 where they go
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

    /// Where places are exact, sides leave out no triangle that its circle does not, but flat ones: on grids, where four and more lie on
    /// one circle, and on none. Where they are not, sides may tell more: that they tell no more than is true is tested
    /// with the ground.
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

    /// A thousand places that nobody can tell apart are not joined at all, instead of for ever.
    #[test]
    fn too_many_triangles_are_none() {
        let mut dice = Dice::new(62);
        let places: Vec<Point> = (0..1_000).map(|_| dice.point(20 * M)).collect();
        assert_eq!(possible(&places, 30 * M), None);
    }
}
