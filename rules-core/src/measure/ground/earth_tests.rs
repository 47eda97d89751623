//! Digging, roots, floods, uplift, wires: by hand, as published, and against worlds drawn at random.

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

/// Shady Shores TX: one foot out for each foot of depth. Footing 0.6 m deep, hole 1.8 m: 1.2 m; at 1.5:1, 1.8 m.
#[test]
fn a_hole_keeps_off_a_footing_by_its_depth_below_it() {
    assert_eq!(influence(cm(-60), cm(-180), Interval::exact(M)), cm(120));
    assert_eq!(
        influence(cm(-60), cm(-180), Interval::exact(M * 3 / 2)),
        cm(180)
    );
    assert_eq!(
        influence(cm(-200), cm(-180), Interval::exact(M)),
        cm(0),
        "the footing is the deeper"
    );
    // A footing of which nobody knows how deep it goes may end at the surface.
    let unknown = Interval {
        low: -100 * M,
        high: 0,
    };
    assert_eq!(
        influence(unknown, cm(-180), Interval::exact(M)),
        Interval {
            low: 0,
            high: 180 * CM
        }
    );
}

/// BS 5837:2012, 4.6.1 and annex D, from memory: a stem of 500 mm has a radius of 6.0 m (area 113 m2); 15 m is the cap.
#[test]
fn roots_need_twelve_stems() {
    let near = |found: Interval, metres: f64| {
        assert!(
            (found.low as f64 / 1e9 - metres).abs() < 1e-6
                && (found.high as f64 / 1e9 - metres).abs() < 1e-6,
            "{found:?}"
        );
    };
    near(root_protection(&[cm(50)]), 6.0);
    near(root_protection(&[cm(75)]), 9.0);
    near(root_protection(&[cm(125)]), 15.0);
    near(root_protection(&[cm(200)]), 15.0);
    near(root_protection(&[cm(30), cm(40)]), 6.0);
}

/// Archimedes: a shell of 32 m2 standing 1.2 m in groundwater is lifted by 38.4 t of water, 376.6 kN.
#[test]
fn water_lifts_an_empty_shell() {
    let force = uplift(square_metres(32), cm(-150), cm(-30));
    assert!(
        (force.low - 376_575).abs() <= 1 && (force.high - 376_576).abs() <= 1,
        "{force:?}"
    );
    assert_eq!(
        uplift(square_metres(32), cm(-150), cm(-200)),
        Interval::exact(0),
        "the water is below it"
    );
}

/// 20 m2 filled from 1.0 m to 1.6 m under a flood at 1.4 m: 8 m3 taken; the rim at 1.6 m is 0.2 m above it.
#[test]
fn a_fill_takes_room_from_a_flood() {
    let volume = flood_storage_taken(square_metres(20), cm(100), cm(160), cm(140));
    assert_eq!(volume, Interval::exact(8 * M * M * M));
    assert_eq!(freeboard(cm(160), cm(140)), cm(20));
}

/// A parabola: supports at 8 m, sag 1 m: 7 m in the middle, 7.25 m at a quarter. Supports at 8 m and 10 m: lowest at
/// 1/2 - 2/8 = 1/4 of the way, 8.5 - 0.75 = 7.75 m.
#[test]
fn a_wire_hangs_as_a_parabola() {
    let near = |found: Interval, centimetres: f64| {
        assert!((found.low as f64 / 1e7 - centimetres).abs() < 1e-6)
    };
    near(wire_height(cm(800), cm(800), cm(100), 0.5), 700.0);
    near(wire_height(cm(800), cm(800), cm(100), 0.25), 725.0);
    let (low, share) = lowest_of_wire(cm(800), cm(1000), cm(100));
    near(low, 775.0);
    assert!((share - 0.25).abs() < 1e-12);
    near(lowest_of_wire(cm(800), cm(1600), cm(50)).0, 800.0);
}

/// Common practice, no source: water and backfill rise together in steps of 30 cm; a shell was lifted about 7 m to pass
/// over telephone lines; filter water goes to a stormwater point 30 m away; 2.4 kW at 5.8 give 14 kW of heat.
#[test]
fn common_practice_no_source() {
    let steps = |centimetres: i64| steps_to(centimetres * CM as i64, 30 * CM as i64);
    assert_eq!(
        (steps(150), steps(160), steps(0)),
        (Some(5), Some(6), Some(0))
    );
    // Telephone lines over a drive hang at 5 to 6 m; a metre of room, and a little for the sling.
    let lift = lift_over(
        Interval {
            low: 5 * M,
            high: 6 * M,
        },
        cm(150),
    );
    assert!(lift.contains(7 * M), "{lift:?}");
    // 30 m at 1 in 100 falls 30 cm.
    assert_eq!(fall(cm(-60), cm(-90), cm(3000)), Interval::exact(ONE / 100));
    let heat = heat(
        Interval::exact(2_400_000_000),
        Interval::exact(ONE * 58 / 10),
    );
    assert_eq!(
        heat,
        Interval::exact(13_920_000_000),
        "13.92 kW, said as 14 kW"
    );
}

#[test]
fn a_crane_keeps_off_a_wire() {
    // 12 m away, reach 9 m: 3 m along; wire at 8 m, tip at 4 m: 4 m over. 5 m in all.
    let clear = lifting_clearance(
        Span::exactly(12 * M as i64),
        9 * M as i64,
        4 * M as i64,
        Interval::exact(8 * M),
    );
    assert_eq!(clear, Span::exactly(5 * M as i64));
    let under = lifting_clearance(
        Span::exactly(5 * M as i64),
        9 * M as i64,
        9 * M as i64,
        Interval::exact(8 * M),
    );
    assert_eq!(under, Span::exactly(0));
}

/// Truth first: exact values within what is known, worked out in floats.
#[test]
fn the_intervals_hold_every_world() {
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
        let (foot, feet) = pick(-4 * metre, 0, metre);
        let (bottom, bottoms) = pick(-4 * metre, 0, metre);
        let (run, runs) = pick(0, 3 * metre, metre / 2);
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
        within(
            influence(feet, bottoms, runs),
            1e9,
            (foot - bottom).max(0.0) * run,
        );
        let deep = (flood - bottom).max(0.0) * side as f64;
        within(
            flood_storage_taken(area, bottoms, floods, floods),
            1e27,
            deep,
        );
        within(uplift(area, bottoms, floods), 1.0, deep * 9806.65);
        let (lowest, _) = lowest_of_wire(one, other, sags);
        let height = |t: f64| a + (b - a) * t - 4.0 * sag * t * (1.0 - t);
        let least = (0..=1000)
            .map(|i| height(f64::from(i) / 1000.0))
            .fold(f64::INFINITY, f64::min);
        assert!(lowest.low as f64 / 1e9 <= least + 1e-9);
        assert!(
            least <= lowest.high as f64 / 1e9 + 2e-5,
            "a thousandth of the way may miss it"
        );
        within(wire_height(one, other, sags, 0.3), 1e9, height(0.3));
    }
}
