//! Plans made wrong.

use std::collections::BTreeSet;
use std::sync::Arc;

use rules_core::measure::figure_gap;
use rules_core::plan::{
    Amount, DocumentState, Figure, Looked, Papers, Plan, Possible, ThingIndex, Words as Possibly,
};
use rules_core::quantity::Interval;
use rules_core::ruleset::{Bound, Part, RuleSet};
use rules_core::vocabulary::{FactId, KindId, Number, OutlineId};

use super::{Fault, told};
use crate::soundness::cuts::Reads;
use crate::soundness::less::leave_out;
use crate::soundness::walk::{self, Visitor};

/// The plan that a checker with this fault reads.
pub(super) fn wrong(fault: Fault, plan: &Plan, rules: &RuleSet) -> Plan {
    let mut said = plan.clone();
    match fault {
        Fault::LowestPlaceOnly => amounts(&mut said, |_, amount| amount.most = None),
        Fault::OnePaperForAll => said.documents.values_mut().for_each(one_for_all),
        Fault::UnsaidIsAuthoritys => unsaid_is_authoritys(&mut said, rules),
        Fault::NotCheckedAsNone => all_are_shown(&mut said, rules),
        Fault::OneEndsAccuracy => {
            let other_ends = said.things.iter_mut().step_by(2);
            for figure in other_ends.flat_map(|thing| thing.outlines.values_mut()) {
                figure.accuracy = Some(0);
            }
        }
        // For two equal errors, this gives the root of the sum of their squares.
        Fault::RootOfSquares => accuracies(&mut said, |error| error * 7071 / 10_000),
        Fault::CoverAsDrawn => accuracies(&mut said, |_| 0),
        Fault::ShiftCancelled | Fault::CoverWithoutShift => {
            for source in &mut said.sources {
                source.shift = Some(0);
            }
        }
        Fault::OverlapUntested => overlaps_are_sure(&mut said),
        Fault::RoundEdgeLost => {
            for figure in figures(&mut said) {
                figure.spread = 0;
            }
        }
        Fault::LimitsLowEnd => {
            let limits = facts_in_limits(rules);
            amounts(&mut said, |fact, amount| {
                if limits.contains(&fact) {
                    low_end(amount);
                }
            });
        }
        Fault::FirstWordOnly => first_words(&mut said),
        Fault::UnknownIsOut => without_the_unknown(&mut said, rules),
        Fault::FirstOutlineInZone => without_the_unnamed(&mut said, rules),
        _ => told::wrong(fault, &mut said, rules),
    }
    said
}

fn figures(plan: &mut Plan) -> impl Iterator<Item = &mut Figure> {
    let things = plan.things.iter_mut();
    things.flat_map(|thing| thing.outlines.values_mut())
}

fn accuracies(plan: &mut Plan, change: fn(i64) -> i64) {
    for figure in figures(plan) {
        figure.accuracy = figure.accuracy.map(change);
    }
}

fn amounts(plan: &mut Plan, change: impl Fn(FactId, &mut Amount)) {
    let things = plan.things.iter_mut();
    for (fact, possible) in things.flat_map(|thing| &mut thing.facts) {
        possible
            .amount
            .iter_mut()
            .for_each(|amount| change(*fact, amount));
    }
}

/// Whether a plan may leave out things of a kind.
fn may_be_left_out(rules: &RuleSet, kind: KindId) -> bool {
    let known = rules.vocabulary.kind(kind);
    known.number != Number::One && known.name != "pool"
}

fn all_are_shown(plan: &mut Plan, rules: &RuleSet) {
    for (kind, _) in rules.vocabulary.kinds() {
        if may_be_left_out(rules, kind) {
            plan.inventory.insert(kind, Looked::AllShown(None));
        }
    }
}

fn overlaps_are_sure(plan: &mut Plan) {
    let mut overlapping = Vec::new();
    for (index, thing) in plan.things.iter().enumerate() {
        for (outline, figure) in &thing.outlines {
            let mut others = plan.things.iter().enumerate();
            let overlaps = others.any(|(other, theirs)| {
                let mut theirs = theirs.outlines.values();
                other != index && theirs.any(|theirs| figure_gap(figure, theirs).high == 0)
            });
            overlapping.extend(overlaps.then_some((index, *outline)));
        }
    }
    for (thing, outline) in overlapping {
        if let Some(figure) = plan.things[thing].outlines.get_mut(&outline) {
            figure.accuracy = Some(0);
        }
    }
}

fn low_end(amount: &mut Amount) {
    for range in amount.most.iter_mut().chain([&mut amount.least]) {
        range.high = range.low;
    }
}

/// The facts that rules use as limits.
fn facts_in_limits(rules: &RuleSet) -> BTreeSet<FactId> {
    struct InLimits(Reads);
    impl Visitor for InLimits {
        fn bound(&mut self, bound: &Bound) {
            if let Bound::AtLeast(limit)
            | Bound::AtMost(limit)
            | Bound::MoreThan(limit)
            | Bound::LessThan(limit) = bound
            {
                walk::value(limit, &mut self.0);
            }
        }
    }
    let mut limits = InLimits(Reads::default());
    walk::rule_set(rules, &mut limits);
    limits.0.0
}

fn first_words(plan: &mut Plan) {
    let facts = plan.things.iter_mut().flat_map(|thing| &mut thing.facts);
    for words in facts.filter_map(|(_, possible)| possible.words.as_mut()) {
        if let Possibly::OneOf(choices) = Arc::make_mut(words)
            && let Some(first) = choices.pop_first()
        {
            *choices = BTreeSet::from([first]);
        }
    }
}

/// Whether a fact is exactly one amount, one word or none.
fn is_certain(possible: &Possible) -> bool {
    let one = |range: Interval| range.low == range.high;
    let amount = |amount: &Amount| one(amount.least) && amount.most.is_none_or(one);
    let words = |words: &Arc<Possibly>| matches!(&**words, Possibly::OneOf(of) if of.len() == 1);
    let may_be = usize::from(possible.none)
        + usize::from(possible.amount.is_some())
        + usize::from(possible.words.is_some());
    may_be == 1 && possible.amount.iter().all(amount) && possible.words.iter().all(words)
}

fn without_the_unknown(plan: &mut Plan, rules: &RuleSet) {
    let mut reads = Reads::default();
    walk::rule_set(rules, &mut reads);
    let unknown = |plan: &Plan, thing: ThingIndex| {
        let thing = &plan.things[thing];
        let own = &rules.vocabulary.kind(thing.kind).facts;
        let mut read = own.iter().filter(|fact| reads.0.contains(fact));
        read.any(|fact| !thing.facts.get(fact).is_some_and(is_certain))
    };
    for thing in (0..plan.things.len()).rev() {
        if may_be_left_out(rules, plan.things[thing].kind) && unknown(plan, thing) {
            leave_out(plan, thing);
        }
    }
}

/// Removes outlines that no rule names, which count only in zones.
fn without_the_unnamed(plan: &mut Plan, rules: &RuleSet) {
    struct Named(BTreeSet<OutlineId>);
    impl Visitor for Named {
        fn part(&mut self, part: &Part) {
            self.0.insert(part.outline);
        }
    }
    let mut named = Named(BTreeSet::new());
    walk::rule_set(rules, &mut named);
    for thing in &mut plan.things {
        let own = rules.vocabulary.kind(thing.kind).outlines.iter();
        for outline in own.skip(1).filter(|outline| !named.0.contains(outline)) {
            if thing.outlines.remove(outline).is_some() {
                thing.lacks.insert(*outline);
            }
        }
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
