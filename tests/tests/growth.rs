//! Large inputs are answered or refused, and work grows with what is written: counted in steps, never by the clock.

use outside_checks::large::{self, rows};
use outside_checks::pages::of_rule_sets;
use rules_core::vocabulary::Vocabulary;
use rules_core::work::{MOST_STEPS, counted};
use rules_core::{Refusal, check, judge_texts, plan, ruleset};

const ELDERMERE: &str = include_str!("../../rulesets/eldermere/rules.yaml");
const HOME: &str = include_str!("../../rulesets/eldermere/home.yaml");

/// What an answer comes to: `judged`, or why it was refused.
fn came_to(refused: Option<&Refusal>) -> &'static str {
    let Some(refused) = refused else {
        return "judged";
    };
    let mut faults = refused.plan.iter().chain(&refused.rules);
    let first = faults.find_map(|file| file.faults.list.first());
    first.map_or("refused without a word", |fault| fault.code.word())
}

fn answer(name: &str) -> (&'static str, u64) {
    let files = of_rule_sets("rules.yaml").expect("the bundled rule sets");
    let row = rows::named(name, &|set| files.get(set).cloned());
    let (plan, rules) = row.unwrap_or_else(|| panic!("there is no row {name}"));
    let bases = |name: &str| files.get(name).map(String::as_str);
    let (answer, steps) = counted(|| judge_texts(&plan, &rules, &bases));
    (came_to(answer.as_ref().err()), steps)
}

/// Reading and judging have a bound each.
const MOST: u64 = 2 * MOST_STEPS + MOST_STEPS / 10;

#[test]
fn what_once_hung_is_judged_or_refused_with_a_reason() {
    for (name, expected) in [
        ("laughs-5", "judged"),
        ("laughs-40", "judged"),
        ("six-laughs-6", "judged"),
        ("doubling-15", "judged"),
        ("nest-8", "judged"),
        ("nest-20", "too-much-work"),
        ("pools-100", "judged"),
        ("pools-1000", "too-many-things"),
        ("corners-2000", "too-many-points"),
        ("corners-8000", "too-many-points"),
        ("fence-10000", "judged"),
        ("fence-50000", "judged"),
        ("enclosed-50000", "too-much-work"),
        ("combs-40", "too-much-work"),
        ("nearest-1000", "judged"),
        ("pairs-1000", "judged"),
        ("on-foot-1900", "judged"),
        ("covered-1900", "judged"),
        ("list-20000", "judged"),
        ("table-20000", "judged"),
        ("papers-500", "judged"),
    ] {
        let (found, steps) = answer(name);
        assert_eq!(found, expected, "{name}");
        assert!(steps <= MOST, "{name} takes {steps} steps");
    }
}

#[test]
fn a_hundred_pools_are_judged_under_every_bundled_rule_set() {
    let sets = of_rule_sets("rules.yaml").expect("the bundled rule sets");
    for set in sets.keys() {
        let (found, steps) = answer(&format!("pools-100/{set}"));
        assert_eq!(found, "judged", "{set} after {steps} steps");
        assert!(steps <= MOST_STEPS / 2, "{set} takes {steps} steps");
    }
}

/// Twice as much takes no more than so many hundredths of the steps.
fn grows(name: &str, size: usize, hundredths: u64) {
    let (once, twice) = (
        answer(&format!("{name}-{size}")),
        answer(&format!("{name}-{}", 2 * size)),
    );
    assert_eq!((once.0, twice.0), ("judged", "judged"), "{name}");
    assert!(
        100 * twice.1 <= hundredths * once.1,
        "{name}: {} steps at {size}, {} at twice as much",
        once.1,
        twice.1
    );
}

#[test]
fn twice_as_much_takes_no_more_than_a_little_over_twice_the_steps() {
    for (name, size) in [
        ("laughs", 20),
        ("pools", 25),
        ("fence", 5000),
        ("list", 1000),
        ("on-foot", 100),
        ("papers", 100),
        ("questions", 200),
    ] {
        grows(name, size, 260);
    }
}

#[test]
fn what_speaks_of_pairs_takes_no_more_than_a_little_over_four_times_the_steps() {
    for (name, size) in [
        ("nearest", 200),
        ("pairs", 200),
        ("corners", 50),
        ("combs", 2),
    ] {
        grows(name, size, 460);
    }
}

/// The steps for the demo with so many times the things, by some rules on top of its own.
fn more_of_the_demo(times: usize, rules: &str) -> u64 {
    let eldermere = |_: &str| Some(ELDERMERE);
    let rules = ruleset::read(rules, &eldermere, Vocabulary::standard());
    let rules = rules.expect("rules").rule_set;
    let home = plan::read(HOME, &rules.vocabulary).expect("plan");
    let more = large::more_things(&home, &rules, times);
    let (judged, steps) = counted(|| check::check(&more, &rules).is_ok());
    assert!(judged, "{times}");
    steps
}

/// Twenty times with the enclosure: the widest gap is looked for between each two stretches of a fence that may touch, and ten of each lie in one place.
#[test]
fn ten_times_the_things_of_the_demo_take_at_most_fourteen_times_the_steps() {
    for (rules, times) in [(large::unenclosed().as_str(), 14), (ELDERMERE, 20)] {
        let (one, ten) = (more_of_the_demo(1, rules), more_of_the_demo(10, rules));
        assert!(
            ten <= times * one,
            "{one} steps, {ten} for ten times the things"
        );
    }
}

/// Of pairs too far apart to matter nothing is measured.
#[test]
fn each_of_two_thousand_things_with_each_of_two_thousand_others_is_judged() {
    let (plan, rules) = (large::trees_and_wells(1000, 1000), large::each_pair());
    let rules = ruleset::read(&rules, &|_| None, Vocabulary::standard());
    let rules = rules.expect("rules").rule_set;
    let plan = plan::read(&plan, &rules.vocabulary).expect("plan");
    let more = large::more_things(&plan, &rules, 2);
    assert_eq!(more.things.len() - plan.things.len(), 2000);
    let (judged, steps) = counted(|| check::check(&more, &rules).is_ok());
    assert!(judged && steps <= MOST_STEPS / 4, "{steps} steps");
}
