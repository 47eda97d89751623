//! The widest gap as rules judge it: what is sure, what is only perhaps there, and what nobody has looked for.

use outside_checks::read;
use rules_core::check::{Outcome, check};
use rules_core::report::{Texts, report};
use rules_core::ruleset::RuleSet;

const RULES: &str = r#"
ruleset: eldermere
title: Eldermere, barriers
edition: "2026-01"
authority: Eldermere building office
notice: An invented text for tests.
terms:
  sound-stretch: {kind: barrier-stretch, where: {fact: barrier-stretch.height-outside, at-least: 1200 mm}}
rules:
  - id: all-round
    title: The barrier closes all the way round
    clause: Bylaw 12, s. 9
    require:
      enclosure: {of: pool.water, from: [street, neighbour-lot], made-of: sound-stretch}
      less-than: 100 mm
  - id: from-the-house
    title: A barrier between the house and the pool
    clause: Bylaw 12, s. 10
    require:
      enclosure: {of: pool.water, from: [dwelling], made-of: sound-stretch}
      less-than: 100 mm
  - id: by-the-house
    title: The barrier, of which the house is a part, closes all the way round
    clause: Bylaw 12, s. 11
    require:
      enclosure: {of: pool.water, from: [street, dwelling], made-of: [sound-stretch, building.wall]}
      less-than: 100 mm
  - id: near-the-well
    title: Only the fence near the well is barrier
    clause: Bylaw 12, s. 12
    require:
      enclosure: {of: pool.water, from: [street], made-of: {kind: barrier-stretch, in: {around: well.casing, by: 5 m}}}
      less-than: 100 mm
"#;

/// A yard of 8 m by 6 m around a pool, fenced on all sides; the last side ends as told.
fn outcomes(
    end: &str,
    height: &str,
    more: &str,
    inventory: &str,
    accuracy: &str,
) -> (Outcome, Outcome) {
    let text = yard(end, (height, more), inventory, accuracy, "");
    let rules = rules();
    let plan = read::plan(&text, &rules);
    let found = check(&plan, &rules).expect("not too much work");
    (found.rules[0].outcome, found.rules[1].outcome)
}

pub(super) fn rules() -> RuleSet {
    read::rules(RULES)
}

const LOT: &str =
    "source: survey, corners: {a: [-20, -20], b: [20, -20], c: [20, 20], d: [-20, 20]}";

fn yard(
    end: &str,
    (height, more): (&str, &str),
    inventory: &str,
    accuracy: &str,
    lot: &str,
) -> String {
    let lot = if lot.is_empty() { LOT } else { lot };
    format!(
        r#"
plan: yard
title: A fenced yard
unit: m
sources:
  - {{id: survey, by: survey, accuracy: {accuracy}, shift: 0 mm}}
  - {{id: map, by: map, accuracy: 0 mm, shift: 1 m}}
  - {{id: fence, by: fence}}
lot: {{{lot}}}
pool: {{id: pool, source: survey, water: [[-2, -1.5], [2, -1.5], [2, 1.5], [-2, 1.5]]}}
things:
  - {{kind: barrier-stretch, id: three-sides, source: survey, height-outside: 1.5 m, line: [[-4, -3], [4, -3], [4, 3], [-4, 3]]}}
  - {{kind: barrier-stretch, id: last, source: survey, height-outside: {height}, line: [[-4, 3], {end}]}}
{more}
inventory: {{barrier-stretch: {inventory}, barrier-opening: none, gate: all-shown, wall-opening: all-shown, building: all-shown}}
"#
    )
}

/// What is said of where the widest gap is, of either rule.
fn where_it_is(end: &str, more: &str) -> [String; 2] {
    let text = yard(end, ("1.5 m", more), "all-shown", "0 mm", "");
    let rules = rules();
    let plan = read::plan(&text, &rules);
    let found = check(&plan, &rules).expect("not too much work");
    let written = report(&found, &plan, &rules, &Texts::default());
    [0, 1].map(|rule| {
        let reading = written.rules[rule]
            .parts
            .first()
            .and_then(|part| part.readings.first());
        let witness = reading.and_then(|reading| reading.witness.as_ref());
        witness.map_or(String::new(), |witness| witness.text.clone())
    })
}

