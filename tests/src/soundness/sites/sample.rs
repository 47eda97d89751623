//! From a plan back to worlds that agree with everything it states. What the plan does not show stays where it is in
//! the world that the plan was made from.

use std::collections::BTreeMap;

use rules_core::plan::Point;

use super::blur::words_of;
use super::site::{Fact, SOURCES, Site, Thing, corners_of};
use crate::soundness::blur::towards;
use crate::soundness::random::Random;
use crate::soundness::words::METRE;

/// Something of unstated accuracy is moved no farther than this.
const ANYWHERE: i64 = 5 * METRE;

/// What may move in a world.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Moves {
    /// Nothing moves; only facts vary.
    Nothing,
    /// Each thing as a whole.
    Whole,
    /// Each corner by itself, now and then.
    Corners,
}

/// A world of a plan.
pub fn world(random: &mut Random, plan: &Site, home: &Site, moves: Moves) -> Site {
    let mut world = home.clone();
    world.begins = random.below(48);
    let (lot, shifts) = steps(random, plan);
    if moves != Moves::Nothing {
        for (corner, drawn) in world.corners.iter_mut().zip(plan.corners) {
            *corner = stepped(drawn, lot);
        }
    }
    let corners = moves == Moves::Corners && random.chance(40);
    for thing in &mut world.things {
        let Some(drawn) = plan.things.iter().find(|drawn| drawn.id == thing.id) else {
            continue;
        };
        if moves != Moves::Nothing {
            place(random, thing, drawn, &shifts, corners);
        }
        for (name, fact) in &mut thing.facts {
            *fact = one(random, name, fact, drawn.fact(name));
        }
    }
    world
}

/// How far the lot's corners, and each source as a whole, are drawn off. Whatever the accuracy of a side does not cover
/// is the shift of its source.
fn steps(random: &mut Random, plan: &Site) -> ((i64, i64), Vec<(i64, i64)>) {
    let most = |side: &super::site::Side| {
        let shift = plan.shifts[side.source].unwrap_or(ANYWHERE);
        shift + side.accuracy.unwrap_or(ANYWHERE)
    };
    let most = plan.sides.iter().map(most).min().unwrap_or(0);
    let lot = step(random, most);
    let shifts = (0..SOURCES).map(|source| {
        let shift = plan.shifts[source].unwrap_or(ANYWHERE);
        match plan.sides.iter().any(|side| side.source == source) {
            true => no_longer(lot, shift),
            false => step(random, shift),
        }
    });
    (lot, shifts.collect())
}

/// The same direction, no longer than `most` nanometres.
fn no_longer((x, y): (i64, i64), most: i64) -> (i64, i64) {
    let length = libm::hypot(x as f64, y as f64);
    match length <= most as f64 {
        true => (x, y),
        false => towards((x as f64 / length, y as f64 / length), most),
    }
}

/// A step of at most `most` nanometres, mostly exactly that and often along an axis.
fn step(random: &mut Random, most: i64) -> (i64, i64) {
    let most = if random.chance(70) {
        most
    } else {
        random.between(0, most)
    };
    crate::soundness::blur::vector(random, most)
}

fn place(
    random: &mut Random,
    thing: &mut Thing,
    drawn: &Thing,
    shifts: &[(i64, i64)],
    corners: bool,
) {
    let most = drawn.accuracy.unwrap_or(ANYWHERE);
    let shift = drawn
        .source
        .map_or_else(|| step(random, ANYWHERE), |source| shifts[source]);
    let whole = step(random, most);
    let mut gone: BTreeMap<Point, (i64, i64)> = BTreeMap::new();
    thing.outlines.clone_from(&drawn.outlines);
    for (_, shape) in &mut thing.outlines {
        for corner in corners_of(shape) {
            let own = gone.entry(*corner).or_insert_with(|| match corners {
                true => step(random, most),
                false => whole,
            });
            *corner = stepped(stepped(*corner, *own), shift);
        }
    }
}

fn stepped(at: Point, (x, y): (i64, i64)) -> Point {
    Point {
        x: at.x + x,
        y: at.y + y,
    }
}

/// A fact in a world: anything the plan leaves open, above all the ends.
fn one(random: &mut Random, name: &str, home: &Fact, stated: Option<&Fact>) -> Fact {
    match stated {
        // The ground is level along a column of spots, so no spot changes by itself.
        _ if name == "level" => home.clone(),
        Some(Fact::Length(low, high)) => {
            let is = between(random, (*low, *high));
            Fact::Length(is, is)
        }
        Some(Fact::Along(least, most)) => {
            let (one, other) = (between(random, *least), between(random, *most));
            match one <= other {
                true => Fact::Along((one, one), (other, other)),
                false => home.clone(),
            }
        }
        Some(Fact::Word(words)) => Fact::Word(vec![*random.pick(words)]),
        Some(Fact::Time(spans)) => Fact::Time(vec![*random.pick(spans)]),
        None => match words_of(name) {
            [] => home.clone(),
            words => Fact::Word(vec![*random.pick(words)]),
        },
    }
}

/// An amount between two, one of its ends more often than not.
fn between(random: &mut Random, (low, high): (i64, i64)) -> i64 {
    let any = random.between(low, high);
    *random.pick(&[low, high, any])
}
