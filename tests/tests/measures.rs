//! The measures of the trade from a plan and a rule file to the outcome: worked by hand in `docs/measures`.

use crate::common::measured::{LOT, judge};
use outside_checks::read;
use rules_core::check::{Need, Outcome, check};
use rules_core::measure::Wire;
use rules_core::plan::{Form, Point};
use rules_core::quantity::Interval;

mod sound {
    use super::*;

    fn plan(accuracy: &str, first: &str, inventory: &str) -> String {
        format!(
            "{LOT}pool: {{id: pool, source: survey, water: {{rectangle: {{at: [8, 30], length: 8 m, width: 4 m}}}}}}
things:
  - {{kind: building, id: next-door, source: survey, accuracy: {accuracy}, wall: [[30,10],[40,10],[40,20],[30,20]], stands-on: neighbour-lot}}
  - {{kind: wall-opening, id: window, part-of: next-door, source: survey, accuracy: {accuracy}, line: [[30,14],[30,15]], in: neighbour-building}}
  - {{kind: equipment, id: pump, source: survey, region: [[24,14],[25,14],[25,15],[24,15]], sound-power: 60 dB, reflecting-surfaces: 0, runs: {first}}}
  - {{kind: equipment, id: heater, source: survey, region: [[19,14],[20,14],[20,15],[19,15]], sound-power: 67 dB, reflecting-surfaces: 1, runs: day-and-evening}}
inventory: {{wall-opening: all-shown{inventory}}}
"
        )
    }

    fn rule(during: &str, limit: &str) -> String {
        format!(
            "    each: {{kind: wall-opening, where: {{fact: wall-opening.in, is: neighbour-building}}}}
    require: {{sound: {{from: equipment, at: wall-opening, during: {during}}}, at-most: {limit}}}\n"
        )
    }

    /// `docs/measures/sound.md`: 38.02 dB and 42 dB together are 43.46 dB; at night the pump alone.
    #[test]
    fn two_machines_by_hand() {
        let plan = plan("0 mm", "always", ", equipment: all-shown");
        let (outcome, level) = judge(&plan, "", &rule("day", "45 dB"));
        let level = level.unwrap();
        assert_eq!(outcome, Outcome::Pass);
        assert!((level.low - 43_460_000).abs() < 5_000, "{level:?}");
        assert!(level.high - level.low < 8);
        assert_eq!(judge(&plan, "", &rule("evening", "43 dB")).0, Outcome::Fail);
        let (outcome, level) = judge(&plan, "", &rule("night", "39 dB"));
        assert_eq!(outcome, Outcome::Pass);
        assert!((level.unwrap().low - 38_020_000).abs() < 5_000);
    }

    #[test]
    fn what_nobody_knows_keeps_it_open() {
        let off = plan("0.5 m", "always", ", equipment: all-shown");
        assert_eq!(
            judge(&off, "", &rule("day", "43.5 dB")).0,
            Outcome::Marginal
        );
        let unseen = plan("0 mm", "always", "");
        assert_eq!(
            judge(&unseen, "", &rule("day", "45 dB")).0,
            Outcome::Unknown
        );
        assert_eq!(
            judge(&unseen, "", &rule("day", "43 dB")).0,
            Outcome::Fail,
            "louder still with others"
        );
        let timer = plan("0 mm", "unknown", ", equipment: all-shown");
        assert_eq!(judge(&timer, "", &rule("day", "43 dB")).0, Outcome::Unknown);
        assert_eq!(
            judge(&timer, "", &rule("day", "41 dB")).0,
            Outcome::Fail,
            "the heater alone is louder"
        );
        let silent = plan("0 mm", "day", ", equipment: all-shown");
        assert_eq!(
            judge(&silent, "", &rule("night", "0 dB")),
            (Outcome::Pass, Some(Interval::exact(0)))
        );
    }
}

mod zones {
    use super::*;

