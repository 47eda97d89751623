//! What the checker finds possible contains what is so, shrinks as a plan grows more certain, and is no wider than it
//! must be. More cases: `cargo run --release -p outside-checks --bin soundness -- --cases 1000000`.

use outside_checks::soundness::property::{Tally, run};
use outside_checks::soundness::words::Words;

#[test]
fn two_thousand_random_cases_are_sound_and_tight() {
    let (words, mut tally) = (Words::new(), Tally::default());
    for seed in 0..2000 {
        if let Err(failure) = run(seed, &words, &mut tally) {
            panic!("seed {}: {}\n{}", failure.seed, failure.what, failure.dump);
        }
    }
    println!(
        "{tally:?}: {:.1} % of blurred findings decided, {:.1} % of open findings of one test are open for a reason",
        tally.decided_share(),
        tally.tightness()
    );
    // The ratchet: these may rise, never fall.
    assert!(
        tally.decided_share() >= 40.0,
        "{:.1} %",
        tally.decided_share()
    );
    assert!(tally.tightness() >= 80.0, "{:.1} %", tally.tightness());
    assert!(tally.compared >= 30_000, "{}", tally.compared);
    assert!(tally.ties * 100 < tally.compared, "{}", tally.ties);
}
