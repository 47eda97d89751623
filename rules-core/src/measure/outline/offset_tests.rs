//! Offset outlines of figures whose answer is plain.

use crate::measure::{Corners, area2, inward, outward};
use crate::plan::figure::{Figure, Form, Point};

const M: i64 = 1_000_000_000;

fn area(corners: &[(i64, i64)]) -> Figure {
    let corners = corners.iter().map(|&(x, y)| Point { x, y }).collect();
    Figure::new(vec![Form::Ring(corners)], 0, None)
}

fn square(side: i64) -> Figure {
    area(&[(0, 0), (side, 0), (side, side), (0, side)])
}

fn twice_its_area(figure: &Figure) -> i128 {
    match &figure.forms[0] {
        Form::Ring(ring) => area2(ring),
        _ => 0,
    }
}

#[test]
fn square_corners_are_farther_out_than_round_ones() {
    let out = outward(&square(4 * M), M, Corners::Square).unwrap();
    let expected = 2 * 36 * i128::from(M).pow(2);
    assert_eq!((twice_its_area(&out), out.spread), (expected, 0));
    let round = outward(&square(4 * M), M, Corners::Round).unwrap();
    assert_eq!((round.forms, round.spread), (square(4 * M).forms, M));
}

#[test]
fn the_direction_of_drawing_does_not_matter() {
    let mut figure = square(4 * M);
    if let Form::Ring(ring) = &mut figure.forms[0] {
        ring.reverse();
    }
    let out = outward(&figure, M, Corners::Square).unwrap();
    assert_eq!(twice_its_area(&out), 2 * 36 * i128::from(M).pow(2));
}

/// The same ring, starting at its least corner: where a ring starts does not matter.
fn from_its_least(mut figure: Figure) -> Figure {
    if let Form::Ring(ring) = &mut figure.forms[0] {
        let least = (0..ring.len()).min_by_key(|at| ring[*at]).unwrap_or(0);
        ring.rotate_left(least);
    }
    figure
}

#[test]
fn inward_undoes_outward() {
    let out = outward(&square(4 * M), M, Corners::Square).unwrap();
    assert_eq!(from_its_least(inward(&out, M).unwrap()), square(4 * M));
    let round = outward(&square(4 * M), M, Corners::Round).unwrap();
    assert_eq!(inward(&round, M).unwrap(), square(4 * M));
    assert!(inward(&square(4 * M), 2 * M).is_err());
}

/// A corner of 60 degrees: the mitre is by / sin 30 degrees = 2 by (plane trigonometry).
#[test]
fn an_acute_corner_moves_farther_out() {
    let tip = area(&[(0, 0), (3 * M, 5_196_152_423), (-3 * M, 5_196_152_423)]);
    let out = outward(&tip, M, Corners::Square).unwrap();
    let Form::Ring(ring) = &out.forms[0] else {
        panic!("a ring")
    };
    assert!(ring[0].x == 0 && (ring[0].y + 2 * M).abs() <= 2, "{ring:?}");
}

#[test]
fn hollows_and_narrow_places_are_refused() {
    let metres = [
        (0, 0),
        (6, 0),
        (6, 6),
        (4, 6),
        (4, 2),
        (2, 2),
        (2, 6),
        (0, 6),
    ];
    let hook = area(&metres.map(|(x, y)| (x * M, y * M)));
    assert!(inward(&hook, M / 10).is_err());
    assert!(outward(&hook, M / 2, Corners::Square).is_ok());
    assert!(outward(&hook, 2 * M, Corners::Square).is_err());
    let point = Figure {
        forms: vec![Form::Point(Point { x: 0, y: 0 })],
        ..square(M)
    };
    assert!(outward(&point, M, Corners::Square).is_err());
}