    /// The house takes the middle; the pool's lower left corner is given.
    fn plan(x: f64, y: f64, off: &str) -> String {
        format!(
            "{LOT}pool: {{id: pool, source: survey, shell: {{rectangle: {{at: [{x}, {y}], length: 4 m, width: 3 m}}}}, with-attached: {{same-as: shell}}, deck: none, excavation: none}}
things:
  - kind: building
    id: house
    source: survey
    accuracy: {off}
    wall: [[4,12],[16,12],[16,22],[4,22]]
    front-wall: [[4,12],[16,12]]
    rear-wall: [[4,22],[16,22]]
    side-wall: {{parts: [[[4,12],[4,22]], [[16,12],[16,22]]]}}
    principal-elevation: [[4,12],[16,12]]
  - {{kind: road, id: lane, source: survey, edge: [[-20,-1],[40,-1]], centreline: [[-20,-4],[40,-4]]}}
  - {{kind: road, id: cross, source: survey, edge: [[24,-20],[24,60]], centreline: [[27,-20],[27,60]]}}
inventory: {{building: all-shown, road: all-shown}}
"
        )
    }

    const YARD: &str = "terms:
  rear-yard: {between: [{kind: lot-line, where: {fact: lot-line.faces, is: rear}}, building.rear-wall]}
  side-yard: {between: [building.side-wall, lot-line]}
  front-yard: {between: [{kind: lot-line, where: {fact: lot-line.faces, is: front}}, building.front-wall]}
";

    fn area(zone: &str, limit: &str) -> String {
        format!("    require: {{area: {{of: pool.shell, in: {zone}}}, at-most: {limit}}}\n")
    }

    fn outcome(x: f64, y: f64, off: &str, zone: &str, limit: &str) -> Outcome {
        judge(&plan(x, y, off), YARD, &area(zone, limit)).0
    }

    /// New Washington OH (published definitions): the rear yard goes across the full width of the lot from the rear
    /// wall to the rear line; the side yard only from the front yard to the rear yard.
    #[test]
    fn yards_have_the_widths_that_ordinances_give_them() {
        for (x, y, front, side, rear) in [
            (8.0, 30.0, 0, 0, 1),
            (0.5, 30.0, 0, 0, 1),
            (16.0, 15.0, 0, 1, 0),
            (1.0, 2.0, 1, 0, 0),
        ] {
            for (zone, is_in) in [
                ("front-yard", front),
                ("side-yard", side),
                ("rear-yard", rear),
            ] {
                let expected = [Outcome::Pass, Outcome::Fail][is_in];
                assert_eq!(
                    outcome(x, y, "0 mm", zone, "0 m2"),
                    expected,
                    "{zone} {x} {y}"
                );
                let expected = [Outcome::Fail, Outcome::Pass][is_in];
                assert_eq!(
                    outcome(x, y, "0 mm", &format!("{{not: {zone}}}"), "0 m2"),
                    expected,
                    "not {zone} {x} {y}"
                );
            }
        }
    }

    /// 4 m by 3 m, the lower 1.2 m beside the house: 12 m2, of which 7.2 m2 behind it (`docs/measures/zones.md`).
    #[test]
    fn a_pool_across_the_line_by_hand() {
        let reading = judge(&plan(8.0, 20.8, "0 mm"), YARD, &area("rear-yard", "7 m2"));
        let range = reading.1.unwrap();
        assert_eq!(reading.0, Outcome::Fail);
        // What is cut is told to 10 mm².
        assert!((-1.001e-5..=0.0).contains(&(range.low as f64 / 1e18 - 7.2)));
        assert!((0.0..1e-5).contains(&(range.high as f64 / 1e18 - 7.2)));
        // 100 mm off at both ends of the wall, and the pool not past its ends: the line is off by as much.
        let range = judge(&plan(8.0, 20.8, "100 mm"), YARD, &area("rear-yard", "7 m2"))
            .1
            .unwrap();
        assert!((range.low as f64 / 1e18 - 6.8).abs() < 0.01, "{range:?}");
        assert!((range.high as f64 / 1e18 - 7.6).abs() < 0.01, "{range:?}");
    }

