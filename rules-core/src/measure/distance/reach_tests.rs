//! The farthest part, overhang beyond a line, and overlaps in spite of any inaccuracy.

use crate::measure::figure::random::{Dice, moved};
use crate::measure::*;
use crate::plan::figure::{Figure, Form, Point};

const M: i64 = 1_000_000_000;

fn figure(form: Form, spread: i64) -> Figure {
    Figure::new(vec![form], spread, Some(0))
}

fn path(points: &[(i64, i64)]) -> Form {
    Form::Path(
        points
            .iter()
            .map(|&(x, y)| Point { x: x * M, y: y * M })
            .collect(),
    )
}

fn area(points: &[(i64, i64)]) -> Form {
    Form::Ring(
        points
            .iter()
            .map(|&(x, y)| Point { x: x * M, y: y * M })
            .collect(),
    )
}

#[test]
fn the_farthest_place_may_be_in_the_middle_of_a_side() {
    // A U with open top: along its mouth the middle is farthest, 5 m from either leg.
    let (u, mouth) = (
        path(&[(0, 0), (0, -20), (10, -20), (10, 0)]),
        path(&[(0, 0), (10, 0)]),
    );
    let gap = farthest(&figure(mouth, 0), &figure(u, 0));
    assert!(
        gap.low <= 5 * M && 5 * M <= gap.high && gap.high - gap.low <= M / 500,
        "{gap:?}"
    );
    // The same in the middle of an area with a line all around it: the centre of a square.
    let (square, line) = (
        [(0, 0), (10, 0), (10, 10), (0, 10)],
        path(&[(0, 0), (10, 0), (10, 10), (0, 10), (0, 0)]),
    );
    let gap = farthest(&figure(area(&square), 0), &figure(line, 0));
    assert!(
        gap.low <= 5 * M && 5 * M <= gap.high && gap.high - gap.low <= M / 100,
        "{gap:?}"
    );
    // Wholly within a bent area: nothing is far from it.
    let bent = area(&[(-5, -5), (20, -5), (20, 20), (15, 20), (15, 15), (-5, 15)]);
    let gap = farthest(&figure(area(&square), 0), &figure(bent, 0));
    assert!(gap.low == 0 && gap.high <= M / 500, "{gap:?}");
}

#[test]
fn the_farthest_part_of_anything_from_a_convex_shape_is_exact() {
    let deck = figure(area(&[(0, 0), (4, 0), (4, 3), (0, 3)]), M);
    let post = figure(path(&[(1, 1), (10, 11)]), M / 2);
    let gap = farthest(&post, &deck);
    assert_eq!(
        (gap.low, gap.high),
        (9 * M + M / 2, 9 * M + M / 2),
        "6 over, 8 up: 10, and half out, and one in"
    );
    let gap = widest(&post, &figure(area(&[(1, -1), (4, 0), (4, 3)]), 0));
    assert_eq!(
        (gap.low, gap.high, gap.to.y),
        (15 * M + M / 2, 15 * M + M / 2, -M),
        "9 over, 12 up"
    );
}

#[test]
fn no_sampled_place_is_farther_than_the_farthest() {
    let mut dice = Dice::new(41);
    for _ in 0..60 {
        let (a, b) = (
            figure(dice.form(5 * M), dice.from(0, 1) * M / 3),
            figure(dice.form(5 * M), 0),
        );
        let gap = farthest(&a, &b);
        assert!(
            gap.low <= gap.high && gap.high - gap.low <= M + M / 10,
            "{gap:?}"
        );
        for place in (0..300).map(|_| dice.point(10 * M)) {
            let here = figure(Form::Point(place), 0);
            if figure_gap(&here, &a).high == 0 {
                assert!(
                    figure_gap(&here, &b).low <= gap.high,
                    "{a:?} {b:?} {place:?}"
                );
            }
        }
    }
}

#[test]
fn one_nanometre_past_the_line_is_past_it() {
    let Form::Ring(lot) = area(&[(0, 0), (20, 0), (20, 30), (0, 30)]) else {
        panic!("a ring")
    };
    let pool = |by: i64| {
        moved(&area(&[(14, 5), (20, 5), (20, 10), (14, 10)]), |p| Point {
            x: p.x + by,
            ..p
        })
    };
    let within = |by| lies_within(&lot, &figure(pool(by), 0));
    let yard = figure(Form::Ring(lot.clone()), 0);
    let by = |by| farthest(&figure(pool(by), 0), &yard);
    assert!(within(0) && by(0).high == 0);
    assert!(!within(1) && (by(1).low, by(1).high) == (1, 1));
    assert!(!within(3 * M) && by(3 * M).low == 3 * M);
    let tree = |x| figure(Form::Point(Point { x, y: 5 * M }), 2 * M);
    assert!(lies_within(&lot, &tree(18 * M)));
    assert!(!lies_within(&lot, &tree(19 * M)));
}

