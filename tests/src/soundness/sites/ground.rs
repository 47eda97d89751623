//! Ground that rises and falls across the lot, given by spots.

use rules_core::plan::Point;
use rules_core::quantity::Dimension;

use super::asked::{Got, Measure};
use super::site::{Fact, Site, Thing};
use super::{pool, shown};
use crate::measured::site::Shape;
use crate::soundness::number::Real;
use crate::soundness::random::Random;
use crate::soundness::words::METRE;

/// The measures asked for.
pub const MEASURES: &[Measure] = &[
    Measure {
        each: None,
        within: None,
        value: "ground-level: {at: pool.water}",
        dimension: Dimension::Length,
        of: |world, _| {
            let (low, high) = under_the_pool(world);
            Ok(along(low, high))
        },
        exact: false,
    },
    Measure {
        each: None,
        within: None,
        value: "difference: [{level: {of: pool.water}}, {ground-level: {at: pool.water}}]",
        dimension: Dimension::Length,
        of: |world, _| {
            let rim = i128::from(world.pool().length("rim-level"));
            let (low, high) = under_the_pool(world);
            Ok(along(rim - high, rim - low))
        },
        exact: false,
    },
];

fn along(low: i128, high: i128) -> Got {
    match low == high {
        true => Got::One(Real::whole(low)),
        false => Got::Along(Real::whole(low), Real::whole(high)),
    }
}

const COLUMNS: i64 = 4;
const ROWS: i64 = 3;

/// A pool among spots in rows and columns. The ground is level along a column, and rises or falls evenly from one
/// column to the next.
pub fn draw(random: &mut Random) -> Site {
    let at = (random.between(3, 20) * METRE, random.between(2, 18) * METRE);
    let mut pool = pool(random, at);
    pool.source = Some(0);
    // The rim is never below the ground in any world, because the outcome for a plan that does not state the rim is not
    // settled there.
    let rim = random.between(128, 140) * METRE / 2;
    pool.facts.push(("rim-level", Fact::Length(rim, rim)));
    let mut site = Site::new((27 * METRE, 24 * METRE), pool, &shown(&["ground-spot"]));
    site.level_ground = false;
    let mut level = 50 * METRE;
    let another = 1 + random.below(2);
    for column in 0..COLUMNS {
        if random.chance(80) {
            level = random.between(94, 106) * METRE / 2;
        }
        // Without the outer ones, the ground inside would not be known either.
        let inner = 0 < column && column < COLUMNS - 1;
        let source = if inner {
            *random.pick(&[0, another])
        } else {
            0
        };
        for row in 0..ROWS {
            let place = Point {
                x: column * 9 * METRE,
                y: row * 12 * METRE,
            };
            let spot = Thing::new("ground-spot", format!("spot-{column}-{row}"), source);
            let spot = spot.drawn("place", Shape::Spot(place));
            site.things
                .push(spot.said("level", Fact::Length(level, level)));
        }
    }
    site
}

/// The lowest and the highest ground under the water.
fn under_the_pool(world: &Site) -> (i128, i128) {
    let across = world.pool().shape("water").corners().iter().map(|at| at.x);
    let (from, to) = (across.clone().min().unwrap_or(0), across.max().unwrap_or(0));
    let columns: Vec<(i64, i64)> = world
        .all("ground-spot")
        .map(|spot| (spot.shape("place").corners()[0].x, spot.length("level")))
        .step_by(usize::try_from(ROWS).unwrap_or(1))
        .collect();
    let between = columns.iter().filter(|(x, _)| from < *x && *x < to);
    let mut levels: Vec<i128> = between.map(|(_, level)| i128::from(*level)).collect();
    levels.extend([from, to].map(|x| level_at(&columns, x)));
    (
        levels.iter().copied().min().unwrap_or(0),
        levels.iter().copied().max().unwrap_or(0),
    )
}

/// The level at a place, linear between the columns on both sides.
fn level_at(columns: &[(i64, i64)], x: i64) -> i128 {
    let strip = columns.windows(2).find(|pair| x <= pair[1].0);
    let [left, right] = strip.map_or([columns[0]; 2], |pair| [pair[0], pair[1]]);
    let wide = i128::from((right.0 - left.0).max(1));
    let rise = i128::from(right.1 - left.1);
    i128::from(left.1) + rise * i128::from(x - left.0) / wide
}
