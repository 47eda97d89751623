//! Checkers that are wrong in one way: the checker itself, given rules or a plan that say something else than what is
//! meant, or with its findings bent. What does not catch them is no test.

use std::sync::Arc;

use rules_core::check::{Findings, Outcome, Verdict, check};
use rules_core::plan::{DocumentState, Papers, Plan};
use rules_core::ruleset::{
    Along, Operand, Requirement, Rule, RuleSet, Selection, Test, Value, Which,
};
use rules_core::vocabulary::KindId;

use super::same::{map, opposite};

/// A way of being wrong.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fault {
    /// A condition on what changes along a thing is taken as "all along".
    ConditionsAllAlong,
    /// What a rule must keep of what changes along a thing is taken as "anywhere".
    KeptAnywhere,
    /// Of what changes along a thing, only the lowest place counts.
    LowestPlaceOnly,
    /// A distance from the pool that a rule speaks of is taken from the nearest of all pools.
    NearestOfAllPools,
    /// An area of the pool that a rule speaks of is that of all pools.
    AreaOfAllPools,
    /// A distance in a term means any thing of its kind, not the one that the term is used for.
    TermLosesItsThing,
    /// What is said of none is said before `when` and `unless` are asked.
    NoneBeforeWhen,
    /// Where there is none, no relief is asked for.
    NoneWithoutReliefs,
    /// A relief holds by absence.
    ReliefByAbsence,
    /// A member of an any-of holds by absence.
    AnyByAbsence,
    /// The paper of one thing will do for all.
    OnePaperForAll,
    /// A paper of which nobody says where it stands is the authority's to give.
    UnsaidIsAuthoritys,
    /// Nothing stands against a plan to which nothing applies.
    VerdictWithoutRule,
}

impl Fault {
    /// All of them.
    pub const ALL: [Fault; 13] = [
        Fault::ConditionsAllAlong,
        Fault::KeptAnywhere,
        Fault::LowestPlaceOnly,
        Fault::NearestOfAllPools,
        Fault::AreaOfAllPools,
        Fault::TermLosesItsThing,
        Fault::NoneBeforeWhen,
        Fault::NoneWithoutReliefs,
        Fault::ReliefByAbsence,
        Fault::AnyByAbsence,
        Fault::OnePaperForAll,
        Fault::UnsaidIsAuthoritys,
        Fault::VerdictWithoutRule,
    ];
}

