//! Rewritings that use the plan: which facts vary along a thing, and which do not.

use std::sync::Arc;

use rules_core::plan::{Amount, Plan, Taped, Thing};
use rules_core::ruleset::{Along, Requirement, Rule, Test, Value, Which};
use rules_core::vocabulary::{FactId, KindId};

use super::map;
use crate::soundness::cuts::Reads;
use crate::soundness::less::all_shown;
use crate::soundness::walk::{self, Visitor};
use crate::soundness::words::Words;

/// Whether a rule treats two things at one place like one: it refers to things of the kind only through its own `each`.
fn speaks_of_one(rule: &Rule, kind: KindId) -> bool {
    struct Only(KindId, bool);
    impl Visitor for Only {
        fn value(&mut self, value: &Value) {
            self.1 &= match value {
                Value::Count(of) | Value::Over { of, .. } => of.kind != self.0,
                _ => true,
            };
        }

        fn requirement(&mut self, requirement: &Requirement) {
            self.1 &= match requirement {
                Requirement::Test(test) => test.holds.is_none(),
                Requirement::Each(each) => each.selection.kind != self.0,
                _ => true,
            };
        }

        fn which(&mut self, which: &Which) {
            self.1 &= !matches!(which, Which::All(of) | Which::Meant(of) if of.kind == self.0);
        }
    }
    let mut only = Only(kind, true);
    walk::rule(rule, &mut only);
    only.1
}

/// Splits a varying thing that the rule is judged for into two uniform ones with the same papers: one with its lowest
/// value, one with its highest.
pub(super) fn split(words: &Words, plan: &Plan, rule: &Rule) -> Option<(Rule, Option<Plan>)> {
    let each = rule.each.as_ref()?;
    let fits = speaks_of_one(rule, each.kind) && each.kind != words.pool;
    if !fits || each.if_none.is_some() {
        return None;
    }
    let mut reads = Reads::default();
    walk::rule(rule, &mut reads);
    let index = plan
        .things
        .iter()
        .position(|thing| thing.kind == each.kind && changing(thing, &reads).len() == 1)?;
    let taped = |tape: &Taped| tape.from.0 == index || tape.to.0 == index;
    if plan.measured.iter().any(taped) {
        return None;
    }
    let mut plan = plan.clone();
    let [fact] = changing(&plan.things[index], &reads)[..] else {
        return None;
    };
    let mut other = plan.things[index].clone();
    other.id += "-highest";
    let amount = |thing: &Thing| thing.facts.get(&fact).and_then(|so| so.amount.clone());
    let most = amount(&other)?.most?;
    set(&mut other, fact, |amount| {
        amount.least = most;
        amount.drawn = amount.drawn.map(|(_, high)| (high, high));
    });
    set(&mut plan.things[index], fact, |amount| {
        amount.drawn = amount.drawn.map(|(low, _)| (low, low));
    });
    plan.things.push(other);
    let last = plan.things.len() - 1;
    for papers in plan.documents.values_mut() {
        if let Some(state) = papers.of.get(&index).copied() {
            papers.of.insert(last, state);
        }
    }
    Some((rule.clone(), Some(plan)))
}

fn set(thing: &mut Thing, fact: FactId, change: impl FnOnce(&mut Amount)) {
    let possible = thing.facts.get_mut(&fact);
    if let Some(amount) = possible.and_then(|possible| possible.amount.as_mut()) {
        change(amount);
        amount.most = None;
    }
}

/// The facts, among those read, that vary along a thing.
fn changing(thing: &Thing, reads: &Reads) -> Vec<FactId> {
    let changes = |fact: &FactId| {
        let amount = thing.facts.get(fact).and_then(|so| so.amount.as_ref());
        amount.is_some_and(|amount| amount.most.is_some())
    };
    reads.0.iter().copied().filter(changes).collect()
}

/// Whether the plan says for every thing of a kind that a fact does not vary along it.
fn never_changes(plan: &Plan, kind: KindId, fact: FactId, always_shown: bool) -> bool {
    let same = |thing: &Thing| {
        let amount = thing.facts.get(&fact).and_then(|so| so.amount.as_ref());
        amount.is_some_and(|amount| amount.most.is_none())
    };
    let mut things = plan.things.iter().filter(|thing| thing.kind == kind);
    (always_shown || all_shown(plan, kind)) && things.all(same)
}

/// "All along" on a fact that does not vary.
pub(super) fn all_along(words: &Words, plan: &Plan, rule: &Rule) -> Option<Rule> {
    let mut any = false;
    let written = map::rule(rule, &mut |requirement| {
        let Requirement::Test(test) = &requirement else {
            return requirement;
        };
        let Value::Fact(fact) = test.value else {
            return requirement;
        };
        let kind = words.vocabulary.fact(fact).kind;
        let shown = !words.may_be_left_out(kind);
        if test.holds.is_some() || !words.changes(fact) || !never_changes(plan, kind, fact, shown) {
            return requirement;
        }
        any = true;
        Requirement::Test(Arc::new(Test {
            holds: Some(Along::AllAlong),
            ..(**test).clone()
        }))
    });
    any.then_some(written)
}