#[test]
fn what_stands_in_the_gap_is_named() {
    let gate = "  - {kind: gate, id: side-gate, source: survey, line: [[-4, -2.05], [-4, -2.95]]}";
    let [through, _] = where_it_is("[-4, -2]", gate);
    assert!(
        through.contains("At or beside this gap: the gate `side-gate`."),
        "{through}"
    );
    assert!(
        through.contains("(-4, -2)") && through.contains("(-4, -3)"),
        "{through}"
    );
    let [open, _] = where_it_is("[-4, -2]", "");
    assert!(
        open.ends_with("No gate, door or window is drawn there."),
        "{open}"
    );
    let house = "  - {kind: building, id: house, source: survey, use: dwelling, wall: [[4, -3], [9, -3], [9, 3], [4, 3]]}\n  - {kind: wall-opening, id: back-door, part-of: house, source: survey, type: door, line: [[4, -0.5], [4, 0.5]]}";
    let [_, door] = where_it_is("[-4, -3]", house);
    assert!(door.contains("`back-door`"), "{door}");
}

/// What lies beyond the lot begins a metre behind its line: a fence there is not between, if the line may be elsewhere.
#[test]
fn the_line_behind_which_people_stand_may_be_off() {
    // The fence runs 1.5 m outside of the lot all round.
    let outcome = |lot: &str| {
        let text = yard("[-4, -3]", ("1.5 m", ""), "all-shown", "0 mm", lot);
        let rules = rules();
        let plan = read::plan(&text, &rules);
        check(&plan, &rules).expect("not too much work").rules[0].outcome
    };
    let lot = |by: &str, x: &str, y: &str| {
        let side = |id: &str, to: &str| {
            format!("{{id: side-{id}, from: {id}, to: {to}, beyond: neighbour-lot}}")
        };
        let sides =
            [("a", "b"), ("b", "c"), ("c", "d"), ("d", "a")].map(|(from, to)| side(from, to));
        format!(
            "{by}, corners: {{a: [-{x}, -{y}], b: [{x}, -{y}], c: [{x}, {y}], d: [-{x}, {y}]}}, sides: [{}]",
            sides.join(", ")
        )
    };
    assert_eq!(
        outcome(&lot("source: survey", "3.8", "2.8")),
        Outcome::Pass,
        "0.8 m behind the fence"
    );
    assert_eq!(
        outcome(&lot("source: survey", "2.2", "1.7")),
        Outcome::Fail,
        "before the fence"
    );
    assert_eq!(
        outcome(&lot("source: map", "3.8", "2.8")),
        Outcome::Marginal,
        "the map may be off by a metre as a whole"
    );
    assert_eq!(
        outcome(&lot("source: fence", "3.8", "2.8")),
        Outcome::Marginal,
        "nobody knows by how much"
    );
}

/// A lot whose four sides are `far` from the middle of the pool, a neighbour behind each of them.
fn among_neighbours(far: &str) -> String {
    let sides = [("a", "b"), ("b", "c"), ("c", "d"), ("d", "a")];
    let sides = sides.map(|(from, to)| {
        format!("{{id: side-{from}, from: {from}, to: {to}, beyond: neighbour-lot}}")
    });
    format!(
        "source: survey, corners: {{a: [-{far}, -{far}], b: [{far}, -{far}], c: [{far}, {far}], d: [-{far}, {far}]}}, sides: [{}]",
        sides.join(", ")
    )
}

/// A neighbour within whose far fence the pool lies has no barrier between, whichever of them it is.
#[test]
fn every_neighbour_is_asked() {
    // The fence is 8 m by 6 m, and 3 m longer to one side, past the line of that neighbour.
    let with = |[west, south, east, north]: [i64; 4]| {
        let lot = among_neighbours("5");
        let line = format!(
            "line: [[{west}, {south}], [{east}, {south}], [{east}, {north}], [{west}, {north}], [{west}, {south}]]"
        );
        let fence = format!(
            "  - {{kind: barrier-stretch, id: fence, source: survey, height-outside: 1.5 m, {line}}}"
        );
        let drawn = yard("[-4, -3]", ("1.5 m", &fence), "all-shown", "0 mm", &lot);
        // Without the fence of 8 m by 6 m that is there else.
        let kept = drawn
            .lines()
            .filter(|line| !line.contains("id: three-sides") && !line.contains("id: last"));
        let text: String = kept.map(|line| format!("{line}\n")).collect();
        let rules = rules();
        let plan = read::plan(&text, &rules);
        check(&plan, &rules).expect("not too much work").rules[0].outcome
    };
    assert_eq!(with([-4, -4, 4, 4]), Outcome::Pass);
    for past in [
        [-8, -4, 4, 4],
        [-4, -8, 4, 4],
        [-4, -4, 8, 4],
        [-4, -4, 4, 8],
    ] {
        assert_eq!(with(past), Outcome::Fail, "{past:?}");
    }
}

