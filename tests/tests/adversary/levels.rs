//! Levels of the ground.

use super::*;

/// Four spots at the corners of the lot, at 50 m, and what else was measured.
fn spots(more: &str) -> String {
    let corners = [(0, 0), (30, 0), (30, 40), (0, 40)];
    let mut text = String::new();
    for (number, (x, y)) in corners.into_iter().enumerate() {
        text += &format!(
            "  - {{kind: ground-spot, id: s{number}, source: survey, place: [{x}, {y}], level: 50 m}}\n"
        );
    }
    text + more
}

fn on_a_slope(pool: &str, more: &str, inventory: &str) -> String {
    plan(&lot("  level-ground: no\n"), pool, &spots(more), inventory)
}

const ALL: &str = "ground-spot: all-shown";
const LEVEL: &str = "{ground-level: {at: pool.water}, at-most: 50.5 m}";
/// A hole of 3 m beside the pool.
const HOLE: &str =
    "{difference: [{level: {of: pool.water}}, {ground-level: {at: pool.water}}], at-most: 1 m}";

fn hole(source: &str) -> String {
    format!("  - {{kind: ground-spot, id: hole, {source}place: [14, 22], level: 47 m}}\n")
}

/// The rim is at 51 m. At the spot of 47 m, inside the water's edge, it stands 4 m over the ground; where nobody knows where
/// that spot is, nothing is known.
#[test]
fn a_spot_of_which_nobody_knows_the_place_is_not_left_out() {
    let rim = ", rim-level: 51 m";
    let of = |source| on_a_slope(rim, &hole(source), ALL);
    let (found, range) = judge(&of("source: survey, "), HOLE);
    assert_eq!(found, Outcome::Fail);
    near(range, 1.0, 4.0);
    // No source, no shift of the source: nobody knows where.
    for source in ["", "accuracy: 0 mm, ", "source: tape, "] {
        assert!(is_open(&of(source), HOLE), "{source}");
        assert!(is_open(&of(source), LEVEL), "{source}");
    }
}

/// Four spots of a mound at 53 m round the pool: at most 50.5 m fails. That the tape's shift is left out takes nothing away
/// from the mound.
#[test]
fn a_shift_left_out_does_not_take_a_mound_away() {
    let mound = |source: &str| {
        let places = [(8, 18), (20, 18), (20, 26), (8, 26)];
        let spot = |(x, y)| {
            format!(
                "  - {{kind: ground-spot, id: m-{x}-{y}, {source}, place: [{x}, {y}], level: 53 m}}\n"
            )
        };
        places.map(spot).concat()
    };
    let of = |source| on_a_slope("", &mound(source), ALL);
    assert_eq!(outcome(&of("source: survey"), LEVEL), Outcome::Fail);
    assert!(is_open(&of("source: tape"), LEVEL));
}

/// A spot that was taken out together with the word that all are shown, may still be there.
#[test]
fn ground_between_some_spots_is_not_known() {
    assert_eq!(outcome(&on_a_slope("", "", ALL), LEVEL), Outcome::Pass);
    assert_eq!(outcome(&on_a_slope("", "", ""), LEVEL), Outcome::Unknown);
}

/// The ground is at 50 m all round. A rim at 51 m and a height of 0.2 m over the ground cannot both be: 50.2 m.
#[test]
fn a_rim_level_and_a_height_over_the_ground_agree() {
    let told = |pool: &str| {
        let text = on_a_slope(pool, "", ALL);
        let rules = "ruleset: t\ntitle: T\nedition: \"1\"\nauthority: A\nrules:\n  - {id: a, title: A, clause: C, require: {fact: pool.depth, at-most: 1 m}}\n";
        let read = rules_core::ruleset::read(
            rules,
            &|_| None,
            rules_core::vocabulary::Vocabulary::standard(),
        );
        let rules = read.unwrap().rule_set;
        let plan = rules_core::plan::read(&text, &rules.vocabulary).unwrap();
        let faults = rules_core::check::contradictions(&plan, &rules);
        faults.show("plan", &text)
    };
    let said = told(", rim-level: 51 m, height-above-ground: 0.2 m");
    assert!(said.contains("`pool.rim-level` is 51 m"), "{said}");
    assert!(
        said.contains("`pool.height-above-ground` make it 50.2 m"),
        "{said}"
    );
    assert_eq!(
        told(", rim-level: 51 m, height-above-ground: 0.9 m .. 1.1 m"),
        ""
    );
    assert_eq!(told(", rim-level: 51 m"), "");
}

/// What is told in two ways is both: 50 to 52 m, and 0.9 to 1.1 m over the ground at 50 m.
#[test]
fn a_level_told_twice_is_what_both_allow() {
    let rim = "{level: {of: pool.water}, at-least: 50.9 m}";
    let (low, high) = (
        ", rim-level: 51 m ± 1 m",
        ", height-above-ground: 0.9 m .. 1.1 m",
    );
    let found = judge(&on_a_slope(&format!("{low}{high}"), "", ALL), rim);
    assert_eq!(found.0, Outcome::Pass);
    near(found.1, 50.9, 51.1);
    near(judge(&on_a_slope(low, "", ALL), rim).1, 50.0, 52.0);
    near(judge(&on_a_slope(high, "", ALL), rim).1, 50.9, 51.1);
}

/// The ground below the water is at 47 m where the hole is, and rises towards spots at 50 m; how far, nobody knows. What is
/// asked of ground at 47.5 m or more may be asked there.
#[test]
fn ground_that_rises_is_not_taken_as_its_lowest_place() {
    let text = on_a_slope(", rim-level: 51 m", &hole("source: survey, "), ALL);
    let high = "{ground-level: {at: pool.water}, at-least: 47.5 m}";
    let far = "{distance: {from: pool.water, to: lot.boundary}, at-least: 100 m}";
    let rules = [
        format!("    when: {high}\n    require: {far}\n"),
        format!("    unless: {{not: {high}}}\n    require: {far}\n"),
        format!("    require: {{not: {high}}}\n"),
    ];
    let found = judge_all(&text, "", &rules.each_ref().map(String::as_str));
    for (found, _) in found {
        assert_eq!(found, Outcome::Unknown);
    }
}

/// The ground is at 50 m all round. With the rim stated at 48 m, in a cut, it is too low for 49.5 m; with nothing said of the
/// rim or of a height over the ground it may be that, and is open, though the ground is higher.
#[test]
fn a_rim_of_which_nothing_is_said_may_lie_below_the_ground() {
    let rim = "{level: {of: pool.water}, at-least: 49.5 m}";
    let of = |pool| on_a_slope(pool, "", ALL);
    assert_eq!(outcome(&of(", rim-level: 48 m"), rim), Outcome::Fail);
    assert_eq!(outcome(&of(""), rim), Outcome::Unknown);
    let raised = of(", height-above-ground: 0.2 m");
    assert_eq!(outcome(&raised, rim), Outcome::Pass);
}
