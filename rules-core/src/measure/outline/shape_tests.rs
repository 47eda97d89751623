//! Offsets, validity and cutting.

use crate::measure::figure::random::Dice;
use crate::measure::outline::valid::is_sound;
use crate::measure::*;
use crate::plan::figure::{Figure, Form, Point};

fn ring(points: &[(i64, i64)]) -> Vec<Point> {
    points.iter().map(|&(x, y)| Point { x, y }).collect()
}

fn area_of(points: &[(i64, i64)]) -> Figure {
    Figure::new(vec![Form::Ring(ring(points))], 0, Some(5))
}

const M: i64 = 1_000_000_000;

#[test]
fn square_corners_keep_the_sides_parallel_and_the_corners_square() {
    let out = outward(
        &area_of(&[(0, 0), (40, 0), (40, 30), (0, 30)]),
        10,
        Corners::Square,
    )
    .unwrap();
    assert_eq!(
        out,
        Figure {
            accuracy: Some(6),
            ..area_of(&[(-10, -10), (50, -10), (50, 40), (-10, 40)])
        }
    );
    // The same, drawn in the other direction, and an L with a corner pointing in.
    let out = outward(
        &area_of(&[(0, 30), (40, 30), (40, 0), (0, 0)]),
        10,
        Corners::Square,
    )
    .unwrap();
    assert_eq!(
        out.forms,
        vec![Form::Ring(ring(&[
            (-10, 40),
            (50, 40),
            (50, -10),
            (-10, -10)
        ]))]
    );
    let l = area_of(&[(0, 0), (100, 0), (100, 50), (50, 50), (50, 100), (0, 100)]);
    let out = outward(&l, 10, Corners::Square).unwrap();
    let grown = ring(&[
        (-10, -10),
        (110, -10),
        (110, 60),
        (60, 60),
        (60, 110),
        (-10, 110),
    ]);
    assert_eq!(out.forms, vec![Form::Ring(grown)]);
}

#[test]
fn a_mitred_corner_is_farther_out_than_a_round_one() {
    // For a rotated rectangle the distance minus the offset would be a false pass: a square's corner is √2 times as far out.
    let turned = area_of(&[(0, -M), (M, 0), (0, M), (-M, 0)]);
    let far = Figure::new(vec![Form::Point(Point { x: 3 * M, y: 0 })], 0, Some(0));
    let square = figure_gap(&outward(&turned, M / 2, Corners::Square).unwrap(), &far);
    let round = figure_gap(&outward(&turned, M / 2, Corners::Round).unwrap(), &far);
    assert_eq!((round.low, round.high), (1_500_000_000, 1_500_000_000));
    assert_eq!(
        (square.low, square.high),
        (1_292_893_219, 1_292_893_219),
        "2 − √2/2 m"
    );
}

#[test]
fn outlines_that_cannot_be_derived_are_refused() {
    let needle = area_of(&[(0, 0), (1000, 1), (1000, -1)]);
    assert_eq!(
        outward(&needle, 10, Corners::Square),
        Err(OffsetFault::TooAcute)
    );
    let cut = [
        (0, 0),
        (100, 0),
        (100, 60),
        (55, 60),
        (55, 20),
        (45, 20),
        (45, 60),
        (0, 60),
    ];
    assert_eq!(
        outward(&area_of(&cut), 6, Corners::Square),
        Err(OffsetFault::RunsIntoItself)
    );
    assert_eq!(inward(&area_of(&cut), 1), Err(OffsetFault::NotConvex));
    let round = Figure {
        spread: 3,
        ..area_of(&[(0, 0), (9, 0), (9, 9)])
    };
    assert_eq!(
        outward(&round, 1, Corners::Square),
        Err(OffsetFault::AlreadyRound)
    );
    let point = Figure {
        forms: vec![Form::Point(Point { x: 0, y: 0 })],
        ..round.clone()
    };
    assert_eq!(inward(&point, 4), Err(OffsetFault::NothingLeft));
    assert_eq!(inward(&point, 2).unwrap().spread, 1);
    assert_eq!(
        inward(&area_of(&[(0, 0), (40, 0), (40, 30)]), 11),
        Err(OffsetFault::NothingLeft)
    );
}

