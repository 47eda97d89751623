//! Areas of figures and of their overlaps, against formulas and against counts of random points.

use crate::measure::figure::random::Dice;
use crate::measure::*;
use crate::plan::figure::{Figure, Form, Point};

const M: i64 = 1_000_000_000;
const SQUARE_METRE: f64 = 1e18;

fn figure(forms: Vec<Form>, spread: i64) -> Figure {
    Figure::new(forms, spread, Some(0))
}

fn square(x: i64, y: i64, side: i64) -> Form {
    let corner = |x, y| Point { x, y };
    Form::Ring(vec![
        corner(x, y),
        corner(x + side, y),
        corner(x + side, y + side),
        corner(x, y + side),
    ])
}

fn disc(x: i64, y: i64, radius: i64) -> Figure {
    figure(vec![Form::Point(Point { x, y })], radius)
}

fn holds(area: Area, square_metres: f64, loose: f64) {
    let (low, high) = (
        area.low as f64 / SQUARE_METRE,
        area.high as f64 / SQUARE_METRE,
    );
    assert!(
        low <= square_metres + 1e-9 && square_metres <= high + 1e-9,
        "{low} {square_metres} {high}"
    );
    assert!(high - low <= loose, "{low} to {high} is loose");
}

#[test]
fn a_convex_figure_has_its_area_by_formula() {
    use std::f64::consts::PI;
    holds(union_area(&[&disc(0, 0, 2 * M)]), 4.0 * PI, 1e-9);
    holds(
        union_area(&[&figure(vec![square(0, 0, 4 * M)], M)]),
        16.0 + 16.0 + PI,
        1e-9,
    );
    let line = Form::Path(vec![Point { x: 0, y: 0 }, Point { x: 3 * M, y: 4 * M }]);
    holds(
        union_area(&[&figure(vec![line.clone()], M)]),
        10.0 + PI,
        1e-9,
    );
    holds(union_area(&[&figure(vec![line], 0)]), 0.0, 0.0);
    // Two apart are summed; two that overlap are joined: half a square in common.
    holds(
        union_area(&[&figure(vec![square(0, 0, M), square(3 * M, 0, M)], 0)]),
        2.0,
        1e-9,
    );
    holds(
        union_area(&[&figure(vec![square(0, 0, M), square(M / 2, 0, M)], 0)]),
        1.5,
        1e-5,
    );
    assert_eq!(disc_area(0), Area { low: 0, high: 0 });
}

#[test]
fn a_bent_figure_has_its_area_between_polygons() {
    use std::f64::consts::PI;
    // An L with round corners: five corners turn out, each a quarter disc; the notch loses nothing but its overlap.
    let l = [(0, 0), (10, 0), (10, 5), (5, 5), (5, 10), (0, 10)]
        .map(|(x, y)| Point { x: x * M, y: y * M });
    let area = union_area(&[&figure(vec![Form::Ring(l.to_vec())], M)]);
    holds(area, 75.0 + 40.0 - 1.0 + 5.0 * PI / 4.0, 0.02);
}

/// What two figures share, as a rule on areas takes it: the one cut to the other.
fn overlap(a: &Figure, b: &Figure) -> Area {
    let cut = |fit| match clip(a, b, Keep::Within, fit) {
        Some(part) => union_area(&[&part]),
        None => Area { low: 0, high: 0 },
    };
    Area {
        low: cut(Fit::Inner).low,
        high: cut(Fit::Outer).high,
    }
}

#[test]
fn discs_share_a_lens() {
    // Two unit circles, centres 1 m apart: 2π/3 − √3/2, the lens of the handbooks.
    let lens = 2.0 * std::f64::consts::PI / 3.0 - 3.0_f64.sqrt() / 2.0;
    holds(overlap(&disc(0, 0, M), &disc(M, 0, M)), lens, 0.01);
    assert!(
        !overlaps(&disc(0, 0, M), &disc(2 * M, 0, M)),
        "touching is nothing"
    );
    assert!(
        overlaps(&disc(0, 0, M), &disc(2 * M - 1, 0, M)),
        "a nanometre is something"
    );
    assert!(!overlaps(
        &figure(vec![square(0, 0, M)], 0),
        &figure(vec![square(M, 0, M)], 0)
    ));
    assert!(
        !overlaps(
            &disc(0, 0, M),
            &figure(vec![Form::Point(Point { x: 0, y: 0 })], 0)
        ),
        "a point has no area"
    );
    let inner = overlap(
        &figure(vec![square(0, 0, 4 * M)], 0),
        &figure(vec![square(M, M, M)], 0),
    );
    assert_eq!(inner.low, inner.high, "what lies within is exact");
}

