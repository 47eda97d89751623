//! The property of soundness catches each of the faults that would hurt most.

use outside_checks::read;
use outside_checks::soundness::property::{Tally, run};
use outside_checks::soundness::words::Words;
use rules_core::mutant::{Mutant, with};

/// A fault that so many cases do not show counts as not caught.
const CASES: u64 = 2000;

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
    for seed in 0..CASES / 2 {
        assert_eq!(run(seed, &words, &mut tally), Ok(()));
    }
}

/// What the property tries must be what a plan's reader runs: a square outline that a plan asks for feels the fault.
#[test]
fn a_plans_square_outlines_are_those_that_the_property_tries() {
    let home = include_str!("../../rulesets/eldermere/home.yaml");
    let rules = include_str!("../../rulesets/eldermere/rules.yaml");
    let rules = read::rules(rules);
    let read = || read::plan(home, &rules);
    assert_ne!(read().things, with(Mutant::SquareAsRound, read).things);
}
