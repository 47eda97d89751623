//! Edge cases of each limit, which the program makes itself: just inside, at the limit, just outside.

use std::collections::BTreeMap;

use super::overlay::json;
use super::written::{Case, read_file};
use crate::check::{Finding, Outcome, check};
use crate::plan::{self, Amount, Plan, Possible};
use crate::quantity::Interval;
use crate::ruleset::say::{Sides, sides};
use crate::ruleset::words::{bound_words, value_words};
use crate::ruleset::{Bound, Once, Requirement, Rule, RuleSet, Test, Then, Value};
use crate::text::{Faults, Node};
use crate::vocabulary::FactId;

/// One limit, tried at its edges.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct EdgeCase {
    /// The rule's id.
    pub rule: String,
    /// The limit in words: `the height of the latch: at least 1.5 m`.
    pub limit: String,
    /// The case that the three were made from; `None` if the rule applies in no case.
    pub case: Option<String>,
    /// The rule's outcome at each of them; empty if there is no case.
    pub edges: Vec<Edge>,
}

/// A rule's outcome with one amount.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Edge {
    /// `just inside`, `at the limit` or `just outside`.
    pub place: &'static str,
    /// The amount in words.
    pub amount: String,
    /// The rule's outcome.
    pub outcome: Outcome,
}

/// Tries each stated limit on a fact at its edges. It takes the first case in which the rule is decided, else the first
/// in which it is open, and sets the fact, on all things of its kind, to just inside the limit, to the limit, and to
/// just outside.
///
/// # Errors
/// What is wrong with the cases themselves.
pub fn edges(rules: &RuleSet, cases: &Node) -> Result<Vec<EdgeCase>, Faults> {
    let mut faults = Faults::default();
    let read = read_file(cases, &mut faults);
    let cases = faults.or(read.unwrap_or_default())?;
    let judged: Vec<JudgedCase<'_>> = cases
        .iter()
        .filter_map(|case| JudgedCase::of(case, rules))
        .collect();
    let own = rules.rules.iter().enumerate();
    let own = own.filter(|(_, rule)| rule.layer == 0);
    Ok(own
        .flat_map(|(index, rule)| of_rule(index, rule, rules, &judged))
        .collect())
}

/// A case's plan, and each rule's outcome on it.
struct JudgedCase<'c> {
    case: &'c str,
    plan: Plan,
    outcomes: BTreeMap<usize, Outcome>,
}

impl<'c> JudgedCase<'c> {
    fn of(case: &Case<'c>, rules: &RuleSet) -> Option<Self> {
        let plan = plan::read(&json(&case.plan), &rules.vocabulary).ok()?;
        let found = check(&plan, rules).ok()?;
        let outcomes = found
            .rules
            .iter()
            .map(|finding| (finding.rule, finding.outcome));
        Some(Self {
            case: case.id,
            outcomes: outcomes.collect(),
            plan,
        })
    }

    fn is_one_of(&self, rule: usize, outcomes: &[Outcome]) -> bool {
        let own = self.outcomes.get(&rule);
        own.is_some_and(|own| outcomes.contains(own))
    }
}

fn of_rule(index: usize, rule: &Rule, rules: &RuleSet, judged: &[JudgedCase<'_>]) -> Vec<EdgeCase> {
    let mut limits = Vec::new();
    add_limits(&rule.require, rules, &mut limits, &mut Once::default());
    // Where a rule is open or referred for another reason, that may hide the limit, so a case that decides it is
    // preferred.
    let first = |outcomes: &[Outcome]| judged.iter().find(|one| one.is_one_of(index, outcomes));
    let base = first(&[Outcome::Pass, Outcome::Fail])
        .or_else(|| first(&[Outcome::Unknown, Outcome::Marginal]));
    limits
        .iter()
        .map(|limit| EdgeCase {
            rule: rule.id.clone(),
            limit: limit.words(rules),
            case: base.map(|base| base.case.to_owned()),
            edges: base.map_or_else(Vec::new, |base| limit.tried(index, &base.plan, rules)),
        })
        .collect()
}

fn outcome(index: usize, plan: &Plan, rules: &RuleSet) -> Option<Outcome> {
    let found = check(plan, rules).ok()?;
    let of_rule = |finding: &&Finding| finding.rule == index;
    Some(found.rules.iter().find(of_rule)?.outcome)
}

/// A stated limit on one fact.
struct FactLimit<'r> {
    value: &'r Value,
    fact: FactId,
    bound: &'r Bound,
    sides: Sides,
}