/// Where a corner is written first, and which way round, says nothing of a house: here it closes the fourth side.
#[test]
fn a_house_is_the_same_whichever_corner_is_written_first() {
    let corners = [(4, -3), (9, -3), (9, 3), (4, 3)];
    let outcome = |walls: &[(i64, i64)], x: i64| {
        let walls: Vec<String> = walls.iter().map(|(x, y)| format!("[{x}, {y}]")).collect();
        let house = format!(
            "  - {{kind: building, id: house, source: survey, use: dwelling, wall: [{}]}}\n  - {{kind: wall-opening, id: door, part-of: house, source: survey, type: door, line: [[{x}, -0.5], [{x}, 0.5]]}}",
            walls.join(", ")
        );
        let text = yard("[-4, -3]", ("1.5 m", &house), "all-shown", "0 mm", "");
        // The fence stands on three sides only.
        let text = text
            .replace(
                "line: [[-4, -3], [4, -3], [4, 3], [-4, 3]]",
                "line: [[-4, -3], [4, -3]]",
            )
            .replace(
                "line: [[-4, 3], [-4, -3]]",
                "line: [[4, 3], [-4, 3], [-4, -3]]",
            );
        let rules = rules();
        let plan = read::plan(&text, &rules);
        check(&plan, &rules).expect("not too much work").rules[2].outcome
    };
    for first in 0..4 {
        let mut walls = corners;
        walls.rotate_left(first);
        for _ in 0..2 {
            assert_eq!(
                outcome(&walls, 4),
                Outcome::Fail,
                "{walls:?}, onto the yard"
            );
            assert_eq!(outcome(&walls, 9), Outcome::Pass, "{walls:?}, to the front");
            walls.reverse();
        }
    }
}

/// Of a fence that is barrier only where it lies in a zone, what lies outside of that is a gap.
#[test]
fn a_fence_cut_by_a_zone_closes_nothing_for_sure() {
    let well = |x: &str| format!("  - {{kind: well, id: well, source: survey, casing: [{x}, 0]}}");
    for x in ["-4", "4", "20"] {
        let text = yard("[-4, -3]", ("1.5 m", &well(x)), "all-shown", "0 mm", "");
        let text = text.replace("inventory: {", "inventory: {well: all-shown, ");
        let rules = rules();
        let plan = read::plan(&text, &rules);
        let outcome = check(&plan, &rules).expect("not too much work").rules[3].outcome;
        assert!(
            outcome == Outcome::Unknown || outcome == Outcome::Fail,
            "{x}: {outcome:?}"
        );
    }
}

fn all_round(end: &str, height: &str, more: &str, inventory: &str, accuracy: &str) -> Outcome {
    outcomes(end, height, more, inventory, accuracy).0
}

#[test]
fn the_last_side_decides() {
    let all = "all-shown";
    assert_eq!(
        all_round("[-4, -3]", "1.5 m", "", all, "20 mm"),
        Outcome::Pass,
        "joined ends stay joined"
    );
    assert_eq!(
        all_round("[-4, -2.901]", "1.5 m", "", all, "0 mm"),
        Outcome::Pass,
        "99 mm"
    );
    assert_eq!(
        all_round("[-4, -2.899]", "1.5 m", "", all, "0 mm"),
        Outcome::Fail,
        "101 mm"
    );
    assert_eq!(
        all_round("[-4, -2.9]", "1.5 m", "", all, "0 mm"),
        Outcome::Fail,
        "100 mm is not less"
    );
    assert_eq!(
        all_round("[-4, -2.901]", "1.5 m", "", all, "2 mm"),
        Outcome::Marginal,
        "99 mm, each end to 2 mm"
    );
    assert_eq!(
        all_round("[-4, -2.95]", "1.5 m", "", all, "20 mm"),
        Outcome::Pass,
        "50 mm, each end to 20 mm"
    );
    assert_eq!(
        all_round("[-4, -2]", "1.5 m", "", all, "20 mm"),
        Outcome::Fail,
        "a metre"
    );
}