/// What a checker finds that is wrong in this way; the checker itself where it is wrong in none.
pub fn found<T>(
    fault: Option<Fault>,
    plan: &Plan,
    rules: &RuleSet,
    act: impl FnOnce(&Findings<'_>) -> T,
) -> T {
    let Some(fault) = fault else {
        return act(&check(plan, rules).expect("not too much work"));
    };
    let (wrong, said) = (wrong_rules(fault, rules), wrong_plan(fault, plan, rules));
    let mut found = check(&said, &wrong).expect("not too much work");
    if fault == Fault::VerdictWithoutRule {
        let open = |outcome| !matches!(outcome, Outcome::Pass | Outcome::NotApplicable);
        if !found.rules.iter().any(|finding| open(finding.outcome)) {
            found.verdict = Verdict::NothingAgainst;
        }
    }
    act(&found)
}

fn wrong_rules(fault: Fault, rules: &RuleSet) -> RuleSet {
    let pool = rules.vocabulary.kind_named("pool");
    let mut wrong = rules.clone();
    for rule in &mut wrong.rules {
        let changed = match (fault, pool) {
            (Fault::ConditionsAllAlong, _) => {
                conditions(rule, &mut |of| along(of, Along::AllAlong))
            }
            (Fault::KeptAnywhere, _) => Rule {
                require: map::requirement(&rule.require, &mut |of| along(of, Along::Anywhere)),
                ..rule.clone()
            },
            (Fault::NearestOfAllPools, Some(pool)) if rule.about_pool => {
                operands(rule, &mut |value| all_of_kind(value, pool, false))
            }
            (Fault::AreaOfAllPools, Some(pool)) => {
                operands(rule, &mut |value| all_of_kind(value, pool, true))
            }
            (Fault::TermLosesItsThing, _) => map::rule(rule, &mut loses_its_thing),
            (Fault::NoneBeforeWhen, _) => none_before_when(rule),
            (Fault::NoneWithoutReliefs, _) => none_without_reliefs(rule),
            (Fault::ReliefByAbsence, _) => relief_by_absence(rule),
            (Fault::AnyByAbsence, _) => map::rule(rule, &mut any_by_absence),
            _ => continue,
        };
        *rule = changed;
    }
    wrong
}

fn wrong_plan(fault: Fault, plan: &Plan, rules: &RuleSet) -> Plan {
    let mut said = plan.clone();
    match fault {
        Fault::LowestPlaceOnly => {
            let things = said.things.iter_mut();
            for possible in things.flat_map(|thing| thing.facts.values_mut()) {
                if let Some(amount) = &mut possible.amount {
                    amount.most = None;
                }
            }
        }
        Fault::OnePaperForAll => said.documents.values_mut().for_each(one_for_all),
        Fault::UnsaidIsAuthoritys => unsaid_is_authoritys(&mut said, rules),
        _ => {}
    }
    said
}

/// A rule with all its conditions changed.
fn conditions(rule: &Rule, change: map::Change<'_>) -> Rule {
    let mut wrong = rule.clone();
    for condition in wrong.when.iter_mut().chain(&mut wrong.unless) {
        *condition = map::requirement(condition, change);
    }
    if let Some(filter) = wrong.each.as_mut().and_then(|each| each.filter.as_mut()) {
        *filter = Arc::new(map::requirement(filter, change));
    }
    for when in wrong
        .reliefs
        .iter_mut()
        .filter_map(|relief| relief.when.as_mut())
    {
        *when = map::requirement(when, change);
    }
    wrong
}

fn along(of: Requirement, holds: Along) -> Requirement {
    match of {
        Requirement::Test(test) if matches!(test.value, Value::Fact(_)) && test.holds.is_none() => {
            Requirement::Test(Arc::new(Test {
                holds: Some(holds),
                ..(*test).clone()
            }))
        }
        other => other,
    }
}

/// A rule with the values of all its tests changed.
fn operands(rule: &Rule, change: &mut dyn FnMut(&mut Value)) -> Rule {
    map::rule(rule, &mut |of| in_test(of, change))
}

fn in_test(of: Requirement, change: &mut dyn FnMut(&mut Value)) -> Requirement {
    match of {
        Requirement::Test(test) => {
            let mut test = (*test).clone();
            change(&mut test.value);
            Requirement::Test(Arc::new(test))
        }
        other => other,
    }
}

fn all_of_kind(value: &mut Value, kind: KindId, areas: bool) {
    match value {
        Value::Area(area) if areas => all_things(&mut area.of, kind),
        Value::Distance(distance) if !areas => {
            all_things(&mut distance.from, kind);
            all_things(&mut distance.to, kind);
        }
        _ => {}
    }
}

fn all_things(operand: &mut Operand, kind: KindId) {
    for part in Arc::make_mut(&mut operand.parts) {
        if matches!(part.which, Which::Bound(bound) if bound == kind) {
            part.which = Which::All(Selection {
                term: None,
                closed: None,
                kind,
                filter: None,
                zone: None,
                if_none: None,
            });
        }
    }
}

fn loses_its_thing(of: Requirement) -> Requirement {
    match of {
        Requirement::Meets { term, requirement } => {
            let kind = term.scope.of;
            let lost = kind.map(|kind| {
                map::requirement(&requirement, &mut |of| {
                    in_test(of, &mut |value| all_of_kind(value, kind, false))
                })
            });
            Requirement::Meets {
                term,
                requirement: lost.map_or(requirement, Arc::new),
            }
        }
        other => other,
    }
}

fn none_before_when(rule: &Rule) -> Rule {
    let mut wrong = rule.clone();
    if wrong.each.as_ref().and_then(|each| each.if_none).is_some()
        && let Some(when) = wrong.when.take()
    {
        wrong.require = Requirement::Any(vec![Requirement::Not(Box::new(when)), wrong.require]);
    }
    wrong
}

fn none_without_reliefs(rule: &Rule) -> Rule {
    let mut wrong = rule.clone();
    if wrong.each.as_ref().and_then(|each| each.if_none).is_some() {
        let mut ways = vec![wrong.require];
        ways.extend(wrong.reliefs.drain(..).map(|relief| {
            let leave = relief.leave.then_some(Requirement::Refer);
            let all = relief.when.into_iter().chain(leave);
            Requirement::All(all.chain([relief.require]).collect())
        }));
        wrong.require = Requirement::Any(ways);
    }
    wrong
}

/// Says of a test that its opposite must not be, which holds of what is not there.
fn by_absence(of: Requirement) -> Requirement {
    let Requirement::Test(test) = &of else {
        return of;
    };
    match (&test.value, &test.bounds[..]) {
        (Value::Distance(_), [bound]) => match opposite(bound) {
            Some(opposite) => Requirement::Not(Box::new(Requirement::Test(Arc::new(Test {
                bounds: vec![opposite],
                ..(**test).clone()
            })))),
            None => of,
        },
        _ => of,
    }
}

fn relief_by_absence(rule: &Rule) -> Rule {
    let mut wrong = rule.clone();
    for relief in &mut wrong.reliefs {
        relief.require = by_absence(relief.require.clone());
    }
    wrong
}

fn any_by_absence(of: Requirement) -> Requirement {
    match of {
        Requirement::Any(members) => {
            Requirement::Any(members.into_iter().map(by_absence).collect())
        }
        other => other,
    }
}

fn one_for_all(papers: &mut Papers) {
    let in_hand = papers
        .of
        .values()
        .any(|state| *state == DocumentState::InHand);
    if in_hand {
        for state in papers.of.values_mut() {
            *state = DocumentState::InHand;
        }
    }
}

fn unsaid_is_authoritys(plan: &mut Plan, rules: &RuleSet) {
    for document in rules
        .documents
        .iter()
        .filter(|document| document.discretion)
    {
        let papers = plan.documents.entry(document.id.clone()).or_default();
        match &document.each {
            None => papers.whole = papers.whole.or(Some(DocumentState::NotYet)),
            Some(each) => {
                for (index, thing) in plan.things.iter().enumerate() {
                    if thing.kind == each.kind {
                        papers.of.entry(index).or_insert(DocumentState::NotYet);
                    }
                }
            }
        }
    }
}
