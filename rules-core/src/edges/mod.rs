//! Cases that the program makes for the writer of a rule file: on each side of each limit, one just inside, one at the
//! limit and one just outside.
//!
//! Each is made from a case of the writer's: a fact is set, a thing is moved, or things are added or left out;
//! everything else stays. The outcomes are what the rules say now; the writer, who keeps the case, decides whether the
//! bylaw says the same.

mod kept;
mod limits;
mod made;
mod words;

#[cfg(test)]
mod edges_tests;

use crate::cases::json;
use crate::cases::written::{Case, read_file};
use crate::check::{Finding, Outcome, check};
use crate::plan::{self, Plan};
use crate::ruleset::{Rule, RuleSet};
use crate::text::{Faults, Node};
use crate::work;
use kept::kept;
use limits::{Limit, limits};
use made::made;
pub use words::{edges_to_text, made_to_text};

/// The most cases of a rule that are tried as a starting point.
const MOST_BASES: usize = 12;

/// One limit, tried at its edges.
#[derive(Debug, Clone, PartialEq)]
pub struct EdgeCase {
    /// The rule's id.
    pub rule: String,
    /// The limit in words: `the height of the latch: at least 1.5 m`.
    pub limit: String,
    /// The case the three were made from; `None` if the rule applies in no case.
    pub case: Option<String>,
    /// The rule's outcome at each of them; empty if there is no case, or none can be made of it.
    pub edges: Vec<Edge>,
}

/// A rule's outcome with one amount.
#[derive(Debug, Clone, PartialEq)]
pub struct Edge {
    /// `just inside`, `at the limit` or `just outside`.
    pub place: &'static str,
    /// The amount in words.
    pub amount: String,
    /// The rule's outcome.
    pub outcome: Outcome,
    /// The plan it came out on.
    plan: Node,
}

/// Tries each stated limit at its edges. Starts from the first case in which the outcome changes there, or else the
/// first in which the rule is decided, or else the first in which it is open.
///
/// # Errors
/// What is wrong with the cases themselves.
pub fn edges(rules: &RuleSet, cases: &Node) -> Result<Vec<EdgeCase>, Faults> {
    let mut faults = Faults::default();
    let read = read_file(cases, &mut faults);
    let cases = faults.or(read.unwrap_or_default())?;
    let judged: Vec<Judged<'_>> = cases
        .iter()
        .filter_map(|case| Judged::of(case, rules))
        .collect();
    let own = rules.rules.iter().enumerate();
    let own = own.filter(|(_, rule)| rule.layer == 0);
    Ok(own
        .flat_map(|(index, rule)| of_rule(index, rule, rules, &judged))
        .collect())
}

/// A case's plan, and the finding for each rule on it.
struct Judged<'c> {
    case: &'c str,
    node: &'c Node,
    plan: Plan,
    findings: Vec<Finding>,
}

impl<'c> Judged<'c> {
    fn of(case: &'c Case<'c>, rules: &RuleSet) -> Option<Self> {
        let plan = plan::read(&json(&case.plan), &rules.vocabulary).ok()?;
        let findings = check(&plan, rules).ok()?.rules;
        Some(Self {
            case: case.id,
            node: &case.plan,
            plan,
            findings,
        })
    }

    fn outcome(&self, rule: usize) -> Option<Outcome> {
        let own = self.findings.iter().find(|finding| finding.rule == rule);
        own.map(|finding| finding.outcome)
    }
}

/// A case that others are made from for one rule.
struct Base<'j> {
    rule: usize,
    case: &'j str,
    node: &'j Node,
    plan: &'j Plan,
}

fn of_rule(index: usize, rule: &Rule, rules: &RuleSet, judged: &[Judged<'_>]) -> Vec<EdgeCase> {
    // If a rule is open or referred for another reason, that may hide the limit, so a case that decides it is
    // preferred.
    let with = |outcomes: &'static [Outcome]| {
        let fits = move |one: &&Judged<'_>| {
            one.outcome(index)
                .is_some_and(|own| outcomes.contains(&own))
        };
        judged.iter().filter(fits)
    };
    let decided = with(&[Outcome::Pass, Outcome::Fail]);
    let open = with(&[Outcome::Unknown, Outcome::Marginal]);
    let bases: Vec<Base<'_>> = decided
        .chain(open)
        .take(MOST_BASES)
        .map(|one| Base {
            rule: index,
            case: one.case,
            node: one.node,
            plan: &one.plan,
        })
        .collect();
    let limits = limits(rule, rules);
    limits
        .iter()
        .map(|limit| {
            let (case, edges) = best(limit, &bases, rules);
            EdgeCase {
                rule: rule.id.clone(),
                limit: limit.words(rules),
                case,
                edges,
            }
        })
        .collect()
}

/// The case that shows a limit best, and the outcomes at its edges.
fn best(limit: &Limit<'_>, bases: &[Base<'_>], rules: &RuleSet) -> (Option<String>, Vec<Edge>) {
    let mut first = None;
    for base in bases.iter().filter(|_| !work::is_spent()) {
        let edges = tried(limit, base, rules);
        let shows = edges
            .windows(2)
            .any(|pair| matches!(pair, [one, other] if one.outcome != other.outcome));
        if shows {
            return (Some(base.case.to_owned()), edges);
        }
        let better = |(_, known): &(_, Vec<Edge>)| known.len() < edges.len();
        if first.as_ref().is_none_or(better) {
            first = Some((base.case.to_owned(), edges));
        }
    }
    first.map_or((None, Vec::new()), |(case, edges)| (Some(case), edges))
}

fn tried(limit: &Limit<'_>, base: &Base<'_>, rules: &RuleSet) -> Vec<Edge> {
    let sides = &limit.sides;
    let places = [
        ("just inside", sides.inside, false),
        ("at the limit", sides.at, true),
        ("just outside", sides.outside, false),
    ];
    let can_be = places
        .into_iter()
        .filter(|(_, amount, _)| sides.can_be(*amount));
    can_be
        .filter_map(|(place, amount, exact)| {
            let plan = made(base, limit, (amount, exact), rules)?;
            let (_, finding) = judged(&plan, base.rule, rules)?;
            Some(Edge {
                place,
                amount: sides.words(amount),
                outcome: finding.outcome,
                plan,
            })
        })
        .collect()
}

/// The plan as read, and the finding for a rule on it.
fn judged(plan: &Node, rule: usize, rules: &RuleSet) -> Option<(Plan, Finding)> {
    let plan = plan::read(&json(plan), &rules.vocabulary).ok()?;
    let found = check(&plan, rules).ok()?;
    let finding = found
        .rules
        .into_iter()
        .find(|finding| finding.rule == rule)?;
    Some((plan, finding))
}
