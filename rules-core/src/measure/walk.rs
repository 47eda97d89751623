//! The shortest way on foot round what stands in the way.

use super::chain::{Chain, Edge};
use super::inside::{Side, contains};
use super::sides::{distance, moved, unit};
use crate::plan::figure::{Form, Point};

/// A way on foot.
#[derive(Debug, Clone, PartialEq)]
pub struct Walk {
    /// Its length in nanometres, rounded up: no more than 2 micrometres for each turn above the shortest.
    pub length: i64,
    /// From the one end to the other, each turn a corner of something in the way.
    pub way: Vec<Point>,
}

/// More corners than this are not searched: the way is then not known.
const MOST: usize = 400;

/// The shortest way between two places past walls (paths, which nobody crosses) and buildings (rings, which nobody enters);
/// going along them and round their corners is allowed. `None` where there is no way, or more than 400 corners.
///
/// All turns of a shortest way are corners of what is in the way, so it is enough to look from corner to corner.
pub fn walk(from: Point, to: Point, walls: &[Form]) -> Option<Walk> {
    let mut places = vec![from, to];
    places.extend(walls.iter().flat_map(turns));
    if places.len() > MOST {
        return None;
    }
    let mut far = vec![f64::INFINITY; places.len()];
    let mut before = vec![usize::MAX; places.len()];
    let mut done = vec![false; places.len()];
    *far.first_mut()? = 0.0;
    loop {
        let open = (0..places.len()).filter(|at| done.get(*at) == Some(&false));
        let reach = |at: &usize| far.get(*at).copied().unwrap_or(f64::INFINITY);
        let next = open.min_by(|a, b| reach(a).total_cmp(&reach(b)))?;
        let gone = reach(&next);
        if gone.is_infinite() {
            return None;
        }
        if next == 1 {
            return Some(Walk {
                length: gone.ceil() as i64,
                way: traced(&places, &before),
            });
        }
        let here = *places.get(next)?;
        if let Some(done) = done.get_mut(next) {
            *done = true;
        }
        for ((place, far), before) in places.iter().zip(&mut far).zip(&mut before) {
            let length = gone + distance(here, *place);
            if length < *far && is_free(here, *place, walls) {
                (*far, *before) = (length, next);
            }
        }
    }
}

fn traced(places: &[Point], before: &[usize]) -> Vec<Point> {
    let mut way = Vec::new();
    let mut at = 1;
    while let Some(place) = places.get(at) {
        way.push(*place);
        if at == 0 {
            break;
        }
        at = before.get(at).copied().unwrap_or(usize::MAX);
    }
    way.reverse();
    way
}

/// How near to a corner a way passes it, in nanometres: so that it stays on its own side of a wall.
const NEAR: f64 = 1000.0;

/// Where a way may turn: just beside each corner of what is in the way, on both sides, and just past its ends.
fn turns(wall: &Form) -> Vec<Point> {
    let chain = Chain::of(wall);
    let edges: Vec<Edge> = chain.edges().filter(|edge| edge.a != edge.b).collect();
    let closed = chain.points.first() == chain.points.last() || chain.closed;
    let before = if closed { edges.last() } else { None };
    let after = if closed { edges.first() } else { None };
    let befores = std::iter::once(before).chain(edges.iter().map(Some));
    let afters = edges.iter().map(Some).chain(std::iter::once(after));
    let corners = befores.zip(afters).flat_map(|pair| match pair {
        (Some(one), Some(next)) => beside_corner(one, next),
        (None, Some(first)) => past_end(first.b, first.a),
        (Some(last), None) => past_end(last.a, last.b),
        (None, None) => Vec::new(),
    });
    corners.collect()
}

fn past_end(from: Point, end: Point) -> Vec<Point> {
    unit(from, end)
        .map(|way| moved(end, way, NEAR))
        .into_iter()
        .collect()
}

/// On both sides of a corner, along the line that halves its angle.
fn beside_corner(one: &Edge, next: &Edge) -> Vec<Point> {
    let (Some(u), Some(v)) = (unit(one.a, one.b), unit(next.a, next.b)) else {
        return Vec::new();
    };
    let (x, y) = (u.0 - v.0, u.1 - v.1);
    let long = (x * x + y * y).sqrt();
    if long < 1e-9 {
        return Vec::new();
    }
    let half = (x / long, y / long);
    [NEAR, -NEAR].map(|by| moved(next.a, half, by)).to_vec()
}

