//! The property of soundness catches each of the faults that would hurt most.

use outside_checks::soundness::property::{Tally, run};
use outside_checks::soundness::words::Words;
use rules_core::mutant::{Mutant, with};

/// A fault that so many cases do not show counts as not caught.
const CASES: u64 = 4000;

/// The case that shows a fault first, counted from one.
fn caught(mutant: Mutant) -> Option<u64> {
    let (words, mut tally) = (Words::new(), Tally::default());
    with(mutant, || {
        (0..CASES).find(|seed| run(*seed, &words, &mut tally).is_err())
    })
    .map(|seed| seed + 1)
}

#[test]
fn every_mutant_is_caught() {
    let mut missed = Vec::new();
    for mutant in Mutant::ALL {
        match caught(mutant) {
            Some(cases) => println!("{mutant:?} is caught by case {cases}"),
            None => missed.push(mutant),
        }
    }
    assert!(
        missed.is_empty(),
        "not caught within {CASES} cases: {missed:?}"
    );
}

#[test]
fn without_a_mutant_the_same_cases_hold() {
    let (words, mut tally) = (Words::new(), Tally::default());
    for seed in 0..CASES / 4 {
        assert_eq!(run(seed, &words, &mut tally), Ok(()));
    }
}
