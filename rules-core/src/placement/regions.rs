//! Cells of the map that say the same, joined.

use std::collections::BTreeMap;

use geo::{Coord, LineString, Polygon, Rect, unary_union};

use super::judging::Judging;
use super::map::{Class, Patch};
use super::model::Region;
use super::spot::{Spot, Way};

/// Joins the cells of one class that the same rules rule out or leave open.
pub(super) fn regions(patches: &[Patch], judging: &Judging<'_>) -> Vec<Region> {
    let mut alike: BTreeMap<(Class, bool, &[usize]), Vec<Spot>> = BTreeMap::new();
    for patch in patches {
        let key = (patch.class, patch.edge, patch.by.as_slice());
        alike.entry(key).or_default().push(patch.spot);
    }
    let region = |((holds, edge, by), spots): ((Class, bool, &[usize]), Vec<Spot>)| Region {
        holds,
        edge,
        rules: by.iter().map(|rule| judging.id(*rule).to_owned()).collect(),
        square_metres: spots.iter().map(|spot| spot.area()).sum::<i64>() as f64 / 1e6,
        polygons: joined(&spots),
    };
    alike.into_iter().map(region).collect()
}

/// The outlines of some cells together: for each polygon its outer ring, anticlockwise, and then its holes, clockwise.
fn joined(spots: &[Spot]) -> Vec<Vec<Vec<Way>>> {
    let squares: Vec<Polygon<f64>> = spots.iter().map(|spot| square(*spot)).collect();
    let mut polygons: Vec<Vec<Vec<Way>>> = unary_union(&squares).into_iter().map(rings).collect();
    polygons.sort();
    polygons
}

fn square(spot: Spot) -> Polygon<f64> {
    let at = |way: Way| Coord {
        x: way.x as f64,
        y: way.y as f64,
    };
    let high = Way {
        x: spot.low.x + spot.size,
        y: spot.low.y + spot.size,
    };
    Rect::new(at(spot.low), at(high)).to_polygon()
}

fn rings(polygon: Polygon<f64>) -> Vec<Vec<Way>> {
    let (outer, holes) = polygon.into_inner();
    let holes = holes.iter().map(|hole| ring(hole, false));
    std::iter::once(ring(&outer, true)).chain(holes).collect()
}

/// A ring in whole millimetres, begun at its least corner, without repeating it at the end.
#[expect(
    clippy::cast_possible_truncation,
    reason = "the corners are whole millimetres on a plan of at most 10 km"
)]
fn ring(line: &LineString<f64>, anticlockwise: bool) -> Vec<Way> {
    let mut ways: Vec<Way> = line
        .coords()
        .map(|at| Way {
            x: at.x.round() as i64,
            y: at.y.round() as i64,
        })
        .collect();
    ways.dedup();
    if ways.first() == ways.last() {
        ways.pop();
    }
    if (doubled_area(&ways) > 0) != anticlockwise {
        ways.reverse();
    }
    let least = (0..ways.len()).min_by_key(|at| ways.get(*at)).unwrap_or(0);
    ways.rotate_left(least);
    ways
}

/// Twice the area inside a ring; positive where it runs anticlockwise.
fn doubled_area(ring: &[Way]) -> i64 {
    let next = ring.iter().cycle().skip(1);
    ring.iter()
        .zip(next)
        .map(|(one, other)| one.x * other.y - other.x * one.y)
        .sum()
}
