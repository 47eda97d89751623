//! How fast one check is, how it grows with the things and the rules, and how fast a distance is beside a peer.
//!
//! `cargo run --release -p outside-checks --example speed`, on a machine that does nothing else.

use std::hint::black_box;
use std::time::{Duration, Instant};

use geo::{Distance, Euclidean};
use outside_checks::large::more_things;
use outside_checks::random_plans::Random;
use rules_core::plan::{Form, Plan, Point};
use rules_core::ruleset::RuleSet;
use rules_core::vocabulary::Vocabulary;
use rules_core::{check, measure, plan, ruleset};

const RULES: &str = include_str!("../../rulesets/eldermere/rules.yaml");
const HOME: &str = include_str!("../../rulesets/eldermere/home.yaml");
const TRIES: usize = 7;

fn main() {
    let rules = ruleset::read(RULES, &|_| None, Vocabulary::standard())
        .expect("the demo's rules are read")
        .rule_set;
    let home = plan::read(HOME, &rules.vocabulary).expect("the demo's plan is read");
    println!("| things | rules | one check | checks a second |");
    println!("|---|---|---|---|");
    for (things, times) in [(1, 1), (10, 1), (100, 1), (1, 10), (1, 100), (10, 10)] {
        let plan = more_things(&home, &rules, things);
        let rules = more_rules(&rules, times);
        let took = best(|| {
            black_box(check::check(&plan, &rules).is_ok());
        });
        println!(
            "| {} | {} | {:.1} µs | {:.0} |",
            plan.things.len(),
            rules.rules.len(),
            took.as_secs_f64() * 1e6,
            1.0 / took.as_secs_f64(),
        );
    }
    println!("\n| reading | takes |\n|---|---|");
    let rules_read = best(|| {
        black_box(ruleset::read(RULES, &|_| None, Vocabulary::standard()).is_ok());
    });
    let plan_read = best(|| {
        black_box(plan::read(HOME, &rules.vocabulary).is_ok());
    });
    println!("| the demo's rules | {rules_read:.2?} |\n| the demo's plan | {plan_read:.2?} |");
    five_hundred(&home);
    distances();
}

/// A file of 500 rules: how long it takes to read and check it, and to judge the demo's plan by it.
fn five_hundred(home: &Plan) {
    let text = many_rules(500);
    let parsed = best(|| {
        black_box(rules_core::text::read(&text).is_ok());
    });
    let read = best(|| {
        black_box(ruleset::read(&text, &|_| None, Vocabulary::standard()).is_ok());
    });
    let rules = ruleset::read(&text, &|_| None, Vocabulary::standard())
        .expect("500 rules are read")
        .rule_set;
    assert_eq!(rules.rules.len(), 500);
    let checked = best(|| {
        black_box(check::check(home, &rules).is_ok());
    });
    println!("| a file of 500 rules, taken apart | {parsed:.2?} |");
    println!("| the same, read and checked | {read:.2?} |");
    println!("| the demo's plan judged by it | {checked:.2?} |");
}

/// The demo's file with its rules again and again, each under another id.
fn many_rules(count: usize) -> String {
    let (head, rest) = RULES.split_once("\nrules:\n").expect("rules");
    let end = rest.find("\ndocuments:").unwrap_or(rest.len());
    let (rules, tail) = rest.split_at(end);
    let mut items: Vec<String> = Vec::new();
    for line in rules.lines() {
        match line.strip_prefix("  - id: ") {
            Some(id) => items.push(format!("  - id: {id}\n")),
            None => items.last_mut().into_iter().for_each(|item| {
                item.push_str(line);
                item.push('\n');
            }),
        }
    }
    let copies = (0..).flat_map(|copy| items.iter().map(move |item| (copy, item)));
    let again = copies.take(count).map(|(copy, item)| match copy {
        0 => item.clone(),
        _ => item.replacen('\n', &format!("-{copy}\n"), 1),
    });
    format!("{head}\nrules:\n{}{tail}", again.collect::<String>())
}

/// The least time of one call, of several runs of about a fifth of a second.
fn best(act: impl Fn()) -> Duration {
    let run = || {
        let (start, mut calls) = (Instant::now(), 0_u32);
        while start.elapsed() < Duration::from_millis(200) {
            act();
            calls += 1;
        }
        start.elapsed() / calls
    };
    (0..TRIES).map(|_| run()).min().unwrap_or_default()
}

fn more_rules(rules: &RuleSet, times: usize) -> RuleSet {
    let mut more = rules.clone();
    more.rules = std::iter::repeat_n(&rules.rules, times)
        .flatten()
        .cloned()
        .collect();
    more
}

/// Distances between rings of 5 to 20 corners, beside `geo`'s on the same rings.
fn distances() {
    let mut random = Random::new(1);
    let rings: Vec<Vec<Point>> = (0..2000).map(|_| ring(&mut random)).collect();
    let forms: Vec<Form> = rings.iter().cloned().map(Form::Ring).collect();
    let polygons: Vec<geo::Polygon<f64>> = rings.iter().map(|ring| polygon(ring)).collect();
    let own = best(|| {
        forms.windows(2).for_each(|pair| {
            if let [a, b] = pair {
                black_box(measure::distance(a, b));
            }
        });
    });
    let peer = best(|| {
        polygons.windows(2).for_each(|pair| {
            if let [a, b] = pair {
                black_box(Euclidean.distance(a, b));
            }
        });
    });
    let each = |all: Duration| all.as_secs_f64() / 1999.0;
    println!("\n| distance of two rings | one | ratio |\n|---|---|---|");
    println!(
        "| exact, with its two places | {:.2} µs | {:.2} × |",
        each(own) * 1e6,
        each(peer) / each(own)
    );
    println!(
        "| `geo`, f64, without places | {:.2} µs | 1 × |",
        each(peer) * 1e6
    );
}

/// A star-shaped ring somewhere on a lot of 60 m.
fn ring(random: &mut Random) -> Vec<Point> {
    let corners = random.within(5, 20);
    let (x, y) = (random.within(0, 60_000), random.within(0, 60_000));
    (0..corners)
        .map(|corner| {
            let angle = corner as f64 * std::f64::consts::TAU / corners as f64;
            let radius = random.within(1_000, 5_000) as f64;
            let at = |centre: i64, part: f64| (centre + (part * radius) as i64) * 1_000_000;
            Point {
                x: at(x, libm::cos(angle)),
                y: at(y, libm::sin(angle)),
            }
        })
        .collect()
}

fn polygon(ring: &[Point]) -> geo::Polygon<f64> {
    let metres = |nanometres: i64| nanometres as f64 / 1e9;
    let line = ring.iter().map(|point| (metres(point.x), metres(point.y)));
    geo::Polygon::new(line.collect(), Vec::new())
}
