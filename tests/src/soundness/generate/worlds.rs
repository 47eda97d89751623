//! Random worlds.

use std::collections::BTreeMap;

use rules_core::check::Level;
use rules_core::plan::{Form, Point};
use rules_core::quantity::Dimension;
use rules_core::vocabulary::{FactId, KindId};

use super::papers::DOCUMENTS;
use super::shapes::{moved, scattered};
use crate::soundness::geometry;
use crate::soundness::random::Random;
use crate::soundness::words::{METRE, Words};
use crate::soundness::world::{Being, Drawn, Held, World};

/// A fact, more often than not with a round figure.
fn held(random: &mut Random, words: &Words, fact: FactId) -> Held {
    let entry = words.vocabulary.fact(fact);
    if entry.none && random.chance(20) {
        return Held::Nothing;
    }
    let Some(dimension) = words.dimension(fact) else {
        return Held::Word(random.pick(&words.words(fact)).clone());
    };
    let (least, most) = words.limits(fact);
    let step = match dimension {
        Dimension::Date => 1,
        Dimension::Sound => 1_000_000,
        _ => i128::from(METRE) / 2,
    };
    // Near the lower end, where real things are.
    let most = least + (most - least).min(20 * step);
    let round = least + step * random.wide(0, (most - least) / step);
    Held::Amount(match random.chance(70) {
        true => round,
        false => random.wide(least, most),
    })
}

/// A random thing of a kind, somewhere within a distance of the origin.
pub fn being(random: &mut Random, words: &Words, kind: KindId, id: String, within: i64) -> Being {
    let mut outlines = BTreeMap::new();
    for outline in words.outlines(kind) {
        let known = words.vocabulary.outline(*outline);
        let shape = known.shape;
        if known.none && random.chance(20) {
            continue;
        }
        outlines.insert(*outline, scattered(random, shape, within));
    }
    let facts = words
        .facts(kind)
        .iter()
        .map(|fact| (*fact, held(random, words, *fact)))
        .collect();
    Being {
        id,
        kind,
        part_of: None,
        outlines,
        facts,
        papers: papers(random),
        wider_by: None,
    }
}

/// Each paper in hand or refused.
fn papers(random: &mut Random) -> Vec<Level> {
    let mut paper = || *random.pick(&[Level::Holds, Level::Fails]);
    (0..DOCUMENTS).map(|_| paper()).collect()
}

/// Makes a thing vary along itself: two or three pieces, each with an amount for each varying fact. If two facts vary,
/// any amount of one may meet any of the other.
fn vary(random: &mut Random, words: &Words, being: &mut Being) {
    let pieces = random.between(2, 3);
    let facts = words.facts(being.kind).iter().copied();
    let mut facts: Vec<FactId> = facts.filter(|fact| words.changes(*fact)).collect();
    if facts.len() > 1 && random.chance(50) {
        facts.swap_remove(random.below(facts.len()));
    }
    for fact in facts {
        let values: Vec<i128> = (0..pieces)
            .filter_map(|_| match held(random, words, fact) {
                Held::Amount(amount) => Some(amount),
                _ => None,
            })
            .collect();
        let varies = values.iter().any(|value| *value != values[0]);
        if varies && values.len() == pieces as usize {
            being.facts.insert(fact, Held::Along(values));
        }
    }
}

/// Makes up to two things of a world vary along themselves.
fn vary_some(random: &mut Random, words: &Words, things: &mut [Being]) {
    let can: Vec<usize> = (0..things.len())
        .filter(|thing| {
            let facts = words.facts(things[*thing].kind);
            facts.iter().any(|fact| words.changes(*fact))
        })
        .collect();
    if can.is_empty() {
        return;
    }
    for _ in 0..random.weighted(&[2, 4, 4]) {
        let thing = *random.pick(&can);
        vary(random, words, &mut things[thing]);
    }
}

/// Gives a thing a rectangle and, as its second outline, the same with square corners some distance outside.
///
/// Both lie along the axes or are turned by the angle of a 3-4-5 triangle, so that every corner is at whole nanometres.
fn widen(random: &mut Random, words: &Words, being: &mut Being) {
    let by = random.between(1, 20) * METRE / 10;
    let (x, y) = *random.pick(&[(5, 0), (3, 4), (4, 3), (-3, 4)]);
    let at = (random.between(-9, 9) * METRE, random.between(-9, 9) * METRE);
    let (width, depth) = (random.between(2, 6) * METRE, random.between(2, 6) * METRE);
    let corners = |by: i64| {
        let (low, right, top) = (-by / 5, (width + by) / 5, (depth + by) / 5);
        let corner = |along: i64, across: i64| Point {
            x: at.0 + along * x - across * y,
            y: at.1 + along * y + across * x,
        };
        let ring = [(low, low), (right, low), (right, top), (low, top)];
        ring.map(|(along, across)| corner(along, across)).to_vec()
    };
    for (outline, by) in words.outlines(being.kind).iter().zip([0, by]) {
        let drawn = Drawn {
            forms: vec![Form::Ring(corners(by))],
            spread: 0,
        };
        being.outlines.insert(*outline, drawn);
    }
    being.wider_by = Some(by);
}