#[test]
fn weights_count_each_place_once_with_the_greatest() {
    let (house, deck) = (
        figure(vec![square(0, 0, 2 * M)], 0),
        figure(vec![square(M, 0, 2 * M)], 0),
    );
    let items = [
        Weighted {
            figure: &house,
            millionths: 1_000_000,
        },
        Weighted {
            figure: &deck,
            millionths: 500_000,
        },
    ];
    holds(weighted_area(&items), 4.0 + 2.0 * 0.5, 1e-4);
    holds(weighted_area(&items[1..]), 2.0, 1e-9);
    holds(weighted_area(&[]), 0.0, 0.0);
}

#[test]
fn shared_areas_hold_what_counting_finds() {
    let mut dice = Dice::new(31);
    for _ in 0..40 {
        let a = figure(vec![dice.form(4 * M)], dice.from(0, M));
        let b = figure(vec![dice.form(4 * M)], dice.from(0, M));
        let area = overlap(&a, &b);
        let (mut hits, throws) = (0, 4_000);
        for _ in 0..throws {
            let here = figure(vec![Form::Point(dice.point(10 * M))], 0);
            hits += i32::from(figure_gap(&here, &a).high == 0 && figure_gap(&here, &b).high == 0);
        }
        // Five standard deviations of the count, with a floor for small counts.
        let counted = f64::from(hits) * 400.0 / f64::from(throws);
        let doubt = 5.0 * (f64::from(hits.max(4))).sqrt() * 400.0 / f64::from(throws);
        let (low, high) = (
            area.low as f64 / SQUARE_METRE,
            area.high as f64 / SQUARE_METRE,
        );
        assert!(
            low <= counted + doubt && high >= counted - doubt,
            "{low} {high} {counted} ± {doubt}"
        );
        assert!(high - low < 0.2 && (high > 0.0) == overlaps(&a, &b));
    }
}

#[test]
fn the_area_band_holds_and_is_nearly_reached() {
    let mut dice = Dice::new(32);
    let mut nearest: f64 = 0.0;
    for _ in 0..2_000 {
        let ring = dice.ring(10_000);
        let accuracies: Vec<i64> = ring.iter().map(|_| dice.from(0, 50)).collect();
        let stated: Vec<Option<i64>> = accuracies.iter().copied().map(Some).collect();
        let band = area_band(&ring, &stated).unwrap();
        let count = ring.len();
        let out: Vec<Point> = (0..count)
            .map(|i| {
                let (before, after) = (ring[(i + count - 1) % count], ring[(i + 1) % count]);
                let (x, y) = ((after.y - before.y) as f64, (before.x - after.x) as f64);
                let long = (x * x + y * y).sqrt().max(1.0) / accuracies[i] as f64;
                Point {
                    x: ring[i].x + (x / long).trunc() as i64,
                    y: ring[i].y + (y / long).trunc() as i64,
                }
            })
            .collect();
        let change = (area2(&out) - area2(&ring)).abs();
        assert!(change <= 2 * band, "{ring:?} {change} {band}");
        nearest = nearest.max(change as f64 / (2 * band).max(1) as f64);
    }
    assert!(nearest > 0.9, "{nearest}");
}

/// A ring with a thousand corners about a circle of 2 m, 0.5 m wider. It is just convex, so that its area is that of the
/// ring, a strip along its edges and a disc: Steiner's formula, on the corners as rounded here.
#[test]
fn many_corners_are_thinned_and_still_hold() {
    let count = 1000;
    let corner = |at: i32| {
        let angle = std::f64::consts::TAU * f64::from(at) / f64::from(count);
        // Every other corner 20 micrometres farther in.
        let far = 2e9 - f64::from(at % 2) * 20_000.0;
        Point {
            x: (far * libm::cos(angle)) as i64,
            y: (far * libm::sin(angle)) as i64,
        }
    };
    let round = figure(vec![Form::Ring((0..count).map(corner).collect())], M / 2);
    let area = union_area(&[&round]);
    holds(area, 19.634_711_935_745_866, 1e-6);
}
