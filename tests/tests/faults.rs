//! Checkers that are wrong in one way are caught.

use outside_checks::soundness::fault::Fault;
use outside_checks::soundness::property::{Tally, run_with};
use outside_checks::soundness::words::Words;

/// A fault that so many cases do not show counts as not caught.
const CASES: u64 = 2000;

#[test]
fn every_fault_is_caught() {
    let words = Words::new();
    let mut missed = Vec::new();
    for fault in Fault::ALL {
        let mut tally = Tally::default();
        let mut fails = |seed: &u64| run_with(*seed, &words, &mut tally, Some(fault)).is_err();
        match (0..CASES).find(|seed| fails(seed)) {
            Some(seed) => println!("{fault:?} is caught by seed {seed}"),
            None => missed.push(fault),
        }
    }
    assert!(
        missed.is_empty(),
        "not caught within {CASES} cases: {missed:?}"
    );
}
