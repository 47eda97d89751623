//! How much work large inputs take: steps, time and memory, each input in its own process.
//!
//! Run `cargo run --release -p outside-checks --bin growth`, perhaps with the names of some rows, such as
//! `pools-100/denmark`. `--each-rule` and a row show what each of its rules takes.

use std::process::Command;

use outside_checks::large::{self, rows};
use outside_checks::pages;
use rules_core::plan::Plan;
use rules_core::ruleset::RuleSet;
use rules_core::ruleset::say::read_back;
use rules_core::vocabulary::Vocabulary;
use rules_core::{check, judge_texts, plan, read_rules, ruleset, to_json, work};

const ELDERMERE: &str = include_str!("../../../rulesets/eldermere/rules.yaml");
const HOME: &str = include_str!("../../../rulesets/eldermere/home.yaml");

fn main() {
    let asked: Vec<String> = std::env::args().skip(1).collect();
    match asked.as_slice() {
        [] => all(&all_names()),
        [only, name] if only == "--only" => println!("{}", one(name)),
        [each, name] if each == "--each-rule" => each_rule(name),
        names => all(names),
    }
}

fn all_names() -> Vec<String> {
    let sized = |row: rows::Row| {
        row.sizes
            .iter()
            .map(move |size| format!("{}-{size}", row.name))
    };
    let mut names: Vec<String> = rows::rows().into_iter().flat_map(sized).collect();
    let sets = pages::of_rule_sets("rules.yaml").expect("the bundled rule sets");
    names.extend(sets.keys().map(|set| format!("pools-100/{set}")));
    names.extend(["times-1", "times-10", "times-60"].map(str::to_owned));
    names
}

fn all(names: &[String]) {
    println!("| | | steps | time | peak memory |\n|---|---|---|---|---|");
    let myself = std::env::current_exe().expect("its own path");
    for name in names {
        let mut only = Command::new("timeout");
        only.arg("60").arg(&myself).args(["--only", name]);
        let out = only.output().expect("runs");
        eprint!("{}", String::from_utf8_lossy(&out.stderr));
        let said = String::from_utf8_lossy(&out.stdout);
        match said.trim() {
            "" => println!("| {name} | over a minute |"),
            said => println!("| {name} | {said}"),
        }
    }
}

fn one(name: &str) -> String {
    let before = worked();
    let ((what, bytes), steps) = work::counted(|| match name.strip_prefix("times-") {
        Some(times) => demo(times.parse().expect("a number")),
        None => row(name),
    });
    let took = worked() - before;
    let each = took * 1e6 / steps.max(1) as f64;
    format!(
        "{what} | {steps} | {took:.0} ms | {} | {bytes} B in | {each:.0} ns a step |",
        memory()
    )
}

/// The demo with its things multiplied, judged without a report.
fn demo(times: usize) -> (&'static str, usize) {
    let (plan, rules) = more_of_the_demo(times);
    let judged = check::check(&plan, &rules).is_ok();
    (if judged { "judged" } else { "refused" }, 0)
}

fn more_of_the_demo(times: usize) -> (Plan, RuleSet) {
    let rules = ruleset::read(ELDERMERE, &|_| None, Vocabulary::standard());
    let rules = rules.expect("rules").rule_set;
    let home = plan::read(HOME, &rules.vocabulary).expect("plan");
    (large::more_things(&home, &rules, times), rules)
}

/// A row read, read back, judged, and reported as text and as JSON.
fn row(name: &str) -> (&'static str, usize) {
    let files = pages::of_rule_sets("rules.yaml").expect("the bundled rule sets");
    let bundled = |name: &str| files.get(name).map(String::as_str);
    let row = rows::named(name, &|set| files.get(set).cloned());
    let (plan, rules) = row.expect("a row");
    if let Ok(read) = read_rules(&rules, &bundled) {
        read_back(&read.rule_set).to_text();
    }
    let answer = judge_texts(&plan, &rules, &bundled);
    let written = to_json(&answer).to_string().len();
    let size = plan.len() + rules.len();
    if let Err(refusal) = &answer {
        let said: String = refusal.show("plan", "rules").chars().take(300).collect();
        eprintln!("{name}: {said}");
    }
    eprintln!("{name}: {written} B of JSON");
    (if answer.is_ok() { "judged" } else { "refused" }, size)
}

/// The processor time of this process, in milliseconds.
fn worked() -> f64 {
    let told = std::fs::read_to_string("/proc/self/schedstat").unwrap_or_default();
    let first = told.split_whitespace().next();
    first.and_then(|it| it.parse::<f64>().ok()).unwrap_or(0.0) / 1e6
}

/// Shows what each rule of a row takes by itself.
fn each_rule(name: &str) {
    let (plan, rules) = match name.strip_prefix("times-") {
        Some(times) => more_of_the_demo(times.parse().expect("a number")),
        None => read(name),
    };
    for rule in &rules.rules {
        let alone = RuleSet {
            rules: vec![rule.clone()],
            ..rules.clone()
        };
        let before = worked();
        let (_, steps) = work::counted(|| check::check(&plan, &alone).is_ok());
        println!("{steps:>12} {:>6.0} ms {}", worked() - before, rule.id);
    }
}

/// The plan and the rules of a row.
fn read(name: &str) -> (Plan, RuleSet) {
    let files = pages::of_rule_sets("rules.yaml").expect("the bundled rule sets");
    let bundled = |name: &str| files.get(name).map(String::as_str);
    let row = rows::named(name, &|set| files.get(set).cloned());
    let (plan, rules) = row.expect("a row");
    let read = ruleset::read(&rules, &bundled, Vocabulary::standard());
    let rules = read.expect("rules").rule_set;
    let plan = plan::read(&plan, &rules.vocabulary).expect("plan");
    (plan, rules)
}

fn memory() -> String {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let peak = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    peak.map_or("?".to_owned(), |peak| peak.trim().to_owned())
}
