//! Judges random plans by random rule files, and checks everything that must hold of the results: `fuzz [--seed N]
//! [--cases N] [--minutes N] [--keep FOLDER]`.
//!
//! With `--seed` alone, tries that one case and shows it. Every tenth case is one for the second evaluator.

use std::collections::BTreeMap;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::process::ExitCode;
use std::time::{Duration, Instant};

use outside_checks::fuzzing::{Case, Outcome, Stock, tried};
use outside_checks::soundness::property::{Tally, run};
use outside_checks::soundness::words::Words;

/// A case that takes longer than this is printed.
const SLOW: Duration = Duration::from_secs(3);

fn argument(name: &str) -> Option<String> {
    std::env::args()
        .skip_while(|argument| argument != name)
        .nth(1)
}

fn number(name: &str) -> Option<u64> {
    argument(name)?.parse().ok()
}

fn main() -> ExitCode {
    let stock = Stock::new().expect("the bundled rule sets");
    let first = number("--seed").unwrap_or(0);
    let minutes = number("--minutes").map(|minutes| Duration::from_secs(60 * minutes));
    let cases = number("--cases").unwrap_or(if minutes.is_some() { u64::MAX } else { 1 });
    if cases == 1 {
        let case = Case::of(first, &stock);
        println!("{}\n---\n{}", case.plan, case.rules);
    }
    let began = Instant::now();
    let (mut outcomes, mut failed, mut most) = (BTreeMap::<Outcome, u64>::new(), 0, 0);
    let (words, mut tally) = (Words::new(), Tally::default());
    let mut done = 0;
    for seed in (first..).take(usize::try_from(cases).unwrap_or(usize::MAX)) {
        if minutes.is_some_and(|minutes| began.elapsed() > minutes) {
            break;
        }
        done += 1;
        let case = Case::of(seed, &stock);
        let started = Instant::now();
        match one(&case, &stock) {
            Ok((outcome, steps)) => {
                *outcomes.entry(outcome).or_default() += 1;
                most = most.max(steps);
                if started.elapsed() > SLOW {
                    println!("seed {seed}: {:?} and {steps} steps", started.elapsed());
                }
            }
            Err(what) => {
                failed += 1;
                println!("seed {seed}: {what}");
                keep(seed, &case);
            }
        }
        if seed % 10 == 0 {
            let agrees = catch_unwind(AssertUnwindSafe(|| run(seed, &words, &mut tally)));
            if let Err(what) =
                agrees.map_or(Err("panic".to_owned()), |ran| ran.map_err(|it| it.what))
            {
                failed += 1;
                println!("seed {seed} of the second evaluator: {what}");
            }
        }
    }
    println!("{done} cases, {failed} failed, {outcomes:?}, at most {most} steps");
    match failed {
        0 => ExitCode::SUCCESS,
        _ => ExitCode::FAILURE,
    }
}

fn one(case: &Case, stock: &Stock) -> Result<(Outcome, u64), String> {
    catch_unwind(AssertUnwindSafe(|| tried(case, stock))).unwrap_or(Err("panic".to_owned()))
}

fn keep(seed: u64, case: &Case) {
    let Some(folder) = argument("--keep") else {
        return;
    };
    for (name, text) in [("plan", &case.plan), ("rules", &case.rules)] {
        let file = format!("{folder}/{seed}-{name}.yaml");
        if let Err(error) = std::fs::write(&file, text) {
            println!("{file}: {error}");
        }
    }
}