    #[test]
    fn the_doubt_grows_beyond_the_wall() {
        // 150 mm behind the line of the wall, and 4 m past the end of its 12 m: 100 mm become 167 mm.
        assert_eq!(
            outcome(8.0, 22.15, "100 mm", "{not: rear-yard}", "0 m2"),
            Outcome::Pass
        );
        assert_eq!(
            outcome(16.0, 22.15, "100 mm", "{not: rear-yard}", "0 m2"),
            Outcome::Marginal
        );
        assert_eq!(
            outcome(16.0, 22.17, "100 mm", "{not: rear-yard}", "0 m2"),
            Outcome::Pass
        );
    }

    /// UK Class E: no part forward of the principal elevation.
    #[test]
    fn forward_of_the_principal_elevation() {
        assert_eq!(
            outcome(
                8.0,
                5.0,
                "0 mm",
                "{between: [road.edge, building.principal-elevation]}",
                "0 m2"
            ),
            Outcome::Fail
        );
        assert_eq!(
            outcome(
                8.0,
                25.0,
                "0 mm",
                "{between: [road.edge, building.principal-elevation]}",
                "0 m2"
            ),
            Outcome::Pass
        );
    }

    #[test]
    fn a_thing_is_in_a_corner_or_not() {
        let count = |x: f64, y: f64, legs: &str| {
            let rule = format!(
                "    require: {{count: {{kind: pool, in: {{corner: {{of: [road.centreline, road.centreline], legs: {legs}}}}}}}, is: 0}}\n"
            );
            judge(&plan(x, y, "0 mm"), "", &rule).0
        };
        // The corner lies at (27, -4); the pool's nearest corner at (20, 2) is 7 m and 6 m from the two centrelines.
        assert_eq!(count(16.0, 2.0, "12.9 m"), Outcome::Pass);
        assert_eq!(count(16.0, 2.0, "13.1 m"), Outcome::Fail);
    }
}

mod along {
    use super::*;

    /// A loop traverse of four courses as published: latitudes and departures to a thousandth of a foot, lengths to a
    /// hundredth, together 1347.57 ft. It fails to close by 0.11 ft, so it is drawn as a line.
    /// Source: J. Mahun, Open Access Surveying Library, Traverse Computations, chapter I,
    /// https://jerrymahun.com/index.php/home/open-access/17-trav-comps/49-travcomps-chap-i?start=3
    #[test]
    fn a_published_traverse_has_its_length() {
        // Each course: latitude, departure, length, in thousandths of a foot.
        let courses = [
            (-176_357, -438_548, 472_680),
            (203_395, -73_093, 216_130),
            (192_357, 198_651, 276_520),
            (-219_312, 313_065, 382_240),
        ];
        let feet = |thousandths: i64| {
            let size = thousandths.abs();
            let sign = if thousandths < 0 { "-" } else { "" };
            format!("{sign}{}.{:03} ft", size / 1000, size % 1000)
        };
        let (mut north, mut east) = (0, 0);
        let mut line = vec!["[0, 0]".to_owned()];
        for (latitude, departure, _) in courses {
            (north, east) = (north + latitude, east + departure);
            line.push(format!("[{}, {}]", feet(east), feet(north)));
        }
        assert_eq!((north, east), (83, 75), "the published errors of closure");
        let plan = format!(
            "{LOT}pool: {{id: pool, source: survey, water: {{circle: {{at: [8, 30], radius: 2 m}}}}}}
things:
  - {{kind: barrier-stretch, id: traverse, source: survey, line: [{}]}}
inventory: {{barrier-stretch: all-shown}}
",
            line.join(", ")
        );
        let rule = |limit: &str| {
            format!("    require: {{length: {{of: barrier-stretch.line}}, at-most: {limit}}}\n")
        };
        let (outcome, length) = judge(&plan, "", &rule("1347.59 ft"));
        let length = length.unwrap();
        let total: i64 = courses.iter().map(|(_, _, length)| length).sum();
        assert_eq!((outcome, total), (Outcome::Pass, 1_347_570));
        // Four lengths rounded to a hundredth of a foot, and their ends to a thousandth.
        let off = length.low - i128::from(total) * 304_800;
        assert!(off.abs() < 24 * 304_800, "{length:?}");
        assert!(length.high - length.low < 8, "{length:?}");
        assert_eq!(judge(&plan, "", &rule("1347.54 ft")).0, Outcome::Fail);
    }

