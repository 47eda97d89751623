//! Small rule sets and plans, written as text and judged through the library.
#![allow(dead_code, reason = "not every test file needs all of it")]

pub mod measured;

use outside_checks::cases::changed_base;
pub use rules_core::check::Outcome;
use rules_core::check::check;
use rules_core::plan::{self, Plan};
use rules_core::ruleset::{self, RuleSet};
use rules_core::vocabulary::Vocabulary;

/// What a test adds to a lot of 24 m by 28 m with a pool of 4 m by 8 m, 10 m from three lines; all drawn exactly.
#[derive(Default)]
pub struct Plot {
    lot: String,
    pool: String,
    things: String,
    more: String,
}

impl Plot {
    /// With a fact of the pool.
    pub fn pool(fact: &str, value: &str) -> Self {
        Self {
            pool: format!("  {fact}: {value}\n"),
            ..Self::default()
        }
    }

    /// With another fact of the pool.
    pub fn and_pool(mut self, fact: &str, value: &str) -> Self {
        self.pool.push_str(&format!("  {fact}: {value}\n"));
        self
    }

    /// With something said of the lot.
    pub fn lot(key: &str, value: &str) -> Self {
        Self {
            lot: format!("  {key}: {value}\n"),
            ..Self::default()
        }
    }

    /// With one more thing.
    pub fn thing(thing: &str) -> Self {
        Self {
            things: format!("  - {thing}\n"),
            ..Self::default()
        }
    }

    /// With a fence of which this is stated.
    pub fn fence(fact: &str, value: &str) -> Self {
        Self::thing(&format!(
            "{{kind: barrier-stretch, id: f, {fact}: {value}}}"
        ))
    }

    /// With something else at the top of the file.
    pub fn top(more: &str) -> Self {
        Self {
            more: format!("{more}\n"),
            ..Self::default()
        }
    }

    fn text(&self) -> String {
        let Self {
            lot,
            pool,
            things,
            more,
        } = self;
        format!(
            "plan: plot
title: A plot
unit: m
sources: [{{id: exact, by: survey, accuracy: 0 m, shift: 0 m}}]
lot:
  source: exact
  level-ground: yes
{lot}  corners: {{a: [0, 0], b: [24, 0], c: [24, 28], d: [0, 28]}}
  sides:
    - {{id: a-b, from: a, to: b, beyond: neighbour-lot}}
    - {{id: b-c, from: b, to: c, beyond: neighbour-lot}}
    - {{id: c-d, from: c, to: d, beyond: neighbour-lot}}
    - {{id: d-a, from: d, to: a, beyond: neighbour-lot}}
pool:
  id: pool
  source: exact
  water: {{rectangle: {{at: [10, 10], length: 4 m, width: 8 m}}}}
{pool}{more}things:
{things}inventory:
  barrier-stretch: all-shown
  deck: all-shown
  gate: all-shown
  overhead-line: all-shown
  railway: all-shown
  tree: all-shown
"
        )
    }
}

fn rules(body: &str) -> RuleSet {
    let text =
        format!("ruleset: r\ntitle: T\nedition: \"1\"\nauthority: Nobody\nnotice: A test\n{body}");
    let checked = ruleset::read(&text, &|_| None, Vocabulary::standard()).unwrap_or_else(|files| {
        let shown = files.iter().map(|file| file.faults.show("rules", &text));
        panic!("{}", shown.collect::<String>())
    });
    checked.rule_set
}

fn plan(plot: &Plot, rules: &RuleSet) -> Plan {
    let text = plot.text();
    plan::read(&text, &rules.vocabulary)
        .unwrap_or_else(|faults| panic!("{}", faults.show("plan", &text)))
}

/// The outcome of the one rule of a rule set.
pub fn outcome(body: &str, plot: &Plot) -> Outcome {
    let rules = rules(body);
    let plan = plan(plot, &rules);
    let found = check(&plan, &rules).expect("not too much work");
    found.rules.first().expect("one rule").outcome
}

/// The outcome of a rule for each value in its place.
pub fn outcomes<const N: usize>(
    rule: &str,
    values: [(&str, Outcome); N],
    plot: impl Fn(&str) -> Plot,
) {
    let body = format!("rules:\n  - id: r\n    title: A rule\n    clause: \"1\"{rule}\n");
    for (value, expected) in values {
        assert_eq!(outcome(&body, &plot(value)), expected, "{value}");
    }
}

/// The class that a table decides on.
pub fn class_of(table: &str, plot: &Plot) -> String {
    classes_of(table, plot).join(" or ")
}

/// All classes that are still possible.
pub fn classes_of(table: &str, plot: &Plot) -> Vec<String> {
    let rules = rules(&format!(
        "rules: []\ndecide:\n  - {{id: d, table: {table}}}\n"
    ));
    let plan = plan(plot, &rules);
    let found = check(&plan, &rules).expect("not too much work");
    let [decided] = &found.decisions[..] else {
        panic!("one decision")
    };
    decided
        .classes
        .iter()
        .map(|class| (*class).to_owned())
        .collect()
}

/// What a rule, or `decide` and a decision, comes to on the base plan of some cases with a change.
pub fn comes_to(rules: &RuleSet, cases: &str, what: &str, change: &str) -> String {
    let text = changed_base(cases, change)
        .unwrap_or_else(|faults| panic!("{}", faults.show("change", change)));
    let plan = plan::read(&text, &rules.vocabulary)
        .unwrap_or_else(|faults| panic!("{}", faults.show(change, &text)));
    let found = check(&plan, rules).expect("not too much work");
    if let Some(id) = what.strip_prefix("decide ") {
        let decided = found
            .decisions
            .iter()
            .find(|it| rules.decisions[it.decision].id == id);
        return decided.expect("the decision").classes.join(" or ");
    }
    let finding = found
        .rules
        .iter()
        .find(|it| rules.rule(it.rule).unwrap().id == what);
    finding.expect("the rule").outcome.word().to_owned()
}

/// Numbers that look random and are the same in every run.
pub struct Dice(u64);

impl Dice {
    /// From a seed.
    pub fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// A number between two, by the generator SplitMix64.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut bits = self.0;
        bits = (bits ^ (bits >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        bits = (bits ^ (bits >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        bits ^= bits >> 31;
        low + (high - low) * ((bits >> 11) as f64 / (1_u64 << 53) as f64)
    }
}