#[test]
fn a_stretch_that_does_not_count_is_a_gap_of_its_length() {
    let joined = |height, inventory| all_round("[-4, -3]", height, "", inventory, "0 mm");
    assert_eq!(joined("1.1 m", "all-shown"), Outcome::Fail);
    assert_eq!(joined("1.1 m .. 1.3 m", "all-shown"), Outcome::Unknown);
    assert_eq!(
        joined("1.1 m", "{all-shown: {within: 30 m}}"),
        Outcome::Unknown,
        "another may stand there unseen"
    );
    assert_eq!(
        joined("1.5 m", "{all-shown: {within: 30 m}}"),
        Outcome::Pass,
        "more of it can only close more"
    );
}

#[test]
fn a_gate_that_is_part_of_the_run_closes_it() {
    let gate =
        "  - {kind: gate, id: gate, part-of: last, source: survey, line: [[-4, -2], [-4, -3]]}";
    let other = "  - {kind: gate, id: gate, source: survey, line: [[-4, -2], [-4, -3]]}";
    assert_eq!(
        all_round("[-4, -2]", "1.5 m", gate, "all-shown", "20 mm"),
        Outcome::Pass
    );
    assert_eq!(
        all_round("[-4, -2]", "1.5 m", other, "all-shown", "20 mm"),
        Outcome::Fail,
        "these rules name no gates"
    );
}

#[test]
fn a_door_in_the_barrier_is_a_way_out_of_the_house() {
    let house = |wall: &str, x: &str| {
        format!(
            "  - {{kind: building, id: house, source: survey, use: dwelling, wall: {wall}}}\n  - {{kind: wall-opening, id: door, part-of: house, source: survey, type: door, line: [[{x}, -0.5], [{x}, 0.5]]}}"
        )
    };
    let of = |wall, x| outcomes("[-4, -3]", "1.5 m", &house(wall, x), "all-shown", "0 mm");
    // The side at x = 4 is drawn along the house: its door opens to the pool.
    assert_eq!(
        of("[[4, -3], [9, -3], [9, 3], [4, 3]]", "4"),
        (Outcome::Pass, Outcome::Fail)
    );
    assert_eq!(
        of("[[4, -3], [9, -3], [9, 3], [4, 3]]", "9"),
        (Outcome::Pass, Outcome::Pass)
    );
    assert_eq!(
        of("[[6, -3], [9, -3], [9, 3], [6, 3]]", "6"),
        (Outcome::Pass, Outcome::Pass)
    );
}

/// A wall goes round the lot and round the common ground beyond its east side: it keeps out whoever comes from the street, but
/// nobody on the common ground, from where the gap of a metre in the pool's own fence is open.
#[test]
fn open_ground_beyond_a_side_is_a_place_of_its_own() {
    let side = |id: &str, from: &str, to: &str, beyond: &str| {
        format!("{{id: {id}, from: {from}, to: {to}, faces: side, beyond: {beyond}}}")
    };
    let sides = [
        side("south", "a", "b", "road"),
        side("east", "b", "c", "open-space"),
        side("north", "c", "d", "neighbour-lot"),
        side("west", "d", "a", "neighbour-lot"),
    ];
    let lot = format!("{LOT}, sides: [{}]", sides.join(", "));
    let wall = "  - {kind: barrier-stretch, id: wall, source: survey, height-outside: 2 m, line: [[-20.5, -20.5], [30, -20.5], [30, 20.5], [-20.5, 20.5], [-20.5, -20.5]]}";
    let text = yard("[-4, -2]", ("1.5 m", wall), "all-shown", "0 mm", &lot);
    let outcome = |from: &str| {
        let rules = RULES.replacen("from: [street, neighbour-lot]", &format!("from: {from}"), 1);
        let rules = read::rules(&rules);
        let plan = read::plan(&text, &rules);
        check(&plan, &rules).expect("not too much work").rules[0].outcome
    };
    assert_eq!(outcome("[street, neighbour-lot]"), Outcome::Pass);
    assert_eq!(outcome("[open-space]"), Outcome::Fail);
    assert_eq!(outcome("[street, open-space]"), Outcome::Fail);
}