    /// A simple curve: degree of curve 15°, intersection angle 45°, so a long chord of 292.34 ft, a middle ordinate of
    /// 29.08 ft, and the point of intersection 31.47 ft from the curve (the external distance).
    /// Source: US Army FM 5-233, Construction Surveying (1985), chapter 3, from memory. By its formulas R = 5729.58 / 15,
    /// E = R (sec 22.5° − 1).
    #[test]
    fn a_published_curve_has_its_external_distance() {
        let plan = format!(
            "{LOT}pool: {{id: pool, source: survey, water: {{curved: [[292.34 ft, 0 ft], {{out: 29.08 ft}}, [0 ft, 0 ft], [146.17 ft, -50 ft]]}}}}
things:
  - {{kind: well, id: intersection, source: survey, casing: [146.17 ft, 60.55 ft]}}
inventory: {{well: all-shown}}
"
        );
        let rule = |limit: &str| {
            format!(
                "    require: {{distance: {{from: pool.water, to: well.casing}}, at-least: {limit}}}\n"
            )
        };
        let (outcome, external) = judge(&plan, "", &rule("31.46 ft"));
        let external = external.unwrap();
        assert_eq!(outcome, Outcome::Pass);
        let off = external.low - 31_470 * 304_800;
        assert!(off.abs() < 10 * 304_800, "{external:?}");
        assert!(external.high - external.low < 2, "{external:?}");
        assert_eq!(judge(&plan, "", &rule("31.48 ft")).0, Outcome::Fail);
    }
}

/// Where lines lie on both sides of another, nobody can say what "between" them is, whichever is written first.
#[test]
fn between_lines_on_both_sides_is_no_place() {
    let outcome = |fences: &[i64]| {
        let fences = fences.iter().map(|y| {
            format!(
                "  - {{kind: barrier-stretch, id: fence-{y}, source: survey, line: [[0, {y}], [20, {y}]]}}\n"
            )
        });
        let plan = format!(
            "{LOT}pool: {{id: pool, source: survey, water: {{rectangle: {{at: [8, 22], length: 4 m, width: 6 m}}}}}}
things:
  - {{kind: retaining-wall, id: wall, source: survey, line: [[0, 20], [20, 20]]}}
{}inventory: {{retaining-wall: all-shown, barrier-stretch: all-shown}}\n",
            fences.collect::<String>()
        );
        let rule = "    require: {area: {of: pool.water, in: {between: [retaining-wall.line, barrier-stretch.line]}}, at-most: 0 m2}\n";
        judge(&plan, "", rule).0
    };
    assert_eq!(outcome(&[30]), Outcome::Fail, "the pool lies between");
    assert_eq!(outcome(&[10]), Outcome::Pass, "it lies on the other side");
    assert_eq!(outcome(&[10, 30]), Outcome::Unknown);
    assert_eq!(outcome(&[30, 10]), Outcome::Unknown);
}

/// A tape counts whichever of its ends is written first, and whichever a rule begins at.
#[test]
fn a_tape_is_read_both_ways() {
    let ends = ["pool.water", "well.casing"];
    for [from, to] in [[0, 1], [1, 0]] {
        let (tape_from, tape_to) = (
            ["pool.water", "w.casing"][from],
            ["pool.water", "w.casing"][to],
        );
        let plan = format!(
            "{}pool: {{id: pool, source: survey, water: {{rectangle: {{at: [8, 22], length: 4 m, width: 6 m}}}}}}
things:
  - {{kind: well, id: w, source: survey, casing: [10, 15]}}
measured:
  - {{from: {tape_from}, to: {tape_to}, is: 7 m ± 10 mm}}\ninventory: {{well: all-shown}}\n",
            LOT.replace("accuracy: 0 mm", "accuracy: 1 m")
        );
        for [from, to] in [[0, 1], [1, 0]] {
            let rule = format!(
                "    require: {{distance: {{from: {}, to: {}}}, at-least: 6.9 m}}\n",
                ends[from], ends[to]
            );
            assert_eq!(
                judge(&plan, "", &rule).0,
                Outcome::Pass,
                "{tape_from}, {from}"
            );
        }
    }
}

