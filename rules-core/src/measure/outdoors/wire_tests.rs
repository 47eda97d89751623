use super::*;
use crate::measure::figure::random::Dice;

const M: i64 = 1_000_000_000;

fn metres(low: f64, high: f64) -> Interval {
    Interval {
        low: (low * 1e9).floor() as i128,
        high: (high * 1e9).ceil() as i128,
    }
}

fn point(x: f64, y: f64) -> Point {
    Point {
        x: (x * 1e9).round() as i64,
        y: (y * 1e9).round() as i64,
    }
}

fn ring(points: &[(f64, f64)]) -> Figure {
    Figure::new(
        vec![Form::Ring(
            points.iter().map(|(x, y)| point(*x, *y)).collect(),
        )],
        0,
        Some(0),
    )
}

fn over(top: f64) -> impl Fn(Interval) -> Interval {
    let top = metres(top, top);
    move |wire| wire.sub(top).max(top.sub(wire)).max(Interval::exact(0))
}

/// Supports of 8 m, 40 m apart, a sag of 1 m, straight over a pool in the middle: 7 m over the water, and 6.7 m over a rim
/// of 0.3 m; beside it, 3 m off on the plan and 4 m up at the lowest, 5 m.
#[test]
fn over_the_middle_by_hand() {
    let span = Form::Path(vec![point(0.0, 0.0), point(40.0, 0.0)]);
    let hung = |height: f64, sag| {
        Wire::hung(&span, [metres(height, height); 2], metres(sag, sag), 0).unwrap()
    };
    let pool = ring(&[(18.0, -2.0), (22.0, -2.0), (22.0, 2.0), (18.0, 2.0)]);
    let near = |found: Interval, metres: f64| {
        let (low, high) = (found.low as f64 / 1e9, found.high as f64 / 1e9);
        assert!(
            low <= metres && metres <= high + 1e-3 && high - low < 0.02,
            "{metres} {found:?}"
        );
    };
    near(
        hung(8.0, 1.0).nearest(&[(0.0, 1.0)], &pool, 0, over(0.0)).0,
        7.0,
    );
    near(
        hung(8.0, 1.0).nearest(&[(0.0, 1.0)], &pool, 0, over(0.3)).0,
        6.7,
    );
    let beside = ring(&[(18.0, 3.0), (22.0, 3.0), (22.0, 7.0), (18.0, 7.0)]);
    near(
        hung(5.0, 1.0)
            .nearest(&[(0.0, 1.0)], &beside, 0, over(0.0))
            .0,
        5.0,
    );
    // At a quarter of the span it hangs 4·1·¼·¾ = 0.75 m: 7.25 m up.
    near(hung(8.0, 1.0).between(0.25, 0.25), 7.25);
    // No sag: level, and the same everywhere.
    near(
        hung(8.0, 0.0).nearest(&[(0.0, 1.0)], &pool, 0, over(0.0)).0,
        8.0,
    );
}

/// A line of several spans, or one that hangs like a slack rope, is unknown.
#[test]
fn unknown_wires() {
    let span = Form::Path(vec![point(0.0, 0.0), point(40.0, 0.0)]);
    let bent = Form::Path(vec![point(0.0, 0.0), point(20.0, 5.0), point(40.0, 0.0)]);
    let level = [metres(8.0, 8.0); 2];
    assert!(Wire::hung(&bent, level, metres(1.0, 1.0), 0).is_none());
    assert!(Wire::hung(&span, level, metres(12.0, 12.0), 0).is_none());
    assert!(Wire::hung(&span, level, Interval::from_low(0), 0).is_none());
    assert!(Wire::hung(&span, level, metres(1.0, 1.0), 20 * M).is_none());
}

