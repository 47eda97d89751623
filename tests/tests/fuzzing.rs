//! The first cases of the fuzzer that judges; `cargo run --release -p outside-checks --bin fuzz -- --minutes 60` tries more.

use std::collections::BTreeMap;

use outside_checks::fuzzing::{Case, Outcome, Stock, tried};

#[test]
fn whatever_is_put_together_is_judged_or_refused_as_it_must_be() {
    let stock = Stock::new().expect("the bundled rule sets");
    let mut outcomes = BTreeMap::<Outcome, u64>::new();
    for seed in 0..200 {
        let case = Case::of(seed, &stock);
        let (outcome, _) = tried(&case, &stock)
            .unwrap_or_else(|what| panic!("{seed}: {what}\n{}\n---\n{}", case.plan, case.rules));
        *outcomes.entry(outcome).or_default() += 1;
    }
    let judged = outcomes.get(&Outcome::Judged).copied().unwrap_or(0);
    assert!(judged >= 40, "hardly anything is judged: {outcomes:?}");
}