/// Whether nothing stands between two places: no wall is met, no building entered. What a place itself lies on does not
/// hold it back.
fn is_free(a: Point, b: Point, walls: &[Form]) -> bool {
    let step = Edge { a, b };
    walls.iter().all(|wall| match wall {
        Form::Point(_) => true,
        Form::Path(points) => !Chain {
            points,
            closed: false,
        }
        .edges()
        .any(|edge| edge.meets(&step) && !edge.holds(a) && !edge.holds(b)),
        Form::Ring(ring) => !contains(ring, &Form::Path(vec![a, b])).shares(),
    })
}

/// Whether a place lies where nobody can stand.
pub fn is_walled_in(place: Point, walls: &[Form]) -> bool {
    walls.iter().any(
        |wall| matches!(wall, Form::Ring(ring) if super::inside::side(ring, place) == Side::Inside),
    )
}

#[cfg(test)]
mod tests {
    use super::super::random::Dice;
    use super::*;

    const M: i64 = 1_000_000_000;

    fn points(points: &[(i64, i64)]) -> Vec<Point> {
        points
            .iter()
            .map(|(x, y)| Point { x: x * M, y: y * M })
            .collect()
    }

    fn length(from: (i64, i64), to: (i64, i64), walls: &[Form]) -> Option<i64> {
        let ends = points(&[from, to]);
        walk(ends[0], ends[1], walls).map(|walk| walk.length)
    }

    /// Round a wall of 4 m that stands across the way: 5 + 5 m (3-4-5) instead of 6 m.
    #[test]
    fn round_a_wall_by_hand() {
        let wall = Form::Path(points(&[(3, -9), (3, 4)]));
        let near = |found: Option<i64>, metres: i64| {
            assert!(
                (0..10_000).contains(&(found.unwrap() - metres * M)),
                "{found:?}"
            );
        };
        near(length((0, 0), (6, 0), &[]), 6);
        near(length((0, 0), (6, 0), &[wall]), 10);
        // 5 up, 3 along, 5 down; and along its edge.
        let house = Form::Ring(points(&[(3, -9), (6, -9), (6, 4), (3, 4)]));
        near(length((0, 0), (9, 0), std::slice::from_ref(&house)), 13);
        near(length((0, 4), (9, 4), &[house]), 9);
        let ring = Form::Path(points(&[(-2, -2), (2, -2), (2, 2), (-2, 2), (-2, -2)]));
        assert_eq!(length((0, 0), (6, 0), &[ring]), None, "fenced in");
        let hut = [Form::Ring(points(&[(-2, -2), (2, -2), (2, 2)]))];
        assert!(
            is_walled_in(Point { x: M, y: 0 }, &hut) && !is_walled_in(Point { x: -M, y: 0 }, &hut)
        );
    }

    /// Never shorter than straight, straight where nothing is in the way, and the same both ways.
    #[test]
    fn ways_are_no_shorter_than_straight_and_the_same_back() {
        let mut dice = Dice::new(31);
        let mut round = 0;
        for _ in 0..2_000 {
            let walls: Vec<Form> = (0..dice.from(0, 4))
                .map(|_| Form::Path(vec![dice.point(9 * M), dice.point(9 * M)]))
                .collect();
            let (a, b) = (dice.point(9 * M), dice.point(9 * M));
            let found = walk(a, b, &walls).expect("walls that do not close leave a way");
            let straight = distance(a, b);
            assert!(found.length as f64 >= straight - 1.0);
            let clear = walls.iter().all(|wall| !matches!(wall, Form::Path(p) if (Edge { a, b }).crosses(&Edge { a: p[0], b: p[1] })));
            assert!(!clear || (found.length as f64) < straight + 2.0);
            let back = walk(b, a, &walls).unwrap();
            assert!((back.length - found.length).abs() <= 20);
            round += i32::from(!clear);
        }
        assert!(round > 300);
    }
}