fn lot(random: &mut Random, words: &Words) -> Being {
    let mut lot = being(random, words, words.lot, "lot".to_owned(), METRE);
    let mut corner = |x: i64, y: i64| Point {
        x: x * random.between(10, 16) * METRE,
        y: y * random.between(10, 16) * METRE,
    };
    let ring = vec![corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)];
    let drawn = Drawn {
        forms: vec![Form::Ring(ring)],
        spread: 0,
    };
    lot.outlines.insert(words.boundary, drawn);
    lot
}

/// Moves a thing up to another, so that they touch or overlap a little.
fn nestle(random: &mut Random, things: &[Being], being: &mut Being) {
    let other = random.pick(things);
    let Some((own, theirs)) = being
        .outlines
        .values()
        .next()
        .zip(other.outlines.values().next())
    else {
        return;
    };
    let (distance, ((ax, ay), (bx, by))) = geometry::nearest(own, theirs);
    let (x, y) = (bx - ax, by - ay);
    let length = (x * x + y * y).sqrt().max(1.0);
    let deep = *random.pick(&[0, METRE / 1000, METRE / 100, METRE / 10, METRE / 4]) as f64;
    let by = (distance.approximately() + deep) / length;
    let step = ((x * by) as i64, (y * by) as i64);
    for form in being
        .outlines
        .values_mut()
        .flat_map(|drawn| &mut drawn.forms)
    {
        *form = moved(form, || step);
    }
}

/// A random world: the lot, perhaps an alarm, one to three pools and up to three of every other kind.
pub fn world(random: &mut Random, words: &Words) -> World {
    let mut things = vec![lot(random, words)];
    if random.chance(60) {
        things.push(being(random, words, words.alarm, "alarm".to_owned(), METRE));
    }
    for kind in &words.many {
        let name = &words.vocabulary.kind(*kind).name;
        let weights = match *kind == words.pool {
            true => [0, 5, 3, 1],
            false => [2, 4, 3, 1],
        };
        for number in 0..random.weighted(&weights) {
            let within = *random.pick(&[8, 14, 40]) * METRE;
            let mut being = being(random, words, *kind, format!("{name}-{number}"), within);
            if *kind == words.pool && random.chance(30) {
                widen(random, words, &mut being);
            }
            if random.chance(25) {
                nestle(random, &things, &mut being);
            }
            things.push(being);
        }
    }
    vary_some(random, words, &mut things);
    let mut apart = random.apart();
    wings(&mut apart, words, &mut things);
    join(&mut apart, words, &mut things, |_| true);
    World {
        things,
        papers: papers(random),
    }
}

/// Makes some things part of the one before them of the same kind: wings of a house. Every plan says so, since two of a
/// kind are two where none does.
fn wings(random: &mut Random, words: &Words, things: &mut [Being]) {
    for at in 1..things.len() {
        let before = things[at - 1].id.clone();
        let is_second = things[at - 1].kind == things[at].kind;
        if is_second && words.rank(things[at].kind) == Some(0) && random.chance(30) {
            things[at].part_of = Some(before);
        }
    }
}

/// Makes some of the things that are free to be so part of one of an earlier kind, or of none.
pub fn join(
    random: &mut Random,
    words: &Words,
    things: &mut [Being],
    free: impl Fn(&Being) -> bool,
) {
    let ids: Vec<_> = things
        .iter()
        .map(|thing| (words.rank(thing.kind), thing.id.clone()))
        .collect();
    for being in things.iter_mut().filter(|being| free(being)) {
        let rank = words.rank(being.kind).unwrap_or(0);
        let earlier = |of: &&(Option<usize>, String)| of.0.is_some_and(|own| own < rank);
        let wholes: Vec<_> = ids.iter().filter(earlier).collect();
        if !wholes.is_empty() && random.chance(60) {
            being.part_of = Some(random.pick(&wholes).1.clone());
        }
    }
}
