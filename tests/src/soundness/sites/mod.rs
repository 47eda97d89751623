//! The second family of cases: sites in the program's own words, read from text as a person would write it. Each is
//! about one thing that the small vocabulary of the first family lacks, simple enough for a world to be judged exactly:
//! a fence and its holes, things on either side of the lot lines, sides from different sources, ground given by spots,
//! walking distances, months and days, wires in space, overlapping areas, widths.

mod asked;
mod blur;
mod common;
mod fence;
mod ground;
mod lines;
mod property;
mod sample;
mod site;
mod spans;
mod walk;
mod widths;
mod wire;

pub use asked::Library;
pub use property::run;

use self::asked::Measure;
use self::sample::Moves;
use self::site::{Fact, Site, Thing, rectangle};
use crate::soundness::random::Random;
use crate::soundness::words::METRE;

/// The topic of a case: a world, the measures on it, and what may move in other worlds of its plans.
struct Topic {
    world: Site,
    measures: &'static [Measure],
    moves: Moves,
}

fn topic(random: &mut Random) -> Topic {
    let (world, measures, moves) = match random.weighted(&[5, 5, 4, 4, 3, 2, 3, 2, 6, 2, 3, 3]) {
        0 => (fence::draw(random), fence::MEASURES, Moves::Nothing),
        1 => {
            let of = &lines::STANDING[random.weighted(&[3, 3, 1, 1])];
            (lines::draw(random, of), of.measures, Moves::Corners)
        }
        2 => (lines::draw_lot(random), lines::OF_THE_LOT, Moves::Corners),
        3 => (ground::draw(random), ground::MEASURES, Moves::Nothing),
        4 => (walk::draw(random), walk::MEASURES, Moves::Whole),
        5 => (spans::draw(random), spans::MEASURES, Moves::Nothing),
        6 => (wire::draw(random), wire::MEASURES, Moves::Corners),
        7 => (
            wire::draw_on_terraces(random),
            wire::MEASURES,
            Moves::Nothing,
        ),
        8 => (common::draw(random), common::MEASURES, Moves::Corners),
        9 => (
            widths::draw_fence(random),
            widths::OF_THE_FENCE,
            Moves::Nothing,
        ),
        10 => (widths::draw_way(random), widths::OF_THE_WAY, Moves::Corners),
        _ => (widths::draw_bands(random), widths::OF_BANDS, Moves::Corners),
    };
    Topic {
        world,
        measures,
        moves,
    }
}

/// A pool of four by three metres with its front left corner at a place.
fn pool(random: &mut Random, at: (i64, i64)) -> Thing {
    let depth = random.between(1, 4) * METRE / 2;
    Thing::new("pool", "pool".to_owned(), random.below(2))
        .drawn("water", rectangle(at, (4 * METRE, 3 * METRE)))
        .said("depth", Fact::Length(depth, depth))
}

/// The kinds whose things are all shown: these, and pools.
fn shown(kinds: &[&'static str]) -> Vec<&'static str> {
    [&["pool"], kinds].concat()
}
