//! Floods, uplift, wires: by hand, as published, and against worlds drawn at random.

use super::*;
use crate::measure::figure::random::Dice;

const M: i128 = 1_000_000_000;
const CM: i128 = 10_000_000;

fn cm(centimetres: i128) -> Interval {
    Interval::exact(centimetres * CM)
}

fn square_metres(area: i128) -> Interval {
    Interval::exact(area * M * M)
}

/// Archimedes: a shell of 32 m2 standing 1.2 m in groundwater is lifted by 38.4 t of water.
#[test]
fn water_lifts_an_empty_shell() {
    let pushed_aside = |groundwater| {
        mass_of_water(flood_storage_taken(
            square_metres(32),
            cm(-150),
            groundwater,
            groundwater,
        ))
    };
    let milligrams_a_tonne = 1_000_000_000;
    assert_eq!(
        pushed_aside(cm(-30)),
        Interval::exact(384 * milligrams_a_tonne / 10)
    );
    assert_eq!(
        pushed_aside(cm(-200)),
        Interval::exact(0),
        "the water is below it"
    );
}

/// 20 m2 filled from 1.0 m to 1.6 m under a flood at 1.4 m: 8 m3 taken.
#[test]
fn a_fill_takes_up_flood_storage() {
    let volume = flood_storage_taken(square_metres(20), cm(100), cm(160), cm(140));
    assert_eq!(volume, Interval::exact(8 * M * M * M));
}

/// A parabola: supports at 8 m, sag 1 m: 7 m in the middle, 7.25 m at a quarter. Supports at 8 m and 10 m: at a quarter
/// of the way 8.5 - 0.75 = 7.75 m.
#[test]
fn a_wire_hangs_as_a_parabola() {
    let near = |found: Interval, centimetres: f64| {
        assert!((found.low as f64 / 1e7 - centimetres).abs() < 1e-6)
    };
    near(wire_height(cm(800), cm(800), cm(100), 0.5), 700.0);
    near(wire_height(cm(800), cm(800), cm(100), 0.25), 725.0);
    near(wire_height(cm(800), cm(1000), cm(100), 0.25), 775.0);
}

/// Exact values are drawn first, then intervals around them; the results in floats must be within the results of the intervals.
#[test]
fn the_intervals_contain_every_world() {
    let mut dice = Dice::new(12);
    for _ in 0..2_000 {
        let mut pick = |least: i64, most: i64, off: i64| {
            let truth = dice.from(least, most);
            let low = i128::from(truth - dice.from(0, off));
            (
                truth as f64 / 1e9,
                Interval {
                    low,
                    high: i128::from(truth + dice.from(0, off)),
                },
            )
        };
        let metre = 1_000_000_000;
        let (bottom, bottoms) = pick(-4 * metre, 0, metre);
        let (flood, floods) = pick(-3 * metre, metre, metre);
        let (a, one) = pick(4 * metre, 12 * metre, metre);
        let (b, other) = pick(4 * metre, 12 * metre, metre);
        let (sag, sags) = pick(metre, 3 * metre, metre / 2);
        let side = dice.from(1, 60);
        let area = Interval::exact(i128::from(side) * M * M);
        let within = |range: Interval, scale: f64, truth: f64| {
            let slack = 1e-9 * truth.abs() + 1e-9;
            assert!(
                range.low as f64 / scale <= truth + slack
                    && truth - slack <= range.high as f64 / scale,
                "{range:?} {truth}"
            );
        };
        let deep = (flood - bottom).max(0.0) * side as f64;
        within(
            flood_storage_taken(area, bottoms, floods, floods),
            1e27,
            deep,
        );
        let pushed_aside = flood_storage_taken(area, bottoms, floods, floods);
        within(mass_of_water(pushed_aside), 1e9, deep);
        let height = |t: f64| a + (b - a) * t - 4.0 * sag * t * (1.0 - t);
        within(wire_height(one, other, sags, 0.3), 1e9, height(0.3));
    }
}
