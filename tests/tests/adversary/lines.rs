//! Lot lines: from several sources, and past them.

use super::*;

fn sides(of: [&str; 4]) -> String {
    let mut text = lot("");
    for (side, source) in ["street", "east", "rear", "west"].into_iter().zip(of) {
        let head = format!("{{id: {side}, ");
        text = text.replace(&head, &format!("{head}source: {source}, "));
    }
    text
}

fn with_well(lot: &str, at: &str) -> String {
    let thing = format!("  - {{kind: well, id: well, source: survey, casing: {at}}}\n");
    plan(lot, "", &thing, "well: all-shown").replace(
        "  - {id: tape,",
        "  - {id: fence, by: fence}\n  - {id: plat, by: plat, accuracy: 0 mm, shift: 5 m}\n  - {id: other-plat, by: plat, accuracy: 0 mm, shift: 5 m}\n  - {id: near-survey, by: survey, accuracy: 20 mm, shift: 0 mm}\n  - {id: tape,",
    )
}

const AREA: &str = "{area: {of: lot.boundary}, at-least: 1200 m2}";
const OUTSIDE: &str = "{count: {kind: well, in: {inside: lot.boundary}}, is: 0}";

/// The lot is 1200 m² as drawn; its sides come from two plats, each of which may be shifted by 5 m. A well 1 m beyond the east
/// side may be in it.
#[test]
fn the_boundary_is_as_doubtful_as_its_sides() {
    let shifted = sides(["other-plat", "plat", "plat", "plat"]);
    let text = with_well(&shifted, "[31, 20]");
    assert!(is_open(&text, AREA));
    assert!(is_open(&text, OUTSIDE));
    let exact = with_well(&lot(""), "[31, 20]");
    assert_eq!(outcome(&exact, AREA), Outcome::Pass);
    assert_eq!(outcome(&exact, OUTSIDE), Outcome::Pass);
    for source in ["fence", "tape"] {
        let text = with_well(&sides(["survey", "survey", "survey", source]), "[-1, 20]");
        assert!(is_open(&text, AREA), "{source}");
        assert!(is_open(&text, OUTSIDE), "{source}");
    }
}

/// A corner that a shifted plat tells exactly does not make a surveyed line better than its own 20 mm.
#[test]
fn an_accuracy_counts_within_its_own_source() {
    let text = with_well(&sides(["near-survey", "plat", "plat", "plat"]), "[31, 20]");
    let far = "{distance: {from: pool.water, to: {kind: lot-line, where: {fact: lot-line.faces, is: front}}}, at-least: 20 m}";
    near(judge(&text, far).1, 19.98, 20.02);
}

/// The owner's own things 2 m past the line are at no distance from what lies beyond.
#[test]
fn the_owners_things_past_the_line_are_on_others_land() {
    let ring = "[[32,10],[35,10],[35,14],[32,14]]";
    let line = "[[32,10],[32,30]]";
    let things = [
        (
            "building",
            "wall",
            format!("stands-on: lot, wall: {ring}"),
            Outcome::Fail,
        ),
        (
            "building",
            "wall",
            format!("stands-on: neighbour-lot, wall: {ring}"),
            Outcome::Pass,
        ),
        (
            "building",
            "wall",
            format!("wall: {ring}"),
            Outcome::Unknown,
        ),
        (
            "barrier-stretch",
            "line",
            format!("on: own, line: {line}"),
            Outcome::Fail,
        ),
        (
            "tree",
            "stem",
            "stands-on: lot, stem: [32, 12]".to_owned(),
            Outcome::Fail,
        ),
        (
            "tree",
            "stem",
            "stands-on: road, stem: [32, 12]".to_owned(),
            Outcome::Pass,
        ),
        (
            "raised-ground",
            "region",
            format!("region: {ring}"),
            Outcome::Fail,
        ),
        (
            "driveway",
            "region",
            format!("region: {ring}"),
            Outcome::Fail,
        ),
        (
            "retaining-wall",
            "line",
            format!("line: {line}"),
            Outcome::Fail,
        ),
        ("ladder", "region", format!("region: {ring}"), Outcome::Fail),
        (
            "well",
            "casing",
            "casing: [32, 12]".to_owned(),
            Outcome::Pass,
        ),
    ];
    for (kind, outline, drawn, expected) in things {
        let thing = format!("  - {{kind: {kind}, id: it, source: survey, {drawn}}}\n");
        let text = plan(&lot(""), "", &thing, &format!("{kind}: all-shown"));
        let rule =
            format!("{{distance: {{from: {kind}.{outline}, to: lot-line}}, at-least: 1.5 m}}");
        assert_eq!(each(&text, kind, &rule).0, expected, "{drawn}");
    }
}