#[test]
fn an_inward_offset_undoes_an_outward_one_and_loses_short_sides() {
    let shape = area_of(&[(0, 0), (40 * M, 0), (50 * M, 20 * M), (0, 30 * M)]);
    let back = inward(&outward(&shape, 3 * M, Corners::Square).unwrap(), 3 * M).unwrap();
    let [Form::Ring(back)] = back.forms.as_slice() else {
        panic!("one ring")
    };
    assert_eq!(back.len(), 4);
    let [Form::Ring(drawn)] = shape.forms.as_slice() else {
        panic!("one ring")
    };
    assert!(drawn.iter().all(|p| {
        back.iter()
            .any(|q| (p.x - q.x).abs() <= 4 && (p.y - q.y).abs() <= 4)
    }));
    let chamfered = area_of(&[(10, 0), (1000, 0), (1000, 1000), (0, 1000), (0, 10)]);
    let less = inward(&chamfered, 100).unwrap();
    let corners = ring(&[(100, 100), (900, 100), (900, 900), (100, 900)]);
    assert_eq!(less.forms, vec![Form::Ring(corners)]);
}

#[test]
fn each_flaw_of_a_ring_is_found() {
    let flaw = |points: &[(i64, i64)]| flaw(&ring(points));
    assert_eq!(flaw(&[(0, 0), (4, 0), (0, 4)]), None);
    assert_eq!(flaw(&[(0, 0), (4, 0), (4, 4), (2, 1), (0, 4)]), None);
    let on_a_side = [(0, 0), (2, 0), (4, 0), (4, 4), (0, 4)];
    assert_eq!(flaw(&on_a_side), None);
    let last_runs_into_first = [(2, 0), (0, 0), (0, 4), (4, 0)];
    assert_eq!(flaw(&last_runs_into_first), None, "straight on");
    let twice = [(0, 0), (9, 0), (9, 0), (9, 9)];
    assert_eq!(flaw(&twice), Some(Flaw::Same(1)));
    let closed = [(0, 0), (9, 0), (9, 9), (0, 0)];
    assert_eq!(flaw(&closed), Some(Flaw::Same(3)));
    let bow = [(0, 0), (4, 4), (4, 0), (0, 4)];
    assert_eq!(flaw(&bow), Some(Flaw::Crossing(0, 2)));
    let touching = [(0, 0), (4, 0), (4, 4), (2, 0), (0, 4)];
    assert_eq!(flaw(&touching), Some(Flaw::Crossing(0, 3)));
    let corner = [(0, 0), (10, 0), (5, 5), (10, 10), (0, 10), (5, 5)];
    assert!(matches!(flaw(&corner), Some(Flaw::Crossing(..))));
    let spike = [(0, 0), (10, 0), (15, 0), (9, 0), (9, 9)];
    assert!(matches!(flaw(&spike), Some(Flaw::Crossing(..))));
    let back_at_the_start = [(2, 0), (4, 0), (4, 4), (0, 0), (3, 0)];
    assert!(matches!(flaw(&back_at_the_start), Some(Flaw::Crossing(..))));
    let flat = [(0, 0), (3, 3), (9, 9), (6, 6)];
    assert!(matches!(flaw(&flat), Some(Flaw::Crossing(..))), "no area");
}

#[test]
fn what_was_worked_out_is_sound_only_near_and_with_three_corners() {
    let sound = |points: &[(i64, i64)]| is_sound(&ring(points));
    assert!(sound(&[(0, 0), (EXTENT, 0), (9, 9)]));
    assert!(!sound(&[(0, 0), (EXTENT + 1, 0), (9, 9)]));
    assert!(!sound(&[(0, 0), (i64::MIN, i64::MAX), (i64::MAX, 9)]));
    assert!(!sound(&[]) && !sound(&[(1, 1)]) && !sound(&[(0, 0), (9, 0)]));
    assert!(!sound(&[(0, 0), (9, 0), (0, 0), (9, 0)]));
}

#[test]
fn a_comb_of_ten_thousand_corners_crosses_itself_nowhere() {
    // A comb: long teeth side by side, the worst ordinary case, drawn flat so that all of them overlap in x.
    let teeth = 2_500;
    let mut comb = Vec::new();
    for tooth in 0..teeth {
        comb.extend([
            (0, 4 * tooth),
            (M, 4 * tooth + 1),
            (M, 4 * tooth + 2),
            (0, 4 * tooth + 3),
        ]);
    }
    comb.extend([(-10, 4 * teeth), (-10, 0)]);
    assert_eq!(flaw(&ring(&comb)), None);
    comb[5_000] = (M, 4);
    assert!(flaw(&ring(&comb)).is_some());
}

