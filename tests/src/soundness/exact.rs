//! The plan that states a world exactly.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use rules_core::check::Level;
use rules_core::measure::{Corners, outward};
use rules_core::plan::{
    Amount, DocumentState, Figure, Looked, Papers, Plan, Possible, Source, Taped, Thing,
    Words as Possibly,
};
use rules_core::quantity::Interval;
use rules_core::text::Span;
use rules_core::vocabulary::{FactId, OutlineId};

use super::generate::{DOCUMENTS, paper_for};
use super::geometry;
use super::random::Random;
use super::words::Words;
use super::world::{Being, Drawn, Held, World};

/// How many sources every plan names.
pub const SOURCES: usize = 3;

/// The plan that states a world exactly.
pub fn exact(random: &mut Random, words: &Words, world: &World) -> Plan {
    let source = |number: usize| Source {
        id: format!("source-{number}"),
        by: "survey".to_owned(),
        accuracy: Some(0),
        shift: Some(0),
    };
    let mut inventory = BTreeMap::new();
    for kind in words.kinds() {
        let any = world.of_kind(kind).next().is_some();
        let looked = if any || random.chance(50) {
            Looked::AllShown(None)
        } else {
            Looked::None
        };
        if words.may_be_left_out(kind) {
            inventory.insert(kind, looked);
        }
    }
    let mut plan = Plan {
        id: "random".to_owned(),
        title: "Random".to_owned(),
        sources: (0..SOURCES).map(source).collect(),
        things: things(random, words, world),
        inventory,
        measured: Vec::new(),
        documents: papers(words, world),
        answered: Default::default(),
        origin: (0, 0),
        unit: None,
        north: None,
    };
    plan.measured = tapes(random, world);
    plan
}

/// The state of every paper, as a whole or for each thing of its kind.
fn papers(words: &Words, world: &World) -> BTreeMap<String, Papers> {
    let state = |level: Level| match level {
        Level::Holds => DocumentState::InHand,
        Level::Fails => DocumentState::Refused,
        Level::Authority => DocumentState::NotYet,
    };
    let papers = |number: usize| match paper_for(words, number) {
        None => Papers::from(state(world.papers[number])),
        Some(kind) => Papers {
            of: world
                .of_kind(kind)
                .map(|thing| (thing, state(world.things[thing].papers[number])))
                .collect(),
            ..Papers::default()
        },
    };
    (0..DOCUMENTS)
        .map(|number| (format!("paper-{number}"), papers(number)))
        .collect()
}

fn things(random: &mut Random, words: &Words, world: &World) -> Vec<Thing> {
    let mut things = Vec::new();
    let place = |id: Option<&str>| {
        world
            .things
            .iter()
            .position(|thing| Some(thing.id.as_str()) == id)
    };
    for being in &world.things {
        let outlines = outlines(words, being);
        let facts = being
            .facts
            .iter()
            .map(|(id, held)| (*id, stated(words, *id, held)));
        things.push(Thing {
            id: being.id.clone(),
            name: None,
            kind: being.kind,
            part_of: place(being.part_of.as_deref()),
            stands_alone: being.part_of.is_none(),
            source: Some(random.below(SOURCES)),
            lacks: lacks(words, being, &outlines),
            outlines,
            facts: facts.collect(),
            span: Span::default(),
        });
    }
    things
}

/// The outlines that a thing lacks, as the plan says.
fn lacks(words: &Words, being: &Being, drawn: &BTreeMap<OutlineId, Figure>) -> BTreeSet<OutlineId> {
    let all = words.outlines(being.kind).iter().copied();
    all.filter(|outline| !drawn.contains_key(outline)).collect()
}

fn outlines(words: &Words, being: &Being) -> BTreeMap<OutlineId, Figure> {
    let exact = |drawn: &Drawn| Figure::new(drawn.forms.clone(), drawn.spread, Some(0));
    let mut all: BTreeMap<OutlineId, Figure> = being
        .outlines
        .iter()
        .map(|(id, drawn)| (*id, exact(drawn)))
        .collect();
    // The program itself derives an outline from another, so that a mistake there shows up.
    if let (Some(by), [first, second, ..]) = (being.wider_by, words.outlines(being.kind))
        && let Ok(wider) = outward(&all[first], by, Corners::Square)
    {
        all.insert(*second, wider);
    }
    all
}

fn stated(words: &Words, fact: FactId, held: &Held) -> Possible {
    let amount = |least: i128, most: Option<i128>| Amount {
        least: exactly(least),
        most: most.map(exactly),
        drawn: Some((least, most.unwrap_or(least))),
        dimension: words
            .dimension(fact)
            .unwrap_or(rules_core::quantity::Dimension::Number),
        unit: None,
    };
    let mut possible = Possible {
        span: Some(Span::default()),
        ..Possible::default()
    };
    match held {
        Held::Nothing => possible.none = true,
        Held::Amount(so) => possible.amount = Some(amount(*so, None)),
        Held::Along(values) => {
            let (least, most) = (values.iter().min(), values.iter().max());
            possible.amount = least.map(|least| amount(*least, most.copied()));
        }
        Held::Word(word) => {
            possible.words = Some(Arc::new(Possibly::OneOf(BTreeSet::from([word.clone()]))))
        }
    }
    possible
}

fn exactly(amount: i128) -> Interval {
    Interval {
        low: amount,
        high: amount,
    }
}

/// Tape readings, exact to the nanometre.
fn tapes(random: &mut Random, world: &World) -> Vec<Taped> {
    let ends: Vec<(usize, OutlineId)> = world
        .things
        .iter()
        .enumerate()
        .flat_map(|(thing, being)| being.outlines.keys().map(move |outline| (thing, *outline)))
        .collect();
    let mut all = Vec::new();
    for _ in 0..random.weighted(&[5, 3, 2]) {
        let (from, to) = (*random.pick(&ends), *random.pick(&ends));
        if from.0 == to.0 {
            continue;
        }
        let drawn = |(thing, outline): (usize, OutlineId)| &world.things[thing].outlines[&outline];
        let is = geometry::nearest(drawn(from), drawn(to)).0.floor();
        let range = Interval {
            low: is,
            high: is + 1,
        };
        all.push(Taped {
            from,
            to,
            range,
            drawn: Some(is),
            span: Span::default(),
        });
    }
    all
}
