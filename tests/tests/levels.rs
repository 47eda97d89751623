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

mod wires {
    use super::*;

    const RULE: &str = "    require:
      distance: {from: pool.water, to: overhead-line.conductor, measured: in-space}
      at-least: 6.9 m\n";

    fn wire(facts: &str) -> String {
        format!(
            "  - {{kind: overhead-line, id: w, source: survey, conductor: [[-10, 14], [30, 14]], {facts}}}\n"
        )
    }

    /// 8 m supports 40 m apart, 1 m of sag, straight over the pool: 7 m, less what the rim stands above the ground.
    #[test]
    fn a_pool_that_stands_higher_is_nearer() {
        let hung = wire("height-at-start: 8 m, height-at-end: 8 m, sag: 1 m");
        let at = |rim: &str| judge(&plan("yes", rim, &hung), "", RULE);
        let (outcome, range) = at(", height-above-ground: 0 m");
        assert_eq!(outcome, Outcome::Pass);
        let (low, high) = metres(range.unwrap());
        assert!(
            low > 6.99 && low <= 7.0 && (7.0..7.01).contains(&high),
            "{low} {high}"
        );
        assert_eq!(at(", height-above-ground: 0.2 m").0, Outcome::Fail);
        // Nobody said how high it stands, or whether the ground is level: no pass.
        assert_eq!(at("").0, Outcome::Unknown);
        let unsaid = plan("unknown", ", height-above-ground: 0 m", &hung);
        assert_eq!(judge(&unsaid, "", RULE).0, Outcome::Unknown);
        let level = wire("height: 7 m");
        let level = judge(&plan("yes", ", height-above-ground: 0 m", &level), "", RULE);
        near(level.1, 7.0, 7.0);
        let slack = wire("height-at-start: 8 m, height-at-end: 8 m, sag: 0.5 m .. 1.5 m");
        assert_eq!(
            judge(&plan("yes", ", height-above-ground: 0 m", &slack), "", RULE).0,
            Outcome::Unknown
        );
    }

    /// A diving board 1 m above a rim of 0.5 m, under a level wire at 7 m: 5.5 m; a deck 0.6 m up: 6.4 m.
    #[test]
    fn boards_and_decks_reach_up_to_it() {
        let things = wire("height: 7 m")
            + "  - {kind: diving-structure, id: board, source: survey, region: [[9, 12], [10, 12], [10, 16], [9, 16]], height: 1 m}\n  - {kind: deck, id: deck, source: survey, region: [[12, 10], [15, 10], [15, 18], [12, 18]], height: 0.6 m}\n";
        let plan = plan("yes", ", height-above-ground: 0.5 m", &things);
        let from = |outline: &str| {
            let rule = RULE.replace("pool.water", outline);
            judge(&plan, "", &rule).1
        };
        near(from("diving-structure.region"), 5.5, 5.5);
        near(from("deck.region"), 6.4, 6.4);
    }

    /// Spots on ground that rises 1 m in 20 m to the east tell what `level-ground` cannot.
    #[test]
    fn levels_tell_what_is_not_level() {
        let spots = "  - {kind: ground-spot, id: a, source: survey, place: [0, 0], level: 50 m}
  - {kind: ground-spot, id: b, source: survey, place: [20, 0], level: 51 m}
  - {kind: ground-spot, id: c, source: survey, place: [20, 40], level: 51 m}
  - {kind: ground-spot, id: d, source: survey, place: [0, 40], level: 50 m}\n";
        let line = "  - {kind: overhead-line, id: w, source: survey, conductor: [[1, 14], [19, 14]], height: 8 m}\n";
        let text = plan(
            "no",
            ", height-above-ground: 0 m",
            &format!("{spots}{line}"),
        );
        let (outcome, range) = judge(&text, "", RULE);
        assert_eq!(outcome, Outcome::Pass);
        near(range, 7.0, 9.0);
        let bare = plan("no", ", height-above-ground: 0 m", line);
        near(
            judge(&bare, "", &RULE.replace("6.9", "0"))
                .1
                .map(|range| Interval::exact(range.low)),
            0.0,
            0.0,
        );
    }

    /// A crane whose boom sweeps 8 m, 12 m high, beside a wire at 9 m: the wire is 2 m away on the level.
    #[test]
    fn a_crane_beside_a_wire() {
        let things = wire("height: 9 m")
            + "  - {kind: lifting-machine, id: crane, source: survey, sweep: {circle: {at: [10, 24], radius: 8 m}}, tip-height: 12 m}\n";
        let rule = RULE
            .replace("pool.water", "lifting-machine.sweep")
            .replace("6.9 m", "3 m");
        let (outcome, range) = judge(&plan("yes", "", &things), "", &rule);
        assert_eq!(outcome, Outcome::Fail);
        near(range, 2.0, 2.0);
    }

