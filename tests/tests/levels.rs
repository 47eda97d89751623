//! Heights and levels from a plan and a rule file to the outcome: worked by hand in `docs/measures/heights.md` and
//! `docs/measures/levels.md`, and 2,000 random worlds of each, drawn first and then blurred to a plan.

use crate::common::Dice;
use crate::common::measured::{LOT, judge, judge_all};
use rules_core::check::Outcome;
use rules_core::quantity::Interval;

const METRE: f64 = 1e9;

fn metres(range: Interval) -> (f64, f64) {
    (range.low as f64 / METRE, range.high as f64 / METRE)
}

fn near(range: Option<Interval>, low: f64, high: f64) {
    let found = metres(range.unwrap());
    assert!(
        (found.0 - low).abs() < 0.002 && (found.1 - high).abs() < 0.002,
        "{found:?}, expected {low} to {high}"
    );
}

/// A lot that is level, or of which this is said, with a pool 4 m by 8 m and these things.
fn plan(level: &str, pool: &str, things: &str) -> String {
    let lot = LOT.replace("lot:\n", &format!("lot:\n  level-ground: {level}\n"));
    format!(
        "{lot}pool: {{id: pool, source: survey, water: {{rectangle: {{at: [8, 10], length: 4 m, width: 8 m}}}}, \
         coping: {{same-as: water}}, shell: {{same-as: water}}{pool}}}
things:
{things}inventory: {{overhead-line: all-shown, ground-spot: all-shown, deck: all-shown, foothold: all-shown, \
         barrier-stretch: all-shown, raised-ground: all-shown, drainage-path: all-shown, stormwater-point: all-shown, \
         flood-area: all-shown, equipment: all-shown, contour: all-shown, lifting-machine: all-shown, \
         diving-structure: all-shown}}
"
    )
}

mod wires;

/// Spots at the corners of the lot: the ground rises `rise` metres to the east over its 20 m.
fn spots(rise: f64) -> String {
    let spot = |id: &str, x: u32, y: u32, level: f64| {
        format!(
            "  - {{kind: ground-spot, id: {id}, source: survey, place: [{x}, {y}], level: {level:.6} m}}\n"
        )
    };
    spot("a", 0, 0, 50.0)
        + &spot("b", 20, 0, 50.0 + rise)
        + &spot("c", 20, 40, 50.0 + rise)
        + &spot("d", 0, 40, 50.0)
}

fn rule(value: &str, bound: &str) -> String {
    format!("    require: {{{value}, {bound}}}\n")
}

fn measured(pool: &str, things: &str, value: &str, bound: &str) -> (Outcome, Option<Interval>) {
    judge(&plan("no", pool, things), "", &rule(value, bound))
}

mod by_hand;

