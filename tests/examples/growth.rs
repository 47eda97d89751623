//! How much work large inputs are: steps, time and memory, each in a process of its own.
//!
//! `cargo run --release -p outside-checks --example growth`, or with the name of one row.

use std::process::Command;
use std::time::Instant;

use outside_checks::large;
use rules_core::ruleset::say::read_back;
use rules_core::vocabulary::Vocabulary;
use rules_core::{check, judge_texts, plan, read_rules, ruleset, work};

const ELDERMERE: &str = include_str!("../../rulesets/eldermere/rules.yaml");
const HOME: &str = include_str!("../../rulesets/eldermere/home.yaml");
const MODEL: &str = include_str!("../../rulesets/model-municipality/rules.yaml");

fn main() {
    match std::env::args().nth(1) {
        Some(row) => one(&row),
        None => all(),
    }
}

type Row = (&'static str, fn() -> String, fn() -> String);

fn demo(times: usize) -> String {
    let rules = ruleset::read(ELDERMERE, &|_| None, Vocabulary::standard())
        .expect("rules")
        .rule_set;
    let home = plan::read(HOME, &rules.vocabulary).expect("plan");
    let more = large::more_things(&home, &rules, times);
    let start = Instant::now();
    let (found, steps) = work::counted(|| check::check(&more, &rules).is_ok());
    format!(
        "{} | {steps} | {:.1} ms | {} |",
        if found { "judged" } else { "refused" },
        start.elapsed().as_secs_f64() * 1e3,
        memory()
    )
}

fn rows() -> Vec<Row> {
    vec![
        ("demo", || HOME.to_owned(), || ELDERMERE.to_owned()),
        ("laughs-4", large::small_plan, || large::laughs(4)),
        ("laughs-5", large::small_plan, || large::laughs(5)),
        ("six-laughs", large::small_plan, || large::many_laughs(6)),
        ("doubling-15", large::small_plan, || large::doubling(15)),
        ("nest-8", large::small_plan, || {
            large::nested_each(8, "lot-line")
        }),
        ("pools-10", || large::pools(10), || ELDERMERE.to_owned()),
        ("pools-100", || large::pools(100), || ELDERMERE.to_owned()),
        ("pools-10-model", || large::pools(10), || MODEL.to_owned()),
        ("pools-20-model", || large::pools(20), || MODEL.to_owned()),
        ("pools-100-model", || large::pools(100), || MODEL.to_owned()),
        (
            "corners-200",
            || large::corners(200),
            || ELDERMERE.to_owned(),
        ),
        (
            "corners-2000",
            || large::corners(2000),
            || ELDERMERE.to_owned(),
        ),
        (
            "corners-8000",
            || large::corners(8000),
            || ELDERMERE.to_owned(),
        ),
        (
            "fence-10000",
            || large::close_fence(10_000),
            || ELDERMERE.to_owned(),
        ),
        (
            "fence-50000",
            || large::close_fence(50_000),
            || ELDERMERE.to_owned(),
        ),
        (
            "nearest-1000",
            || large::trees_and_wells(1000, 1000),
            large::nearest,
        ),
        (
            "pairs-1000",
            || large::trees_and_wells(1000, 1000),
            large::each_pair,
        ),
    ]
}

fn all() {
    println!("| | | steps | time | peak memory |\n|---|---|---|---|---|");
    let myself = std::env::current_exe().expect("its own path");
    let demos = ["demo-1", "demo-10", "demo-60"].into_iter();
    for name in rows().into_iter().map(|(name, ..)| name).chain(demos) {
        let out = Command::new("timeout")
            .arg("60")
            .arg(&myself)
            .arg(name)
            .output()
            .expect("runs");
        let said = String::from_utf8_lossy(&out.stdout);
        println!(
            "| {name} | {}",
            if said.is_empty() {
                "over a minute |"
            } else {
                said.trim()
            }
        );
    }
}

fn one(name: &str) {
    if let Some(times) = name.strip_prefix("demo-") {
        println!("{}", demo(times.parse().expect("a number")));
        return;
    }
    let rows = rows();
    let (_, plan, rules) = rows.iter().find(|row| row.0 == name).expect("a row");
    let (plan, rules) = (plan(), rules());
    let files = outside_checks::pages::of_rule_sets("rules.yaml").expect("the bundled rule sets");
    let start = Instant::now();
    let (answer, steps) = work::counted(|| {
        if let Ok(read) = read_rules(&rules, &|name| files.get(name).map(String::as_str)) {
            read_back(&read.rule_set).to_text();
        }
        judge_texts(&plan, &rules, &|name| files.get(name).map(String::as_str))
    });
    let took = start.elapsed().as_secs_f64();
    if let Err(refusal) = &answer {
        eprint!(
            "{}",
            refusal
                .show("plan", "rules")
                .chars()
                .take(600)
                .collect::<String>()
        );
    }
    println!(
        "{} | {steps} | {:.1} ms | {} |",
        if answer.is_ok() { "judged" } else { "refused" },
        took * 1e3,
        memory()
    );
}

fn memory() -> String {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let peak = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    peak.map_or("?".to_owned(), |peak| peak.trim().to_owned())
}