#[test]
fn deep_overlaps_are_found_and_shallow_ones_never() {
    let square = |x: i64| {
        figure(
            moved(&area(&[(0, 0), (4, 0), (4, 4), (0, 4)]), |p| Point {
                x: p.x + x,
                ..p
            }),
            0,
        )
    };
    // A metre in common: its middle is half a metre deep in both.
    let half = M / 2;
    assert!(deepest_common(&square(0), half - 2, &square(3 * M), half - 2).is_some());
    assert!(deepest_common(&square(0), half, &square(3 * M), half).is_none());
    assert!(
        deepest_common(&square(0), 0, &square(4 * M), 0).is_none(),
        "touching is not deep"
    );
    let disc = |x, spread| figure(Form::Point(Point { x, y: 0 }), spread);
    assert!(deepest_common(&disc(0, M), half - 2, &disc(M, M), half - 2).is_some());
    assert!(deepest_common(&disc(0, M), half + 2, &disc(M, M), half + 2).is_none());
}

#[test]
fn a_deep_overlap_survives_any_displacement() {
    let mut dice = Dice::new(42);
    let (mut found, mut shallow) = (0, 0);
    for _ in 0..400 {
        let (a, b) = (dice.ring(2_000), dice.ring(2_000));
        let (e1, e2) = (dice.from(0, 150), dice.from(0, 150));
        let (one, other) = (
            figure(Form::Ring(a.clone()), 0),
            figure(Form::Ring(b.clone()), 0),
        );
        if deepest_common(&one, e1, &other, e2).is_none() {
            shallow += 1;
            continue;
        }
        found += 1;
        for _ in 0..20 {
            let mut shake = |ring: &[Point], e: i64| {
                let shift = |p: &Point, x: i64, y: i64| Point {
                    x: p.x + x,
                    y: p.y + y,
                };
                let whole = dice.from(-e, e);
                let rest = e - whole.abs();
                Form::Ring(
                    ring.iter()
                        .map(|p| shift(p, whole, dice.from(-rest, rest)))
                        .collect(),
                )
            };
            assert_eq!(
                distance(&shake(&a, e1), &shake(&b, e2)).high,
                0,
                "{a:?} {b:?}"
            );
        }
    }
    assert!(found > 60 && shallow > 60, "{found} {shallow}");
}

#[test]
fn a_spread_that_reaches_out_all_round_counts() {
    let point = |x: i64, y: i64| Form::Point(Point { x, y });
    let of = |a: &Figure, b: &Figure| {
        let gap = farthest(a, b);
        (gap.low, gap.high)
    };
    // A round coping of 3.6 m about water of 3 m: 0.6 m wide. Moved by 0.2 m: 0.8 m on one side.
    let water = figure(point(0, 0), 3 * M);
    assert_eq!(
        of(&figure(point(0, 0), 3_600_000_000), &water),
        (600_000_000, 600_000_000)
    );
    assert_eq!(
        of(&figure(point(200_000_000, 0), 3_600_000_000), &water),
        (800_000_000, 800_000_000)
    );
    // A square pool of 8 m with a round-cornered coping of 0.6 m.
    let square = area(&[(-4, -4), (4, -4), (4, 4), (-4, 4)]);
    let (pool, coping) = (figure(square.clone(), 0), figure(square, 600_000_000));
    assert_eq!(of(&coping, &pool), (600_000_000, 600_000_000));
    assert_eq!(of(&pool, &coping), (0, 0));
    // A crown of 7 m whose stem stands 3 m inside the nearest side of a square of 20 m: 4 m beyond it.
    let lawn = figure(area(&[(0, 0), (20, 0), (20, 20), (0, 20)]), 0);
    assert_eq!(
        of(&figure(point(10 * M, 3 * M), 7 * M), &lawn),
        (4 * M, 4 * M)
    );
    // A bent pool with a coping of 0.6 m round it.
    let bent = area(&[(0, 0), (10, 0), (10, 4), (4, 4), (4, 10), (0, 10)]);
    let (pool, coping) = (figure(bent.clone(), 0), figure(bent, 600_000_000));
    assert_eq!(of(&coping, &pool), (600_000_000, 600_000_000));
}

#[test]
fn no_place_is_farther_than_the_farthest_of_a_widened_line() {
    let mut dice = Dice::new(43);
    for _ in 0..400 {
        let a = Form::Path(vec![dice.point(6 * M), dice.point(6 * M)]);
        let square: Vec<Point> = [(-8, -8), (8, -8), (8, 8), (-8, 8)]
            .iter()
            .map(|(x, y)| Point {
                x: x * M + dice.from(-2 * M, 2 * M),
                y: y * M + dice.from(-2 * M, 2 * M),
            })
            .collect();
        let (a, b) = (figure(a, 5 * M), figure(Form::Ring(square), M));
        let gap = farthest(&a, &b);
        let mut found = 0;
        for place in a.corners() {
            for step in 0..256 {
                let turn = f64::from(step) * std::f64::consts::TAU / 256.0;
                let x = place.x + (5e9 * libm::cos(turn)) as i64;
                let y = place.y + (5e9 * libm::sin(turn)) as i64;
                let at = Figure::new(vec![Form::Point(Point { x, y })], 0, Some(0));
                found = found.max(figure_gap(&at, &b).low);
            }
        }
        // The nearest of the 256 directions is off by at most 1/256 of a turn: 5 m · (1 − cos) < 1 mm.
        assert!(found <= gap.high + 5, "{found} {gap:?}");
        assert!(gap.low <= found + 1_000_000, "{found} {gap:?}");
        assert!(gap.high - gap.low <= 2_000_000, "{gap:?}");
    }
}
