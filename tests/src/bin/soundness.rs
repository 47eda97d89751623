//! Checks soundness on many random cases: `soundness [--cases N] [--seed N]`.
//!
//! With `--seed` alone, it runs that one case and, if it fails, shows all of it. `--sites` runs the second family of
//! cases, sites in the program's own words. `--same N` judges reworded rules on N plans. `--less N` judges N plans with
//! one statement left out in turn; `--bundled` does that with the plans of all bundled cases, or of one named rule set.
//! `--faults N` tries checkers that are wrong in one way each, or only a named one.

use std::collections::BTreeMap;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::process::ExitCode;
use std::sync::Mutex;
use std::sync::atomic::{AtomicU64, Ordering};

use outside_checks::deletions;
use outside_checks::soundness::fault::Fault;
use outside_checks::soundness::less;
use outside_checks::soundness::property::{Failure, Tally, run};
use outside_checks::soundness::same::{self, Differs, Tried, WAYS};
use outside_checks::soundness::sites::{self, Library};
use outside_checks::soundness::words::Words;

/// The most failures to show.
const SHOWN: usize = 5;

fn number_after(name: &str) -> Option<u64> {
    let mut arguments = std::env::args();
    arguments.find(|argument| argument == name)?;
    arguments.next()?.parse().ok()
}

/// Reworded rules on this many plans.
fn in_other_words(cases: u64) -> ExitCode {
    let words = Words::new();
    let (mut tried, mut differing) = (Tried::new(), BTreeMap::<&str, Vec<Differs>>::new());
    let first = number_after("--seed").unwrap_or(0);
    for seed in first..first + cases {
        for differs in same::run(seed, &words, &mut tried) {
            differing.entry(differs.way).or_default().push(differs);
        }
    }
    for way in WAYS {
        let found = differing.get(way.name).map_or(&[][..], Vec::as_slice);
        let seeds: Vec<u64> = found.iter().map(|differs| differs.seed).take(12).collect();
        let times = tried.get(way.name).copied().unwrap_or(0);
        println!(
            "{}: tried {times}, otherwise {} {seeds:?}",
            way.name,
            found.len()
        );
        if let Some(first) = found.iter().min_by_key(|differs| differs.what.len()) {
            println!("  the shortest, seed {}: {}", first.seed, first.what);
        }
    }
    match differing.is_empty() {
        true => ExitCode::SUCCESS,
        false => ExitCode::FAILURE,
    }
}

/// Every plan of this many cases with one statement left out in turn.
fn with_less_said(cases: u64) -> ExitCode {
    let words = Words::new();
    let (mut tried, mut failed) = (0, Vec::new());
    for seed in 0..cases {
        let (number, failures) = less::run(seed, &words);
        tried += number;
        failed.extend(failures);
    }
    for failure in failed.iter().take(SHOWN) {
        println!("seed {}: {}\n{}", failure.seed, failure.what, failure.dump);
    }
    for failure in failed.iter().skip(SHOWN).take(40) {
        println!("seed {}: {}", failure.seed, failure.what);
    }
    println!(
        "{tried} plans with one thing less said, {} said more",
        failed.len()
    );
    match failed.is_empty() {
        true => ExitCode::SUCCESS,
        false => ExitCode::FAILURE,
    }
}

/// How many of this many seeds show each fault, and the first that does.
fn faults(cases: u64) -> ExitCode {
    let mut missed = false;
    let only = std::env::args()
        .skip_while(|argument| argument != "--faults")
        .nth(2);
    let meant = |fault: &&Fault| {
        only.as_ref()
            .is_none_or(|name| *name == format!("{fault:?}"))
    };
    for fault in Fault::ALL.iter().filter(meant) {
        let seeds: Vec<u64> = fault.caught(cases).collect();
        let first: Vec<&u64> = seeds.iter().take(8).collect();
        println!("{fault:?}: {} of {cases}, {first:?}", seeds.len());
        missed |= seeds.is_empty();
    }
    match missed {
        false => ExitCode::SUCCESS,
        true => ExitCode::FAILURE,
    }
}

