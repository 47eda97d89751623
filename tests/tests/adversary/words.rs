//! What the words of a rule file and of a plan mean.

use super::*;

/// From a round pool of 6 ft radius to itself: its diameter, 12 ft.
#[test]
fn the_places_farthest_apart_of_a_round_pool() {
    let pool = "water: {rectangle: {at: [10, 20], length: 8 m, width: 4 m}}";
    let round = "water: {circle: {at: [15, 20], radius: 6 ft}}";
    let house = "  - {kind: building, id: house, source: survey, wall: {rectangle: {at: [9, 2], length: 4 m, width: 4 m}}}\n";
    let text = plan(&lot(""), "", house, "building: all-shown").replace(pool, round);
    let (found, range) = judge(
        &text,
        "{distance: {from: pool.water, to: pool.water, farthest: yes}, at-least: 12 ft}",
    );
    assert_eq!(found, Outcome::Pass);
    near(range, 3.6576, 3.6576);
    // To the house: from its corner (9, 2) to the middle √(6² + 18²) = 18.974 m, and 1.829 m more.
    let to = |farthest: &str| {
        let rule = format!(
            "{{distance: {{from: pool.water, to: building.wall, farthest: {farthest}}}, at-most: 100 ft}}"
        );
        judge(&text, &rule).1
    };
    near(to("yes"), 20.803, 20.803);
    // All of the pool lies so near the house: from its corner (13, 6) √(2² + 14²) = 14.142 m, and 1.829 m more.
    near(to("from"), 15.971, 15.971);
}

/// 3 months are 89 to 92 days; or 400 days.
#[test]
fn months_and_days_are_not_bare_numbers() {
    let text = |time: &str| {
        let pool = format!(", standing-time: {time}");
        plan(&lot(""), &pool, "", "well: none").replace("things:\n", "")
    };
    let rule = "{fact: pool.standing-time, at-most: 6 months}";
    assert!(is_open(&text("{one-of: [3 months, 400 days]}"), rule));
    assert!(is_open(&text("{one-of: [400 days, 3 months]}"), rule));
    assert_eq!(
        outcome(&text("{one-of: [3 months, 90 days]}"), rule),
        Outcome::Pass
    );
    assert_eq!(
        outcome(&text("{one-of: [8 months, 300 days]}"), rule),
        Outcome::Fail
    );
    // Two months are 59 to 62 days.
    let is = "{fact: pool.standing-time, is: 2 months}";
    assert_eq!(outcome(&text("2000 days"), is), Outcome::Fail);
    assert_eq!(outcome(&text("2 months"), is), Outcome::Pass);
    assert!(is_open(&text("60 days"), is));
}

/// A pool of which nobody knows the depth, 2 m from one house and 15 m from another. If it is shallow, the first house is too
/// near (5 m); if it is deep, the second is too far (8 m): the rule is broken whatever the depth is, for each building or
/// with `each` within.
#[test]
fn broken_whatever_the_answer_is() {
    let house = |id: &str, x: u32| {
        format!(
            "  - {{kind: building, id: {id}, source: survey, wall: [[{x}, 20], [{}, 20], [{}, 24], [{x}, 24]]}}\n",
            x + 2,
            x + 2
        )
    };
    let table = |far: u32| {
        format!(
            "{{table: {{rows: [{{when: {{fact: pool.depth, at-most: 1.2 m}}, then: {{distance: {{from: pool.water, to: building.wall}}, at-least: 5 m}}}}, {{otherwise: {{distance: {{from: pool.water, to: building.wall}}, at-most: {far} m}}}}]}}}}"
        )
    };
    let both = plan(
        &lot(""),
        "",
        &format!("{}{}", house("near", 16), house("far", 29)),
        "building: all-shown",
    );
    let both = both.replace("at: [10, 20], length: 8 m", "at: [10, 20], length: 4 m");
    let inside = |far| format!("{{each: building, require: {}}}", table(far));
    assert_eq!(each(&both, "building", &table(8)).0, Outcome::Fail);
    assert_eq!(outcome(&both, &inside(8)), Outcome::Fail);
    assert_eq!(each(&both, "building", &table(16)).0, Outcome::Unknown);
    assert_eq!(outcome(&both, &inside(16)), Outcome::Unknown);
}