/// A catenary through two supports, by its own equation.
fn catenary(heights: (f64, f64), length: f64, sag: f64) -> impl Fn(f64) -> f64 {
    // y = c·cosh((x − m)/c) + k with the given sag in the middle: c by halving, m from the difference of heights.
    let (one, other) = heights;
    let half = length / 2.0;
    let at = move |c: f64| {
        let m = -c * libm::asinh((other - one) / (2.0 * c * libm::sinh(half / c)));
        let y = move |x: f64| c * libm::cosh((x - half - m) / c);
        let k = one - y(0.0);
        move |x: f64| y(x) + k
    };
    let sag_of = |c: f64| (one + other) / 2.0 - at(c)(half);
    let (mut low, mut high) = (length / 8.0, length * 1e5);
    for _ in 0..200 {
        let c = f64::midpoint(low, high);
        if sag_of(c) > sag {
            low = c;
        } else {
            high = c;
        }
    }
    at(f64::midpoint(low, high))
}

#[test]
fn every_hanging_wire_stays_inside() {
    let mut dice = Dice::new(47);
    let mut tight = 0;
    for _ in 0..2_000 {
        let mut real = |low: i64, high: i64| dice.from(low * 1000, high * 1000) as f64 / 1000.0;
        let (from, to) = ((real(-30, 0), real(-9, 9)), (real(5, 30), real(-9, 9)));
        let length = libm::hypot(to.0 - from.0, to.1 - from.1);
        let heights = (real(4, 12), real(4, 12));
        let sag = length * real(0, 6) / 100.0 + 0.01;
        let curve = catenary(heights, length, sag);
        let (x, y, wide, high) = (real(-20, 20), real(-12, 12), real(1, 8), real(1, 5));
        let corners = [(x, y), (x + wide, y), (x + wide, y + high), (x, y + high)];
        let rim = real(0, 2);
        let mut least = f64::INFINITY;
        for step in 0..=400 {
            let share = f64::from(step) / 400.0;
            let (px, py) = (
                from.0 + (to.0 - from.0) * share,
                from.1 + (to.1 - from.1) * share,
            );
            let dx = (x - px).max(px - x - wide).max(0.0);
            let dy = (y - py).max(py - y - high).max(0.0);
            let dz = curve(length * share) - rim;
            least = least.min((dx * dx + dy * dy + dz * dz).sqrt());
        }
        // The tolerances: supports and pool are drawn off by up to `off` each, heights and sag are known as ranges.
        let off = dice.from(0, 1) * dice.from(0, M / 4);
        let slack = dice.from(0, 1) as f64 * dice.from(0, 200) as f64 / 1000.0;
        let mut jog = |p: (f64, f64)| {
            let step = off as f64 * 0.7 / 1e9;
            let by = |dice: &mut Dice| dice.from(-1000, 1000) as f64 / 1000.0 * step;
            (p.0 + by(&mut dice), p.1 + by(&mut dice))
        };
        let line = [jog(from), jog(to)].map(|p| point(p.0, p.1));
        let moved = jog((0.0, 0.0));
        let drawn: Vec<(f64, f64)> = corners
            .iter()
            .map(|p| (p.0 + moved.0, p.1 + moved.1))
            .collect();
        let blurred = |value: f64| metres(value - slack, value + slack / 2.0);
        let sags = Interval {
            low: blurred(sag).low.max(0),
            ..blurred(sag)
        };
        let heights = [blurred(heights.0), blurred(heights.1)];
        let Some(wire) = Wire::hung(&Form::Path(line.to_vec()), heights, sags, off) else {
            continue;
        };
        let (found, _) = wire.nearest(&[(0.0, 1.0)], &ring(&drawn), 2 * off, over(rim));
        let (low, high) = (found.low as f64 / 1e9, found.high as f64 / 1e9);
        assert!(low <= least + 1e-9, "{least} {found:?}");
        // The nearest of 400 places is right to half a step along the wire.
        let step = libm::hypot(
            length,
            heights[0].sub(heights[1]).high as f64 / 1e9 + 4.0 * sag,
        ) / 400.0;
        assert!(least - step <= high, "{least} {found:?}");
        tight += i32::from(off == 0 && slack == 0.0 && high - low < 0.1);
    }
    assert!(tight > 300, "{tight}");
}