impl FactLimit<'_> {
    fn words(&self, rules: &RuleSet) -> String {
        format!(
            "{}: {}",
            value_words(self.value, rules),
            bound_words(self.bound, rules)
        )
    }

    fn tried(&self, index: usize, plan: &Plan, rules: &RuleSet) -> Vec<Edge> {
        let sides = &self.sides;
        [
            ("just inside", sides.inside),
            ("at the limit", sides.at),
            ("just outside", sides.outside),
        ]
        .into_iter()
        .filter(|(_, amount)| sides.can_be(*amount))
        .filter_map(|(place, amount)| {
            Some(Edge {
                place,
                amount: sides.words(amount),
                outcome: outcome(index, &self.set(plan, amount, rules), rules)?,
            })
        })
        .collect()
    }

    /// The plan with the fact set to exactly this amount.
    fn set(&self, plan: &Plan, amount: i128, rules: &RuleSet) -> Plan {
        let fact = rules.vocabulary.fact(self.fact);
        let exact = Interval::exact(amount);
        let possible = Possible {
            amount: Some(Amount {
                least: exact,
                most: fact.varies.then_some(exact),
                drawn: Some((amount, amount)),
                dimension: self.sides.unit.dimension(),
                unit: Some(self.sides.unit),
            }),
            ..Possible::default()
        };
        let mut plan = plan.clone();
        let of_kind = plan
            .things
            .iter_mut()
            .filter(|thing| thing.kind == fact.kind);
        for thing in of_kind {
            thing.facts.insert(self.fact, possible.clone());
        }
        plan
    }
}

fn add_limits<'r>(
    requirement: &'r Requirement,
    rules: &RuleSet,
    found: &mut Vec<FactLimit<'r>>,
    terms: &mut Once,
) {
    let mut add = |one: &'r Requirement| add_limits(one, rules, found, terms);
    match requirement {
        Requirement::Test(test) => found.extend(of_test(test, rules)),
        Requirement::All(list) | Requirement::Any(list) | Requirement::Count { of: list, .. } => {
            list.iter().for_each(add);
        }
        Requirement::Each(each) => add(&each.require),
        Requirement::Meets { requirement, .. } => {
            if terms.is_first(requirement) {
                add_limits(requirement, rules, found, terms);
            }
        }
        Requirement::Table(table) => {
            let rows = table.rows.iter().filter_map(|row| match &row.then {
                Then::Give(requirement) => Some(requirement),
                Then::Refer => None,
            });
            rows.for_each(add);
        }
        // `not` turns a limit round, so limits under it are left to the cases.
        Requirement::Not(_) | Requirement::Have(_) | Requirement::Refer => {}
    }
}

fn of_test<'r>(test: &'r Test, rules: &RuleSet) -> Vec<FactLimit<'r>> {
    let Some(fact) = fact_of(&test.value) else {
        return Vec::new();
    };
    let limit = |bound| {
        Some(FactLimit {
            value: &test.value,
            fact,
            bound,
            sides: sides(&test.value, bound, rules)?,
        })
    };
    test.bounds.iter().filter_map(limit).collect()
}

fn fact_of(value: &Value) -> Option<FactId> {
    match value {
        Value::Fact(fact) => Some(*fact),
        Value::Named { value, .. } => fact_of(value),
        _ => None,
    }
}