    /// The world first: a level or hanging wire (its parabola), a pool at a rim, then a plan that knows less.
    #[test]
    fn the_truth_stays_inside() {
        let mut dice = Dice::new(7);
        let mut decided = 0;
        for _ in 0..2_000 {
            let (one, other) = (dice.between(5.0, 12.0), dice.between(5.0, 12.0));
            let sag = dice.between(0.0, 1.5);
            let (rim, x) = (dice.between(0.0, 1.5), dice.between(-4.0, 12.0));
            let y = dice.between(2.0, 26.0);
            let mut least = f64::INFINITY;
            for step in 0..=2_000 {
                let t = f64::from(step) / 2_000.0;
                let (px, height) = (
                    -10.0 + 40.0 * t,
                    one * (1.0 - t) + other * t - 4.0 * sag * t * (1.0 - t),
                );
                let dx = (x - px).max(px - x - 4.0).max(0.0);
                let dy = (y - 14.0_f64).max(14.0 - y - 8.0).max(0.0);
                let dz = height - rim;
                least = least.min((dx * dx + dy * dy + dz * dz).sqrt());
            }
            let off = dice.between(0.0, 0.3);
            let mut about = |value: f64, by: f64| {
                let (low, high) = (value - dice.between(0.0, by), value + dice.between(0.0, by));
                format!("{:.6} m .. {:.6} m", low.max(0.0), high)
            };
            let line = format!(
                "  - {{kind: overhead-line, id: w, source: survey, accuracy: {off:.6} m, conductor: [[{:.6}, {:.6}], [{:.6}, {:.6}]], height-at-start: {}, height-at-end: {}, sag: {}}}\n",
                -10.0 + off * 0.6,
                14.0 - off * 0.6,
                30.0 - off * 0.6,
                14.0 + off * 0.7,
                about(one, 0.2),
                about(other, 0.2),
                about(sag, 0.1),
            );
            let text = plan(
                "yes",
                &format!(", height-above-ground: {}", about(rim, 0.1)),
                &line,
            )
            .replace("at: [8, 10]", &format!("at: [{x:.6}, {y:.6}]"));
            let limit = (least * 100.0).round() / 100.0 + dice.between(-1.0, 1.0);
            let rule = RULE.replace("6.9 m", &format!("{limit:.3} m"));
            let (outcome, range) = judge(&text, "", &rule);
            let (low, high) = metres(range.unwrap());
            assert!(
                low <= least + 1e-4 && least <= high + 2e-3,
                "{least} in {low}..{high}\n{text}"
            );
            match outcome {
                Outcome::Pass => assert!(least >= limit - 0.002, "{least} {limit}"),
                Outcome::Fail => assert!(least < limit + 0.002, "{least} {limit}"),
                _ => {}
            }
            decided += usize::from(matches!(outcome, Outcome::Pass | Outcome::Fail));
        }
        assert!(decided > 800, "{decided}");
    }
}

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

/// On spots that all lie at 50 m, each measure is exact: `docs/measures/levels.md`.
mod by_hand {
    use super::*;

    const RAISED: &str = "  - {kind: raised-ground, id: mound, source: survey, region: [[2, 20], [6, 20], [6, 25], [2, 25]], top-level: 50.6 m}\n";

    fn level(things: &str, pool: &str, value: &str, bound: &str) -> Outcome {
        measured(pool, &(spots(0.0) + things), value, bound).0
    }

    #[test]
    fn levels_of_ground_and_things() {
        let ground = |bound| level("", "", "ground-level: {at: pool.coping}", bound);
        assert_eq!(ground("at-least: 50 m"), Outcome::Pass);
        assert_eq!(ground("more-than: 50 m"), Outcome::Fail);
        let rim = |bound| {
            level(
                "",
                ", height-above-ground: 0.3 m",
                "level: {of: pool.coping}",
                bound,
            )
        };
        assert_eq!(rim("at-least: 50.3 m"), Outcome::Pass);
        assert_eq!(rim("at-least: 50.301 m"), Outcome::Fail);
        // A level that is stated counts before the height.
        let stated = level(
            "",
            ", rim-level: 50.5 m",
            "level: {of: pool.coping}",
            "at-least: 50.5 m",
        );
        assert_eq!(stated, Outcome::Pass);
        let over = "difference: [{level: {of: pool.coping}}, {ground-level: {at: pool.coping}}]";
        assert_eq!(
            level("", ", rim-level: 50.5 m", over, "at-most: 0.5 m"),
            Outcome::Pass
        );
        let unknown = measured("", "", "ground-level: {at: pool.coping}", "at-least: 50 m");
        assert_eq!(unknown.0, Outcome::Unknown);
    }

