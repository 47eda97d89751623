//! Wrong plans in the program's own words.

use std::collections::BTreeSet;
use std::sync::Arc;

use rules_core::plan::{Figure, Form, Looked, Plan, Point, Words as Possibly};
use rules_core::ruleset::RuleSet;
use rules_core::vocabulary::{Answer, OutlineId, Vocabulary};

use super::{Fault, spaces};
use crate::soundness::less::leave_out;

/// Puts this fault into a plan.
pub(super) fn wrong(fault: Fault, said: &mut Plan, rules: &RuleSet) {
    let words = &rules.vocabulary;
    match fault {
        Fault::HoleUnseen => without_holes(said, words),
        Fault::OwnPastTheLine => all_are_the_neighbours(said, words),
        Fault::SpotLeftOut => without_lost_spots(said, words),
        Fault::SidesOfOneSource => sides_of_one_source(said, words),
        Fault::ThroughOnesOwnHouse => no_house_behind_its_wall(said, words),
        Fault::MonthsAsDays => bare_numbers(said, words),
        _ => spaces::wrong(fault, said, words),
    }
}

/// The places of the things of a kind, last first.
pub(super) fn places_of(plan: &Plan, words: &Vocabulary, kind: &str) -> Vec<usize> {
    let kind = words.kind_named(kind);
    let all = plan.things.iter().enumerate();
    let of_kind = all.filter(|(_, thing)| Some(thing.kind) == kind);
    of_kind.map(|(index, _)| index).rev().collect()
}

fn outline(words: &Vocabulary, kind: &str, name: &str) -> Option<OutlineId> {
    words.outline_named(words.kind_named(kind)?, name)
}

fn without_holes(plan: &mut Plan, words: &Vocabulary) {
    for hole in places_of(plan, words, "barrier-opening") {
        leave_out(plan, hole);
    }
    if let Some(kind) = words.kind_named("barrier-opening") {
        plan.inventory.insert(kind, Looked::AllShown(None));
    }
}

fn all_are_the_neighbours(plan: &mut Plan, words: &Vocabulary) {
    for (kind, fact, word) in [
        ("building", "stands-on", "neighbour-lot"),
        ("barrier-stretch", "on", "lot-line"),
    ] {
        let fact = words
            .kind_named(kind)
            .and_then(|kind| words.fact_named(kind, fact));
        for thing in places_of(plan, words, kind) {
            if let Some(possible) = fact.and_then(|fact| plan.things[thing].facts.get_mut(&fact)) {
                let only = BTreeSet::from([word.to_owned()]);
                possible.words = Some(Arc::new(Possibly::OneOf(only)));
            }
        }
    }
}

fn without_lost_spots(plan: &mut Plan, words: &Vocabulary) {
    for spot in places_of(plan, words, "ground-spot") {
        let thing = &plan.things[spot];
        let mut figures = thing.outlines.values();
        let lost = figures.any(|figure| figure.accuracy.is_none());
        if lost || plan.shift_of(thing).is_none() {
            leave_out(plan, spot);
        }
    }
}

fn sides_of_one_source(plan: &mut Plan, words: &Vocabulary) {
    let Some(line) = outline(words, "lot-line", "line") else {
        return;
    };
    let sides = places_of(plan, words, "lot-line");
    let own = sides
        .iter()
        .map(|side| plan.things[*side].outlines[&line].accuracy);
    let worst = own.collect::<Option<Vec<i64>>>();
    let Some(boundary) = outline(words, "lot", "boundary") else {
        return;
    };
    for lot in places_of(plan, words, "lot") {
        if let Some(figure) = plan.things[lot].outlines.get_mut(&boundary) {
            figure.accuracy = worst.iter().flatten().copied().max();
        }
    }
}

/// Reduces a house to the first corner of the wall where the walk starts.
fn no_house_behind_its_wall(plan: &mut Plan, words: &Vocabulary) {
    let outlines = outline(words, "building", "wall").zip(outline(words, "building", "front-wall"));
    let Some((wall, front)) = outlines else {
        return;
    };
    for house in places_of(plan, words, "building") {
        let outlines = &mut plan.things[house].outlines;
        let start = outlines
            .get(&front)
            .and_then(|figure| match figure.forms.first() {
                Some(Form::Path(line)) => line.first().copied(),
                _ => None,
            });
        if let Some((start, figure)) = start.zip(outlines.get_mut(&wall)) {
            *figure = Figure::new(vec![speck(start)], 0, figure.accuracy);
        }
    }
}

fn speck(at: Point) -> Form {
    Form::Ring(vec![
        at,
        Point { x: at.x + 1, ..at },
        Point { y: at.y + 1, ..at },
    ])
}

fn bare_numbers(plan: &mut Plan, words: &Vocabulary) {
    let facts = plan.things.iter_mut().flat_map(|thing| &mut thing.facts);
    for (fact, possible) in facts {
        if let (Answer::Amount { dimension, .. }, Some(amount)) =
            (&words.fact(*fact).answer, &mut possible.amount)
        {
            amount.dimension = *dimension;
        }
    }
}