/// The world first: a plane of ground, spots on it, things upon it; then a plan that knows less.
#[test]
fn the_truth_stays_inside_for_every_measure_of_levels() {
    let mut dice = Dice::new(11);
    let mut checked = 0;
    for _ in 0..2_000 {
        let (u, v) = (dice.between(-0.05, 0.05), dice.between(-0.05, 0.05));
        let ground = |x: f64, y: f64| 50.0 + u * x + v * y;
        let (off, known) = (dice.between(0.0, 0.2), dice.between(0.0, 0.1));
        let mut about = |value: f64| {
            let (low, high) = (
                value - dice.between(0.0, known),
                value + dice.between(0.0, known),
            );
            format!("{low:.6} m .. {high:.6} m")
        };
        let mut things = String::new();
        for (at, (x, y)) in [
            (-2.0, -2.0),
            (22.0, -2.0),
            (22.0, 42.0),
            (-2.0, 42.0),
            (10.0, 25.0),
        ]
        .iter()
        .enumerate()
        {
            let level = about(ground(*x, *y));
            things += &format!(
                "  - {{kind: ground-spot, id: s{at}, source: survey, accuracy: {off:.6} m, place: [{:.6}, {:.6}], level: {level}}}\n",
                x + off * 0.7,
                y - off * 0.7
            );
        }
        let (rim, bench, bottom, filter, drain) = (50.9, 0.4, 47.5, 50.2, 49.8);
        things += &format!(
            "  - {{kind: equipment, id: filter, source: survey, region: [[9, 4], [10, 4], [10, 5], [9, 5]], base-level: {}}}
  - {{kind: stormwater-point, id: drain, source: survey, place: [9.5, 35], level: {}}}
  - {{kind: barrier-stretch, id: f, source: survey, line: [[2, 2], [18, 2]], top: [[2, 2], [18, 2]], height-outside: {}}}
  - {{kind: foothold, id: bench, source: survey, region: [[6, 2.6], [7, 2.6], [7, 3], [6, 3]], height: {}, barrier-side: outside}}\n",
            about(filter), about(drain), about(1.2), about(bench),
        );
        let pool = format!(
            ", rim-level: {}, underside-level: {}",
            about(rim),
            about(bottom)
        );
        let corners =
            [(8.0, 10.0), (12.0, 10.0), (12.0, 18.0), (8.0, 18.0)].map(|(x, y)| ground(x, y));
        let lowest = corners.into_iter().fold(f64::INFINITY, f64::min);
        let middle = ground(10.0, 14.0);
        let climbed = climbed(u, v, bench);
        let cases = [
            (
                "ground-level: {at: pool.coping}",
                "at-least: 1 m",
                lowest,
                lowest,
            ),
            ("level: {of: pool.coping}", "at-least: 1 m", rim, rim),
            (
                "fall: {from: equipment, to: stormwater-point}",
                "at-least: 1 %",
                0.4 / 30.0,
                0.4 / 30.0,
            ),
            (
                "volume: {over: pool.shell, from: pool.underside-level, to: ground}",
                "at-least: 1 m3",
                32.0 * (middle - bottom),
                32.0 * (middle - bottom),
            ),
            (
                "uplift: {over: pool.shell, from: pool.underside-level, to: 49 m}",
                "at-least: 1 kg",
                32e3 * 1.5,
                32e3 * 1.5,
            ),
            (
                "height: {of: barrier-stretch.top, over: foothold.region, within: 0.9 m}",
                "at-least: 1 m",
                climbed - 0.002,
                climbed,
            ),
        ];
        let rules = cases.map(|(value, bound, ..)| rule(value, bound));
        let rules = rules.each_ref().map(String::as_str);
        let found = judge_all(&plan("no", &pool, &things), "", &rules);
        for ((value, _, low, high), (_, range)) in cases.into_iter().zip(found) {
            let range = range.unwrap();
            let unit = match value.split(':').next() {
                Some("volume") => 1e27,
                Some("uplift") => 1e6,
                _ => 1e9,
            };
            let found = (range.low as f64 / unit, range.high as f64 / unit);
            assert!(
                found.0 <= high + 1e-6 * high.abs() && low <= found.1 + 1e-6 * low.abs(),
                "{value}: {low}..{high} not in {found:?}\n{things}"
            );
            checked += usize::from(range.high < i128::MAX && range.low > i128::MIN);
        }
    }
    assert!(checked > 10_000, "{checked}");
}

/// The least height of a fence of 1.2 m over the ground within 0.9 m, and over a bench on it that begins 0.6 m away, on a
/// plane that rises so steeply to the east and to the north; every way from the fence to the bench is tried.
fn climbed(u: f64, v: f64, bench: f64) -> f64 {
    let steps =
        |low: f64, high: f64| (0..=60).map(move |n| low + (high - low) * f64::from(n) / 60.0);
    let over_ground = 1.2 - 0.9 * (u * u + v * v).sqrt();
    let ways = steps(0.6, 0.9).flat_map(|y| {
        let aside = (0.81 - y * y).max(0.0).sqrt();
        steps(-aside, aside).map(move |x| 1.2 - bench - u * x - v * y)
    });
    ways.fold(over_ground, f64::min)
}
