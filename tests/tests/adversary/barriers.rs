//! Holes in a barrier, and no barrier at all.

use super::*;
use rules_core::quantity::NO_HIGH;

const FENCE: &str = "  - {kind: barrier-stretch, id: fence, source: survey, line: [[8,18],[20,18],[20,26],[8,26],[8,18]]}\n";
const RULE: &str = "{enclosure: {of: pool.water, from: [street, neighbour-lot], made-of: [barrier-stretch, gate]}, less-than: 100 mm}";

fn fenced(more: &str, openings: &str) -> String {
    let inventory = format!("barrier-stretch: all-shown, gate: all-shown{openings}");
    plan(&lot(""), "", &format!("{FENCE}{more}"), &inventory)
}

fn hole(width: &str) -> String {
    format!(
        "  - {{kind: barrier-opening, id: hole, source: survey, line: [[12,18],[12.6,18]]{width}}}\n"
    )
}

/// A hole of 600 mm in a fence that closes otherwise.
#[test]
fn a_hole_in_the_fence_is_a_way_in() {
    let all = ", barrier-opening: all-shown";
    let (found, range) = judge(&fenced(&hole(", width: 600 mm"), all), RULE);
    assert_eq!(found, Outcome::Fail);
    near(range, 0.6, 0.6);
    // It lets through what its width says: a slot 600 mm long and 40 mm wide no head.
    let (found, range) = judge(&fenced(&hole(", width: 40 mm"), all), RULE);
    assert_eq!(found, Outcome::Pass);
    near(range, 0.04, 0.04);
    // Nobody measured it: no wider than it is long.
    let (found, range) = judge(&fenced(&hole(""), all), RULE);
    assert!(
        matches!(found, Outcome::Unknown | Outcome::Marginal),
        "{found:?}"
    );
    near(range, 0.0, 0.6);
}

/// A fence without holes closes where all holes are shown; else there may be one.
#[test]
fn a_hole_that_nobody_looked_for_may_be_there() {
    let (found, range) = judge(&fenced("", ", barrier-opening: none"), RULE);
    assert_eq!(found, Outcome::Pass);
    near(range, 0.0, 0.0);
    assert_eq!(outcome(&fenced("", ""), RULE), Outcome::Unknown);
    let unplaced = "  - {kind: barrier-opening, id: hole, width: 600 mm}\n";
    assert_eq!(
        outcome(&fenced(unplaced, ", barrier-opening: all-shown"), RULE),
        Outcome::Unknown
    );
}

/// Where nothing stands between, the way is without end: no figure stands for that.
#[test]
fn no_barrier_is_a_way_without_end() {
    let text = plan(
        &lot(""),
        "",
        "",
        "barrier-stretch: none, gate: none, barrier-opening: none",
    )
    .replace("things:\n", "");
    let rule = format!("    require: {RULE}\n");
    let found = judge_all(&text, "", &[&rule]);
    assert_eq!(found, [(Outcome::Fail, Some(Interval::exact(NO_HIGH)))]);
}