/// What is part of a thing is whose that is.
#[test]
fn a_part_is_whose_the_whole_is() {
    let house = "  - {kind: building, id: house, source: survey, stands-on: lot, wall: [[32,10],[35,10],[35,14],[32,14]]}\n";
    let door = "  - {kind: wall-opening, id: door, part-of: house, source: survey, line: [[32,11],[32,12]]}\n";
    let text = plan(
        &lot(""),
        "",
        &format!("{house}{door}"),
        "building: all-shown, wall-opening: all-shown",
    );
    let rule = "{distance: {from: wall-opening.line, to: lot-line}, at-least: 1.5 m}";
    assert_eq!(each(&text, "wall-opening", rule).0, Outcome::Fail);
}

/// A kind that a rule file adds says whose it is by the same fact.
#[test]
fn a_rule_files_own_kind_may_say_whose_it_is() {
    let kinds = "kinds:
  - id: summer-kitchen
    said: a summer kitchen
    ask: Is there a summer kitchen?
    outlines: [{id: region, said: its edge, shape: area}]
    facts:
      - {id: stands-on, said: ground that it stands on, ask: Whose ground does it stand on?, how: Go by the surveyed line., answer: [lot, neighbour-lot]}
";
    let rule = "    each: summer-kitchen\n    require: {distance: {from: summer-kitchen.region, to: lot-line}, at-least: 1.5 m}\n";
    for (on, expected) in [("lot", Outcome::Fail), ("neighbour-lot", Outcome::Pass)] {
        let thing = format!(
            "  - {{kind: summer-kitchen, id: it, source: survey, stands-on: {on}, region: [[32,10],[35,10],[35,14],[32,14]]}}\n"
        );
        let text = plan(&lot(""), "", &thing, "summer-kitchen: all-shown");
        assert_eq!(judge_all(&text, kinds, &[rule])[0].0, expected, "{on}");
    }
}

/// A round pool of 2 m whose middle is 1 m before the rear line reaches 1 m past it.
#[test]
fn a_round_edge_past_the_line_is_past_it() {
    let round = |y: &str| {
        let pool = "water: {rectangle: {at: [10, 20], length: 8 m, width: 4 m}}";
        let circle = format!("accuracy: 20 mm, water: {{circle: {{at: [15, {y}], radius: 2 m}}}}");
        plan(&lot(""), "", "", "well: none")
            .replace(pool, &circle)
            .replace("things:\n", "")
    };
    let rear = "{distance: {from: pool.water, to: {kind: lot-line, where: {fact: lot-line.faces, is: rear}}}, more-than: 0 m}";
    let (found, range) = judge(&round("39"), rear);
    assert_eq!(found, Outcome::Fail);
    near(range, 0.0, 0.0);
    assert_eq!(judge(&round("38.01"), rear).0, Outcome::Marginal);
    assert_eq!(judge(&round("37.9"), rear).0, Outcome::Pass);
    // It is not past the other lines.
    let west = rear.replace("rear", "side");
    near(judge(&round("39"), &west).1, 12.98, 13.02);
}