/// Supports of 10 m and 6 m, 40 m apart, a sag of 2 m: 10 − 12 t + 8 t² metres at the share t, so lowest at three quarters,
/// 5.5 m.
#[test]
fn a_wire_between_uneven_supports_is_lowest_beside_the_middle() {
    let exactly = |metres: i128| Interval::exact(metres * 1_000_000_000);
    let at = |x: i64| Point {
        x: x * 1_000_000_000,
        y: 0,
    };
    let span = Form::Path(vec![at(0), at(40)]);
    let wire = Wire::hung(&span, [exactly(10), exactly(6)], exactly(2), 0).expect("it hangs");
    for (from, to) in [(0.0, 1.0), (0.6, 0.9)] {
        let low = wire.between(from, to).low as f64 / 1e9;
        assert!(5.4 < low && low <= 5.5, "{low}");
    }
}

/// A paper that only a relief asks for is needed where the rule alone surely falls short and the relief is surely open.
#[test]
fn a_reliefs_paper_is_needed_no_surer_than_the_rule_falls_short() {
    let rules = read::rules(
        "ruleset: eldermere\ntitle: Eldermere\nedition: \"1\"\nauthority: Eldermere building office
documents: [{id: consent, title: Consent}]
rules:
  - id: depth
    title: Depth
    clause: s. 1
    require: {fact: pool.depth, at-most: 1 m}
    relief:
      - {id: with-consent, when: {fact: lot.level-ground, is: yes}, require: {have: consent}}\n",
    );
    let need = |depth: &str, level: &str| {
        let lot = LOT.replace("lot:\n", &format!("lot:\n{level}"));
        let text = format!(
            "{lot}pool: {{id: pool, source: survey, depth: {depth}, water: {{rectangle: {{at: [8, 22], length: 4 m, width: 6 m}}}}}}\n"
        );
        let plan = read::plan(&text, &rules);
        check(&plan, &rules).expect("not too much work").documents[0].need
    };
    let level = "  level-ground: yes\n";
    assert_eq!(need("1.1 m", level), Need::Needed);
    assert_eq!(need("0.9 m .. 1.1 m", level), Need::Perhaps);
    assert_eq!(need("0.9 m", level), Need::NotNeeded);
    assert_eq!(
        need("1.1 m", ""),
        Need::Perhaps,
        "the relief is perhaps open"
    );
}

mod part_in_a_zone {
    use super::*;

    /// From the water to what of the pump lies in the strips.
    fn far(strips: &str, water: &str) -> Interval {
        let plan = format!(
            "{LOT}pool: {{id: pool, source: survey, water: {water}}}
things:
{strips}  - {{kind: equipment, id: pump, source: survey, region: [[12,15],[14,15],[14,17],[12,17]]}}
inventory: {{equipment: all-shown, easement: all-shown}}
"
        );
        let rule = "    require: {distance: {from: pool.water, to: {kind: equipment, outline: region, in: easement.region}}, at-most: 5 m}\n";
        judge(&plan, "", rule).1.expect("a distance")
    }

    fn strip(id: &str, region: &str) -> String {
        format!("  - {{kind: easement, id: {id}, source: survey, region: {region}}}\n")
    }

    /// A slanting strip cuts the pump, but not its corner at (12, 15), which stands in the water: the distance is nothing,
    /// however the cut was rounded.
    #[test]
    fn a_corner_that_no_cut_touched_is_exact() {
        let strip = strip("slanting", "[[12,13],[17.4,20.2],[10.2,25.6],[4.8,18.4]]");
        let water = "[[9,14],[13,14],[13,17],[9,17]]";
        assert_eq!(far(&strip, water), Interval::exact(0));
    }

    /// The corner at (12, 15) only touches the second strip: from the water's edge at 9 m it is 4.5 m to the part in the first.
    #[test]
    fn a_corner_that_touches_a_zone_is_not_in_it() {
        let strips = strip("east", "[[13.5,14],[16,14],[16,18],[13.5,18]]")
            + &strip("west", "[[10,13],[12,13],[12,15],[10,15]]");
        let far = far(&strips, "[[5,14],[9,14],[9,17],[5,17]]");
        assert!(far.high >= 4_500_000_000, "{far:?}");
    }
}