#[test]
fn a_figure_is_cut_to_a_zone_only_where_it_must_be() {
    let zone = area_of(&[(0, 0), (10 * M, 0), (10 * M, 10 * M), (0, 10 * M)]);
    let inner = area_of(&[(M, M), (2 * M, M), (2 * M, 2 * M)]);
    assert_eq!(
        clip(&inner, &zone, Keep::Within, Fit::Outer),
        Some(inner.clone())
    );
    assert_eq!(clip(&inner, &zone, Keep::Beyond, Fit::Outer), None);
    let line = Figure::new(
        vec![Form::Path(ring(&[
            (-5 * M, 5 * M),
            (5 * M, 5 * M),
            (5 * M, 15 * M),
        ]))],
        0,
        Some(100),
    );
    let cut = clip(&line, &zone, Keep::Within, Fit::Inner).unwrap();
    assert_eq!(cut.accuracy, Some(100), "exact, so no worse than the line");
    assert_eq!(length(&cut.forms[0]), Span::exactly(10 * M), "{cut:?}");
    assert_eq!(cut.forms.len(), 1);
    let rest = clip(&line, &zone, Keep::Beyond, Fit::Inner).unwrap();
    assert_eq!(rest.forms.len(), 2);
    // A ring around the zone, with the zone as its hole, comes in pieces without holes and loses nothing.
    let wide = area_of(&[
        (-10 * M, -10 * M),
        (20 * M, -10 * M),
        (20 * M, 20 * M),
        (-10 * M, 20 * M),
    ]);
    let frame = clip(&wide, &zone, Keep::Beyond, Fit::Outer).unwrap();
    let rings: Vec<_> = frame.forms.iter().map(Form::points).collect();
    let area: i128 = rings.iter().copied().map(area2).sum();
    let square_metre = i128::from(M) * i128::from(M);
    assert!(
        (area - 1600 * square_metre).abs() < square_metre / 100_000,
        "{area}"
    );
    assert!(rings.len() >= 2 && rings.iter().copied().all(is_sound));
}

#[test]
fn polygons_are_within_or_around_the_true_outline() {
    let mut dice = Dice::new(21);
    for round in 0..60 {
        let forms = vec![dice.form(8 * M), dice.form(8 * M)];
        let figure = Figure::new(forms, 0, Some(0));
        let by = [M / 10, M, 3 * M][round % 3];
        let (inner, outer) = (
            around(&figure, by, Fit::Inner),
            around(&figure, by, Fit::Outer),
        );
        for place in (0..200).map(|_| dice.point(20 * M)) {
            let here = Figure::new(vec![Form::Point(place)], 0, Some(0));
            let gap = figure_gap(&here, &figure);
            let within = |figure: &Figure| figure_gap(&here, figure).high == 0;
            assert!(
                !within(&inner) || gap.low <= by + 40,
                "inside the inner, so inside"
            );
            assert!(within(&inner) || gap.high >= by - ARC_TOLERANCE - 40);
            assert!(
                within(&outer) || gap.high >= by - 40,
                "outside the outer, so outside"
            );
            assert!(!within(&outer) || gap.low <= by + ARC_TOLERANCE + 40);
        }
    }
}

#[test]
fn absurd_forms_get_an_answer_and_no_panic() {
    let mut dice = Dice::new(51);
    let extremes = [
        i64::MIN,
        i64::MIN + 1,
        -1,
        0,
        0,
        1,
        7,
        EXTENT,
        i64::MAX - 1,
        i64::MAX,
    ];
    let mut number = || extremes[dice.from(0, 9) as usize];
    for round in 0..300 {
        let mut figure = || {
            let points: Vec<Point> = (0..round % 5)
                .map(|_| Point {
                    x: number(),
                    y: number(),
                })
                .collect();
            let form = if round % 2 == 0 {
                Form::Ring(points)
            } else {
                Form::Path(points)
            };
            Figure::new(vec![form], number().max(0), Some(number().max(0)))
        };
        let (a, b) = (figure(), figure());
        let (one, other) = (&a.forms[0], &b.forms[0]);
        let _ = (
            flaw(one.points()),
            is_sound(one.points()),
            area2(one.points()),
        );
        let long = length(one);
        assert!(0 <= long.low && long.low <= long.high, "{long:?}");
        assert!(distance(one, other).low >= 0);
        assert!(
            figure_gap(&a, &b).low >= 0 && farthest(&a, &b).low >= 0 && widest(&a, &b).low >= 0
        );
        assert!(union_area(&[&a, &b]).low >= 0 && union_area(&[&a]).low >= 0);
        let _ = (
            outward(&a, b.spread, Corners::Square),
            inward(&a, b.spread),
            outward(&a, b.spread, Corners::Round),
        );
        let _ = (
            clip(&a, &b, Keep::Within, Fit::Inner),
            clip(&a, &b, Keep::Beyond, Fit::Outer),
        );
        let _ = (
            around(&a, b.spread, Fit::Outer),
            deepest_common(&a, b.spread, &b, a.spread),
        );
        if let (Form::Ring(ring), Form::Ring(_)) = (one, other) {
            let _ = (
                contains(ring, other),
                lies_within(ring, &b),
                area_band(ring, &[a.accuracy; 5]),
            );
        }
    }
}