    /// The ground of 1 m in 20 m under a pool from x = 8 to 12 m: from 50 to 51 m is all that the spots tell.
    #[test]
    fn a_slope_is_told_between_its_spots() {
        let found = measured(
            "",
            &spots(1.0),
            "ground-level: {at: pool.coping}",
            "at-least: 50 m",
        );
        assert_eq!(found.0, Outcome::Pass);
        near(found.1, 50.0, 51.0);
    }

    /// Filter water to a stormwater point 30 m away, 0.3 m lower: 1 in 100 (30 m: common practice, no source).
    #[test]
    fn the_run_to_a_stormwater_point() {
        let things = "  - {kind: equipment, id: filter, source: survey, region: [[9, 4], [10, 4], [10, 5], [9, 5]], base-level: 50.2 m}
  - {kind: stormwater-point, id: drain, source: survey, place: [9.5, 35], level: 49.9 m}\n";
        let run = "distance: {from: equipment.region, to: stormwater-point.place}";
        assert_eq!(level(things, "", run, "at-most: 30 m"), Outcome::Pass);
        assert_eq!(level(things, "", run, "at-most: 29.999 m"), Outcome::Fail);
        let fall = "fall: {from: equipment.region, to: stormwater-point.place}";
        assert_eq!(level(things, "", fall, "at-least: 1 %"), Outcome::Pass);
        assert_eq!(level(things, "", fall, "at-least: 1.001 %"), Outcome::Fail);
        let longer = "fall: {from: equipment.region, to: stormwater-point.place, run: 40 m}";
        assert_eq!(level(things, "", longer, "at-least: 0.75 %"), Outcome::Pass);
        assert_eq!(
            level(things, "", longer, "at-least: 0.751 %"),
            Outcome::Fail
        );
    }

    /// What may lie above the ground or below it has no level but the one that is stated: a drain's mouth, a plinth, a flood.
    #[test]
    fn known_ground_does_not_tell_every_level() {
        let point = |stated: &str| {
            format!(
                "  - {{kind: stormwater-point, id: drain, source: survey, place: [9.5, 35]{stated}}}\n"
            )
        };
        let fall = "fall: {from: pool.coping, to: stormwater-point.place}";
        let of_rim = |stated: &str| {
            let things = point(stated);
            level(&things, ", rim-level: 50.3 m", fall, "at-least: 1 %")
        };
        assert_eq!(of_rim(", level: 50 m"), Outcome::Pass); // 0.3 m over 17 m
        assert_eq!(of_rim(", level: 50.2 m"), Outcome::Fail); // 0.1 m over 17 m
        assert_eq!(of_rim(""), Outcome::Unknown);
        assert_eq!(of_rim(", level: unknown"), Outcome::Unknown);
        for (kind, drawn) in [
            ("equipment", "region"),
            ("septic-part", "region"),
            ("flood-area", "region"),
            ("shoreline", "line"),
        ] {
            let thing = format!(
                "  - {{kind: {kind}, id: it, source: survey, {drawn}: [[9, 4], [10, 4], [10, 5]]}}\n"
            );
            let value = format!("level: {{of: {kind}.{drawn}}}");
            assert_eq!(
                level(&thing, "", &value, "at-most: 50 m"),
                Outcome::Unknown,
                "{kind}"
            );
        }
    }

    /// 32 m2 of pool dug from 50 m down to 48.2 m: 57.6 m3; 20 m2 raised by 0.6 m: 12 m3.
    #[test]
    fn cut_fill_and_spoil() {
        let cut = "volume: {over: pool.shell, from: 48.2 m, to: ground}";
        assert_eq!(level("", "", cut, "at-most: 57.6001 m3"), Outcome::Pass);
        assert_eq!(level("", "", cut, "at-most: 57.599 m3"), Outcome::Fail);
        let fill = "volume: {over: raised-ground.region, from: ground, to: 50.6 m}";
        assert_eq!(
            level(RAISED, "", fill, "at-least: 11.9999 m3"),
            Outcome::Pass
        );
        assert_eq!(
            level(RAISED, "", fill, "at-least: 12.001 m3"),
            Outcome::Fail
        );
        let spoil = format!("difference: [{{{cut}}}, {{{fill}}}]");
        assert_eq!(
            level(RAISED, "", &spoil, "at-most: 45.601 m3"),
            Outcome::Pass
        );
        assert_eq!(
            level(RAISED, "", &spoil, "at-most: 45.599 m3"),
            Outcome::Fail
        );
    }

