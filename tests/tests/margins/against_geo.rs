//! Margins and widths against `geo`, a general geometry library, on random shapes.

use geo::{BoundingRect, Contains, ConvexHull, Distance, Euclidean, LineString, Polygon, Rotate};
use rules_core::measure::{margin, width};
use rules_core::plan::{Figure, Form, Point};

use crate::common::Dice;

/// A star-shaped ring around a place, some of its corners pointing in.
fn ring(dice: &mut Dice, (x, y): (f64, f64), (least, most): (f64, f64)) -> Vec<(f64, f64)> {
    let count = dice.whole(3, 9);
    (0..count)
        .map(|at| {
            let angle = std::f64::consts::TAU * at as f64 / count as f64;
            let away = dice.between(least, most);
            let whole = |metres: f64| (metres * 1e6).round() / 1e6;
            (
                whole(x + away * libm::cos(angle)),
                whole(y + away * libm::sin(angle)),
            )
        })
        .collect()
}

fn figure(ring: &[(f64, f64)]) -> Figure {
    let place = |&(x, y): &(f64, f64)| Point {
        x: (x * 1e9).round() as i64,
        y: (y * 1e9).round() as i64,
    };
    Figure::new(
        vec![Form::Ring(ring.iter().map(place).collect())],
        0,
        Some(0),
    )
}

fn polygon(ring: &[(f64, f64)]) -> Polygon {
    Polygon::new(LineString::from(ring.to_vec()), Vec::new())
}

/// The distance between the two outlines, where one contains the other.
#[test]
fn margins_of_four_thousand_pairs_are_those_of_a_general_library() {
    let mut dice = Dice::new(31);
    let mut within = 0;
    for _ in 0..4_000 {
        let inner = ring(&mut dice, (0.0, 0.0), (0.5, 4.0));
        let aside = (dice.between(-2.0, 2.0), dice.between(-2.0, 2.0));
        let outer = ring(&mut dice, aside, (2.0, 9.0));
        let found = margin(&figure(&inner), &figure(&outer));
        let (small, large) = (polygon(&inner), polygon(&outer));
        let contained = large.contains(&small);
        let expected = match contained {
            true => Euclidean.distance(small.exterior(), large.exterior()),
            false => 0.0,
        };
        within += i32::from(contained);
        let off = (found.low as f64 / 1e9 - expected).max(expected - found.high as f64 / 1e9);
        assert!(off < 1e-9, "{inner:?} in {outer:?}: {found:?}, {expected}");
    }
    assert!(within > 1_000, "{within}");
}

/// The convex hull turned so that each of its sides lies level in turn: the least height.
#[test]
fn widths_of_four_thousand_shapes_are_those_of_a_general_library() {
    let mut dice = Dice::new(32);
    for _ in 0..4_000 {
        let shape = ring(&mut dice, (3.0, 4.0), (0.5, 6.0));
        let hull = polygon(&shape).convex_hull();
        let heights = hull.exterior().lines().map(|side| {
            let level = -libm::atan2(side.dy(), side.dx()).to_degrees();
            let turned = hull.rotate_around_point(level, side.start.into());
            turned.bounding_rect().expect("it has corners").height()
        });
        let expected = heights.fold(f64::INFINITY, f64::min);
        let found = width(&figure(&shape));
        let off = (found.low as f64 / 1e9 - expected).max(expected - found.high as f64 / 1e9);
        assert!(off < 1e-8, "{shape:?}: {found:?}, {expected}");
    }
}
