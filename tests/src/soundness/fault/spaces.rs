//! Plans with wrong areas, widths and wires.

use rules_core::plan::{Amount, Looked, Plan};
use rules_core::quantity::Interval;
use rules_core::vocabulary::Vocabulary;

use super::Fault;
use super::told::places_of;
use crate::soundness::less::leave_out;

/// Puts this fault into a plan.
pub(super) fn wrong(fault: Fault, said: &mut Plan, words: &Vocabulary) {
    match fault {
        Fault::FirstAreaOnly => only_the_first(said, words, "easement"),
        Fault::ShedUnseen => only_the_first(said, words, "building"),
        Fault::AreaAsDrawn => as_drawn(said, words, "easement"),
        Fault::GapAtItsNarrowest => {
            for (kind, fact) in [("barrier-stretch", "gap-below"), ("gate", "gap-below")] {
                amounts(said, words, (kind, fact), |amount| amount.most = None);
            }
        }
        Fault::BandAtItsNarrowest => {
            for (kind, fact) in [("tree", "stem-diameter"), ("pool", "depth")] {
                amounts(said, words, (kind, fact), |amount| {
                    amount.least.high = amount.least.low;
                });
            }
        }
        Fault::WireWithoutSag => amounts(said, words, ("overhead-line", "sag"), |amount| {
            amount.least = Interval::exact(0);
        }),
        Fault::WireLevelFromItsStart => level_from_its_start(said, words),
        _ => {}
    }
}

/// Shows only the first thing of a kind, as if it were all there is.
fn only_the_first(plan: &mut Plan, words: &Vocabulary, kind: &str) {
    let all = places_of(plan, words, kind);
    for thing in all.iter().rev().skip(1).rev() {
        leave_out(plan, *thing);
    }
    if let Some(kind) = words.kind_named(kind) {
        plan.inventory.insert(kind, Looked::AllShown(None));
    }
}

fn as_drawn(plan: &mut Plan, words: &Vocabulary, kind: &str) {
    for thing in places_of(plan, words, kind) {
        for figure in plan.things[thing].outlines.values_mut() {
            figure.accuracy = Some(0);
        }
    }
}

fn amounts(
    plan: &mut Plan,
    words: &Vocabulary,
    (kind, fact): (&str, &str),
    change: impl Fn(&mut Amount),
) {
    let Some(fact) = words
        .kind_named(kind)
        .and_then(|kind| words.fact_named(kind, fact))
    else {
        return;
    };
    for thing in places_of(plan, words, kind) {
        let possible = plan.things[thing].facts.get_mut(&fact);
        possible
            .and_then(|possible| possible.amount.as_mut())
            .into_iter()
            .for_each(&change);
    }
}

fn level_from_its_start(plan: &mut Plan, words: &Vocabulary) {
    let fact = |name| words.fact_named(words.kind_named("overhead-line")?, name);
    let Some((start, end)) = fact("height-at-start").zip(fact("height-at-end")) else {
        return;
    };
    for wire in places_of(plan, words, "overhead-line") {
        let facts = &mut plan.things[wire].facts;
        if let Some(start) = facts.get(&start).cloned() {
            facts.insert(end, start);
        }
    }
}
