//! A rule in other words comes out the same. More: `cargo run --release -p outside-checks --bin soundness -- --same 20000`.

use outside_checks::soundness::same::{Tried, WAYS, run};
use outside_checks::soundness::words::Words;

#[test]
fn a_rule_in_other_words_comes_out_the_same() {
    let (words, mut tried) = (Words::new(), Tried::new());
    for seed in 0..1000 {
        if let Some(differs) = run(seed, &words, &mut tried).first() {
            panic!("seed {}, {}: {}", differs.seed, differs.way, differs.what);
        }
    }
    println!("{tried:?}");
    for way in WAYS {
        let times = tried.get(way.name).copied().unwrap_or(0);
        assert!(times >= 20, "{} was tried {times} times", way.name);
    }
}

/// What one doubt decides for all subjects and places at once: whether anything unseen is there, whether the rule applies.
#[test]
fn a_shared_doubt_is_one_doubt_wherever_it_is_written() {
    let (words, mut tried) = (Words::new(), Tried::new());
    // The last: a rule about each of two pools, of which one may not be meant.
    for seed in [6891, 17_309, 7790, 10_364] {
        let differs = run(seed, &words, &mut tried);
        assert_eq!(differs.first(), None, "seed {seed}");
    }
}

/// Whether any place has a figure between the lowest and the highest, and where along a thing there is none.
#[test]
fn a_doubt_about_places_is_one_doubt_wherever_it_is_written() {
    let (words, mut tried) = (Words::new(), Tried::new());
    for seed in [14_389, 11_497] {
        let differs = run(seed, &words, &mut tried);
        assert_eq!(differs.first(), None, "seed {seed}");
    }
}
