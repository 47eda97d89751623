use super::*;
use crate::measure::figure::random::Dice;
use crate::measure::{area2, figure_gap, length, union_area};
use crate::plan::figure::{Figure, Form};

const M: i64 = 1_000_000_000;
const MM: i64 = 1_000_000;

fn area(traced: &Traced) -> Figure {
    Figure::new(
        vec![Form::Ring(traced.corners.clone())],
        0,
        Some(traced.off),
    )
}

fn spot(at: Point) -> Figure {
    Figure::new(vec![Form::Point(at)], 0, Some(0))
}

/// The circle through three places, from the perpendicular bisectors of two chords.
fn through(a: (f64, f64), b: (f64, f64), c: (f64, f64)) -> ((f64, f64), f64) {
    let twice = 2.0 * (a.0 * (b.1 - c.1) + b.0 * (c.1 - a.1) + c.0 * (a.1 - b.1));
    let square = |p: (f64, f64)| p.0 * p.0 + p.1 * p.1;
    let (s, t, u) = (square(a), square(b), square(c));
    let x = (s * (b.1 - c.1) + t * (c.1 - a.1) + u * (a.1 - b.1)) / twice;
    let y = (s * (c.0 - b.0) + t * (a.0 - c.0) + u * (b.0 - a.0)) / twice;
    (
        (x, y),
        ((a.0 - x) * (a.0 - x) + (a.1 - y) * (a.1 - y)).sqrt(),
    )
}

/// A half circle by hand: 4 m across, 2 m deep. Its area is 2π m², and a place 3 m from its centre is 1 m away.
#[test]
fn a_half_circle_by_hand() {
    let (a, b) = (Point { x: 0, y: 0 }, Point { x: 4 * M, y: 0 });
    let mut traced = Traced::new();
    traced.bulge((a, b), 2 * M, 500);
    traced.corners.push(b);
    assert!(traced.off <= 101_000, "{}", traced.off);
    let twice = area2(&traced.corners) as f64 / 1e18;
    assert!((twice - 4.0 * PI).abs() < 2.0 * 7.0 * 1e-4, "{twice}");
    let gap = figure_gap(
        &area(&traced),
        &spot(Point {
            x: 2 * M,
            y: -5 * M,
        }),
    );
    assert!(gap.low - traced.off <= 3 * M && 3 * M <= gap.high + traced.off);
}

/// Distances to a true arc, from its circle through three places, lie within what the corners and their `off` say.
#[test]
fn two_thousand_distances_to_arcs_are_held() {
    let mut dice = Dice::new(77);
    let mut near = 0;
    for _ in 0..2_000 {
        let (a, b) = (dice.point(5 * M), dice.point(5 * M));
        let long = crate::measure::figure::direction::distance(a, b);
        if long < M as f64 {
            continue;
        }
        let most = dice.from(4, 300) as usize;
        let rise = [-1, 1][dice.from(0, 1) as usize] * dice.from(MM, (long * 0.49) as i64);
        let mut traced = Traced::new();
        traced.bulge((a, b), rise, most);
        traced.corners.push(b);
        let p = dice.point(8 * M);
        let line = Figure {
            forms: vec![Form::Path(traced.corners.clone())],
            ..spot(p)
        };
        let found = figure_gap(&line, &spot(p));
        // The middle of the arc: from the middle of the chord to the right of the direction of travel.
        let f = |p: Point| (p.x as f64, p.y as f64);
        let ((ax, ay), (bx, by)) = (f(a), f(b));
        let out = (
            (by - ay) / long * rise as f64,
            (ax - bx) / long * rise as f64,
        );
        let top = ((ax + bx) / 2.0 + out.0, (ay + by) / 2.0 + out.1);
        let (middle, radius) = through(f(a), top, f(b));
        let q = f(p);
        let far = |u: (f64, f64), v: (f64, f64)| {
            ((u.0 - v.0) * (u.0 - v.0) + (u.1 - v.1) * (u.1 - v.1)).sqrt()
        };
        let to_middle = far(q, middle);
        // The nearest place of the whole circle, if it is on the arc: no farther from the arc's middle than the ends are.
        let foot = (
            middle.0 + (q.0 - middle.0) / to_middle * radius,
            middle.1 + (q.1 - middle.1) / to_middle * radius,
        );
        let ends = far(q, f(a)).min(far(q, f(b)));
        let truth = match far(foot, top) <= far(f(a), top) {
            true => (to_middle - radius).abs(),
            false => ends,
        };
        near += i32::from(truth < ends);
        let off = traced.off as f64 + radius * 1e-12 + 4.0;
        assert!(
            found.low as f64 - off <= truth && truth <= found.high as f64 + off,
            "{truth} {found:?} off {off} rise {rise} long {long} steps {}",
            traced.corners.len()
        );
    }
    assert!(near > 400, "{near}");
}

/// Ends of radius 2 m, 4 m apart, dented by 0.5 m: the dent's arc has a radius of (2² + 0.5²) / 1 − 2 = 2.25 m.
#[test]
fn a_kidney_by_hand() {
    let kidney = Kidney {
        ends: (Point { x: 0, y: 0 }, Point { x: 4 * M, y: 0 }),
        radius: 2 * M,
        hollow: M / 2,
        back: 0,
    };
    let traced = kidney.outline(1000).unwrap();
    let figure = area(&traced);
    let gap = |x: i64, y: i64| {
        figure_gap(
            &figure,
            &spot(Point {
                x: x * M / 10,
                y: y * M / 10,
            }),
        )
    };
    let near = |gap: crate::measure::Gap, metres: f64| {
        let (low, high) = (gap.low - traced.off, gap.high + traced.off);
        assert!(
            low as f64 <= metres * 1e9 && metres * 1e9 <= high as f64,
            "{gap:?} {metres}"
        );
    };
    // The waist is 1.5 m above the axis through both centres, the back 2 m below it; the ends are 2 m beyond the centres.
    near(gap(20, 25), 1.0);
    near(gap(20, -30), 1.0);
    near(gap(-30, 0), 1.0);
    near(gap(70, 0), 1.0);
    // From the centre of the dent's circle, 3.75 m up, the whole dent is 2.25 m away.
    near(gap(20, 37), 2.2);
    // The area in parts: the kite between the centres minus the dent's sector, the ends' sectors, the rectangle at the back.
    let turn = libm::atan2(3.75, 2.0);
    let kite = 2.0 * 3.75 - 2.25 * 2.25 * (PI / 2.0 - turn);
    let ends = 4.0 * (1.5 * PI - turn);
    let found = union_area(&[&figure]).low as f64 / 1e18;
    let round = length(&figure.forms[0]).high as f64 / 1e9;
    let expected = kite + ends + 8.0;
    assert!(
        (found - expected).abs() < round * traced.off as f64 / 1e9,
        "{found} {expected}"
    );
    let bulging = Kidney {
        back: M / 2,
        ..kidney
    }
    .outline(1000)
    .unwrap();
    let below = figure_gap(
        &area(&bulging),
        &spot(Point {
            x: 2 * M,
            y: -3 * M,
        }),
    );
    assert!((below.low - M / 2).abs() <= bulging.off, "{below:?}");
    assert!(union_area(&[&area(&bulging)]).low > union_area(&[&figure]).low);
    for wrong in [
        Kidney {
            hollow: 2 * M,
            ..kidney
        },
        Kidney {
            back: 2 * M,
            ..kidney
        },
        Kidney {
            radius: 5 * M,
            ..kidney
        },
    ] {
        assert_eq!(wrong.outline(1000), None, "{wrong:?}");
    }
}