/// All bundled cases with one statement left out in turn.
fn bundled() -> ExitCode {
    let only = std::env::args()
        .skip_while(|argument| argument != "--bundled")
        .nth(1);
    let found = deletions::run(false, only.as_deref());
    for more in &found.more {
        println!("{more}");
    }
    println!(
        "{} plans with one thing less said, {} said more; {} could not be read",
        found.judged,
        found.more.len(),
        found.unreadable
    );
    match found.more.is_empty() {
        true => ExitCode::SUCCESS,
        false => ExitCode::FAILURE,
    }
}

fn main() -> ExitCode {
    if let Some(cases) = number_after("--faults") {
        return faults(cases);
    }
    if let Some(cases) = number_after("--same") {
        return in_other_words(cases);
    }
    if std::env::args().any(|argument| argument == "--bundled") {
        return bundled();
    }
    if let Some(cases) = number_after("--less") {
        return with_less_said(cases);
    }
    let first = number_after("--seed").unwrap_or(0);
    let cases = number_after("--cases").unwrap_or(1);
    let next = AtomicU64::new(first);
    let (total, failures) = (Mutex::new(Tally::default()), Mutex::new(Vec::new()));
    std::thread::scope(|scope| {
        for _ in 0..2 {
            scope.spawn(|| {
                let (tally, failed) = work(&next, first + cases);
                if let (Ok(mut total), Ok(mut failures)) = (total.lock(), failures.lock()) {
                    total.add(&tally);
                    failures.extend(failed);
                }
            });
        }
    });
    let tally = total.into_inner().unwrap_or_default();
    let mut failures = failures.into_inner().unwrap_or_default();
    failures.sort_by_key(|failure| failure.seed);
    report(&tally, &failures);
    match failures.is_empty() {
        true => ExitCode::SUCCESS,
        false => ExitCode::FAILURE,
    }
}

fn work(next: &AtomicU64, end: u64) -> (Tally, Vec<Failure>) {
    let (words, mut library) = (Words::new(), Library::default());
    let of_sites = std::env::args().any(|argument| argument == "--sites");
    let (mut tally, mut failures) = (Tally::default(), Vec::new());
    loop {
        let seed = next.fetch_add(1, Ordering::Relaxed);
        if seed >= end {
            return (tally, failures);
        }
        let outcome = catch_unwind(AssertUnwindSafe(|| match of_sites {
            true => sites::run(seed, &mut library, &mut tally, None),
            false => run(seed, &words, &mut tally),
        }));
        match outcome {
            Ok(Ok(())) => {}
            Ok(Err(failure)) => failures.push(failure),
            Err(said) if is_refused(said.as_ref()) => tally.refused += 1,
            Err(_) => failures.push(Failure {
                seed,
                what: "panic".to_owned(),
                dump: String::new(),
            }),
        }
    }
}

/// Whether a case stopped because judging it would take too many steps.
fn is_refused(said: &dyn std::any::Any) -> bool {
    let said = said.downcast_ref::<String>();
    said.is_some_and(|said| said.starts_with("not too much work"))
}

fn report(tally: &Tally, failures: &[Failure]) {
    for failure in failures.iter().take(SHOWN) {
        println!("seed {}: {}\n{}", failure.seed, failure.what, failure.dump);
    }
    for failure in failures.iter().skip(SHOWN).take(40) {
        println!("seed {}: {}", failure.seed, failure.what);
    }
    println!("{tally:?}");
    println!("failed: {}", failures.len());
    println!(
        "decided: {:.1} % of blurred findings",
        tally.decided_share()
    );
    println!(
        "tight: {:.1} % of open findings of one test; {:.1} % where selections have conditions",
        tally.tightness(),
        tally.filtered_tightness()
    );
}
