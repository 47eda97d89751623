//! The less is said, the less is decided. More: `cargo run --release -p outside-checks --bin soundness -- --less 2000`.

use outside_checks::deletions;
use outside_checks::soundness::less::run;
use outside_checks::soundness::words::Words;

#[test]
fn random_plans_less_one_thing_decide_no_more() {
    let (words, mut tried) = (Words::new(), 0);
    for seed in 0..200 {
        let (number, failures) = run(seed, &words);
        tried += number;
        if let Some(failure) = failures.first() {
            panic!("seed {}: {}\n{}", failure.seed, failure.what, failure.dump);
        }
    }
    assert!(tried >= 8_000, "{tried}");
}

#[test]
fn bundled_cases_less_one_thing_decide_no_more() {
    let found = deletions::run(true, None);
    assert!(found.more.is_empty(), "\n{}", found.more.join("\n"));
    assert!(found.judged >= 10_000, "{}", found.judged);
    // Most of what cannot be left out is how something is drawn.
    assert!(found.unreadable * 2 < found.judged, "{found:?}");
}
