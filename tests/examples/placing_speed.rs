//! How long it takes to find out where a pool could go: the whole answer, the best of seven.
//!
//! `cargo run --release -p outside-checks --example placing_speed`, on a machine that does nothing else.

use std::hint::black_box;
use std::time::{Duration, Instant};

use rules_core::placement::{Wishes, place};
use rules_core::ruleset::{self, RuleSet};
use rules_core::vocabulary::Vocabulary;
use rules_core::work;

const RULES: &str = include_str!("../../rulesets/eldermere/rules.yaml");
const HOME: &str = include_str!("../../rulesets/eldermere/home.yaml");
const NO_ROOM: &str = include_str!("../../rulesets/eldermere/no-room.yaml");
const TRIES: usize = 7;

fn main() {
    let rules = ruleset::read(RULES, &|_| None, Vocabulary::standard());
    let rules = rules.expect("the demo's rules are read").rule_set;
    println!("| plan | turns | smallest cells | takes | steps |");
    println!("|---|---|---|---|---|");
    for (name, plan) in [("the demo", HOME), ("the home with no room", NO_ROOM)] {
        for (turns, finest) in [(1, 400), (1, 100), (4, 400)] {
            let wishes = Wishes {
                turns,
                finest,
                ..Wishes::default()
            };
            let (took, steps) = best(plan, &rules, &wishes);
            println!("| {name} | {turns} | {finest} mm | {took:.0?} | {steps} |");
        }
    }
}

/// The shortest time that it took, and the steps, which are the same each time.
fn best(plan: &str, rules: &RuleSet, wishes: &Wishes) -> (Duration, u64) {
    let once = || {
        let start = Instant::now();
        let (found, steps) = work::counted(|| place(plan, rules, wishes));
        black_box(found.is_ok());
        (start.elapsed(), steps)
    };
    (0..TRIES).map(|_| once()).min().unwrap_or_default()
}
