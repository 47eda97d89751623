//! Rules reworded without a change of meaning come out the same.

pub mod map;
mod rewrite;
mod split;

pub use rewrite::opposite;

use std::collections::BTreeMap;

use rules_core::check::check;
use rules_core::plan::Plan;
use rules_core::ruleset::{Rule, RuleSet};

use super::blur;
use super::classes::Classes;
use super::dump;
use super::generate::{self, Style};
use super::random::Random;
use super::words::Words;

/// Rewrites a rule; `None` if the way does not fit it.
type Rewrite = fn(&Words, &Plan, &Rule) -> Option<(Rule, Option<Plan>)>;

/// A way of rewriting a rule.
pub struct Way {
    /// Its name.
    pub name: &'static str,
    /// Whether it keeps the meaning only for rules about things that are certainly there.
    pub solid: bool,
    rewrite: Rewrite,
}

fn same_plan(rule: Rule) -> Option<(Rule, Option<Plan>)> {
    Some((rule, None))
}

macro_rules! ways {
    ($($name:literal, $solid:expr, $rewrite:expr;)*) => {
        /// All ways.
        pub const WAYS: &[Way] = &[$(Way { name: $name, solid: $solid, rewrite: $rewrite },)*];
    };
}

ways! {
    "de morgan", false, |_, _, rule| same_plan(rewrite::de_morgan(rule));
    "not not", false, |_, _, rule| same_plan(rewrite::twice_not(rule));
    "rows by conditions", false, |_, _, rule| same_plan(rewrite::rows_by_conditions(rule));
    "rows turned", false, |_, _, rule| same_plan(rewrite::rows_turned(rule));
    "when into any-of", true, |_, _, rule| same_plan(rewrite::when_into_any(rule)?);
    "when into unless", false, |_, _, rule| same_plan(rewrite::when_into_unless(rule)?);
    "unless into when", false, |_, _, rule| same_plan(rewrite::unless_into_when(rule)?);
    "through a term", false, |words, _, rule| same_plan(rewrite::through_a_term(rule, words.pool));
    "other units", false, |_, _, rule| same_plan(rewrite::other_units(rule));
    "other order", false, |_, _, rule| same_plan(rewrite::other_order(rule));
    "not the opposite", true, |_, _, rule| same_plan(rewrite::not_the_opposite(rule));
    "not all along not", true, |_, _, rule| same_plan(rewrite::not_all_along_not(rule));
    "any-of as a count", true, |_, _, rule| same_plan(rewrite::any_as_count(rule));
    "each inside", false, |_, _, rule| same_plan(rewrite::each_inside(rule)?);
    "relief into any-of", true, |_, _, rule| same_plan(rewrite::relief_into_any(rule)?);
    "each pool", false, |words, _, rule| same_plan(rewrite::each_pool(rule, words.pool)?);
    "where into any-of", true, |_, _, rule| same_plan(rewrite::where_into_any(rule)?);
    "ends turned", true, |_, _, rule| same_plan(rewrite::ends_turned(rule));
    "tapes turned", false, |_, plan, rule| tapes_turned(plan, rule);
    "a thing split", true, split::split;
    "all along what does not change", true, |words, plan, rule| {
        same_plan(split::all_along(words, plan, rule)?)
    };
}

/// Turns every tape reading round.
fn tapes_turned(plan: &Plan, rule: &Rule) -> Option<(Rule, Option<Plan>)> {
    let mut turned = plan.clone();
    for tape in &mut turned.measured {
        std::mem::swap(&mut tape.from, &mut tape.to);
    }
    (turned != *plan).then(|| (rule.clone(), Some(turned)))
}

/// A rule whose rewritten form comes out differently.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Differs {
    /// The seed, to run it again.
    pub seed: u64,
    /// How it was rewritten.
    pub way: &'static str,
    /// The two outcomes, and both rules.
    pub what: String,
}

/// How often each way actually changed a rule.
pub type Tried = BTreeMap<&'static str, u64>;

/// Tries all ways on the rules and a plan of a seed.
pub fn run(seed: u64, words: &Words, tried: &mut Tried) -> Vec<Differs> {
    let mut random = Random::new(seed);
    let world = generate::world(&mut random, words);
    let mut differing = Vec::new();
    for style in [Style::Rich, Style::Solid, Style::Changing] {
        let rules = generate::rule_set(&mut random, words, &world, 1, style);
        let steps = random.below(8);
        let chain = blur::chain(&mut random, words, (&world, &rules), steps);
        let case = Case {
            seed,
            words,
            plan: &chain[chain.len() - 1].plan,
            rules: &rules,
        };
        for way in WAYS {
            if style != Style::Rich || !way.solid {
                differing.extend(case.differs(way, tried));
            }
        }
    }
    differing
}

struct Case<'a> {
    seed: u64,
    words: &'a Words,
    plan: &'a Plan,
    rules: &'a RuleSet,
}

impl Case<'_> {
    fn differs(&self, way: &Way, tried: &mut Tried) -> Option<Differs> {
        let rule = &self.rules.rules[0];
        let (other, plan) = (way.rewrite)(self.words, self.plan, rule)?;
        let otherwise = RuleSet {
            rules: vec![other],
            ..self.rules.clone()
        };
        if otherwise.rules == self.rules.rules && plan.is_none() && way.name != "other units" {
            return None;
        }
        *tried.entry(way.name).or_default() += 1;
        let before = check(self.plan, self.rules)
            .expect("not too much work")
            .rules[0]
            .truth;
        let after = check(plan.as_ref().unwrap_or(self.plan), &otherwise)
            .expect("not too much work")
            .rules[0]
            .truth;
        let (one, two) = (Classes::of(before), Classes::of(after));
        // A thing split in two has no values in between, so it may have fewer outcomes.
        let same = one == two || way.name == "a thing split" && two.within(one);
        (!same).then(|| Differs {
            seed: self.seed,
            way: way.name,
            what: format!(
                "{before:?} and {after:?}\n{}\n{}\n{}",
                dump::rule(&self.words.vocabulary, rule),
                dump::rule(&self.words.vocabulary, &otherwise.rules[0]),
                dump::plan(&self.words.vocabulary, self.plan)
            ),
        })
    }
}
