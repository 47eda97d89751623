//! Checkers that are wrong in one way are caught.

use outside_checks::read;
use outside_checks::soundness::fault::Fault;
use rules_core::measure::{Corners, outward};

/// A fault that so many cases do not show counts as not caught.
const CASES: u64 = 2000;

#[test]
fn every_fault_is_caught() {
    let mut missed = Vec::new();
    for fault in Fault::ALL {
        match fault.caught(CASES).next() {
            Some(seed) => println!("{fault:?} is caught by seed {seed}"),
            None => missed.push(fault),
        }
    }
    assert!(
        missed.is_empty(),
        "not caught within {CASES} cases: {missed:?}"
    );
}

/// What the property tries must be what a plan's reader runs.
#[test]
fn a_plans_square_outlines_have_square_corners() {
    let home = include_str!("../../rulesets/eldermere/home.yaml");
    let rules = read::rules(include_str!("../../rulesets/eldermere/rules.yaml"));
    let plan = read::plan(home, &rules);
    let pool = rules.vocabulary.kind_named("pool").expect("a kind");
    let outline = |name| {
        rules
            .vocabulary
            .outline_named(pool, name)
            .expect("an outline")
    };
    let pool = plan.things.iter().find(|thing| thing.kind == pool);
    let outlines = &pool.expect("a pool").outlines;
    let (water, coping) = (&outlines[&outline("water")], &outlines[&outline("coping")]);
    let wider = |corners| outward(water, 300_000_000, corners).expect("far enough apart");
    assert_eq!(coping.forms, wider(Corners::Square).forms);
    assert_ne!(coping.forms, wider(Corners::Round).forms);
}