    /// A flood at 50.4 m takes 20 m2 raised from 50 to 50.6 m: 8 m3 of it; a rim at 50.9 m stands 0.5 m over it.
    #[test]
    fn flood_storage_and_freeboard() {
        let flood = "  - {kind: flood-area, id: brook, source: survey, region: [[0, 0], [20, 0], [20, 40], [0, 40]], level: 50.4 m, zone: AE}\n";
        let things = format!("{flood}{RAISED}");
        let taken = "volume: {over: raised-ground.region, in: flood-area.region, from: ground, to: {smallest-of: [{level: {of: raised-ground}}, {level: {of: flood-area.region}}]}}";
        assert_eq!(
            level(&things, "", taken, "at-most: 8.001 m3"),
            Outcome::Pass
        );
        assert_eq!(
            level(&things, "", taken, "at-most: 7.999 m3"),
            Outcome::Fail
        );
        let over = "difference: [{level: {of: pool.water}}, {level: {of: flood-area.region}}]";
        assert_eq!(
            level(&things, ", rim-level: 50.9 m", over, "at-least: 0.5 m"),
            Outcome::Pass
        );
        assert_eq!(
            level(&things, ", rim-level: 50.899 m", over, "at-least: 0.5 m"),
            Outcome::Fail
        );
        // A mound across the path, higher than the ground at the lot line: water goes over the line.
        let path =
            "  - {kind: drainage-path, id: swale, source: survey, line: [[4, 40], [4, 0]]}\n";
        let blocked = "distance: {from: raised-ground.region, to: drainage-path.line}";
        assert_eq!(
            level(&format!("{RAISED}{path}"), "", blocked, "more-than: 0 m"),
            Outcome::Fail
        );
    }

    /// 32 m2 of shell that stands 1.2 m in groundwater: 38.4 t of water, of 1000 kg/m3 (Archimedes' principle).
    #[test]
    fn an_empty_shell_in_groundwater() {
        let uplift = |mass: &str| {
            let pool = format!(", underside-level: 48 m, shell-mass: {mass}");
            let lot = LOT.replace("lot:\n", "lot:\n  groundwater-level: 49.2 m\n");
            let text = plan("no", &pool, &spots(0.0))
                .replace(&LOT.replace("lot:\n", "lot:\n  level-ground: no\n"), &lot);
            let rule = "    require: {fact: pool.shell-mass, at-least: {uplift: {over: pool.shell, from: pool.underside-level, to: lot.groundwater-level}}}\n";
            judge(&text, "", rule).0
        };
        assert_eq!(uplift("38.401 t"), Outcome::Pass);
        assert_eq!(uplift("38399 kg"), Outcome::Fail);
        assert_eq!(uplift("unknown"), Outcome::Unknown);
    }

    /// A fence of 1.2 m, a bench of 0.5 m beside it, 0.6 m away: 0.7 m to climb within 0.9 m, 1.2 m within 0.5 m.
    #[test]
    fn what_stands_beside_a_fence_makes_it_lower() {
        let things = "  - {kind: barrier-stretch, id: f, source: survey, line: [[2, 2], [18, 2]], top: [[2, 2], [18, 2]], height-outside: 1.2 m}
  - {kind: foothold, id: bench, source: survey, region: [[6, 2.6], [7, 2.6], [7, 3], [6, 3]], height: 0.5 m, barrier-side: outside}\n";
        let over = |within: &str| {
            format!("height: {{of: barrier-stretch.top, over: foothold.region, within: {within}}}")
        };
        assert_eq!(
            level(things, "", &over("0.9 m"), "at-least: 0.7 m"),
            Outcome::Pass
        );
        assert_eq!(
            level(things, "", &over("0.9 m"), "at-least: 0.701 m"),
            Outcome::Fail
        );
        assert_eq!(
            level(things, "", &over("0.5 m"), "at-least: 1.2 m"),
            Outcome::Pass
        );
        // Where the ground beside it may be higher by 1 m nobody knows what is left.
        let found = measured(
            "",
            &(spots(1.0) + things),
            &over("0.5 m"),
            "at-least: 1.2 m",
        );
        assert_eq!(found.0, Outcome::Unknown);
    }

    /// Contours at every 0.5 m: a pool whose nearest is that of 50 m lies between 49.5 and 50.5 m.
    #[test]
    fn contours_tell_within_their_interval() {
        let contour = |id: &str, x: u32, level: f64| {
            format!(
                "  - {{kind: contour, id: {id}, source: survey, line: [[{x}, -50], [{x}, 90]], level: {level} m, interval: 0.5 m}}\n"
            )
        };
        let things = contour("low", 10, 50.0) + &contour("high", 40, 50.5);
        let found = measured(
            "",
            &things,
            "ground-level: {at: pool.coping}",
            "at-least: 49.5 m",
        );
        assert_eq!(found.0, Outcome::Pass);
        near(found.1, 49.5, 50.5);
    }
}

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
