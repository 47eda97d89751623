//! The widest gap in a barrier: drawn cases, mazes against a raster, and what doubts may change.

#[path = "enclosure/cases.rs"]
mod cases;
#[path = "enclosure/doubts.rs"]
mod doubts;
#[path = "enclosure/judged.rs"]
mod judged;
#[path = "enclosure/mazes.rs"]
mod mazes;
#[path = "enclosure/worlds.rs"]
mod worlds;

use rules_core::measure::{Doubt, Goal, Target, View, Wall, WayOut, widest_way};
use rules_core::plan::{Figure, Form, Point};

/// A small generator, so that every machine draws the same.
pub(crate) struct Dice(u64);

impl Dice {
    /// The same numbers for the same seed.
    pub(crate) fn new(seed: u64) -> Self {
        Dice(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1)
    }

    /// From `low` to `high`, both included.
    pub(crate) fn from(&mut self, low: i64, high: i64) -> i64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        let drawn = self.0.wrapping_mul(0x2545_F491_4F6C_DD1D) >> 11;
        low + (drawn % (high - low + 1) as u64) as i64
    }
}

/// One form, drawn exactly.
pub(crate) fn figure(form: Form) -> Figure {
    Figure::new(vec![form], 0, Some(0))
}

/// Places of whole numbers, so many nanometres each.
pub(crate) fn points(list: &[(i64, i64)], scale: i64) -> Vec<Point> {
    let place = |&(x, y): &(i64, i64)| Point {
        x: x * scale,
        y: y * scale,
    };
    list.iter().map(place).collect()
}

/// The widest way out of a pool, all walls equally good.
pub(crate) fn way_out(
    walls: &[Figure],
    pool: &Figure,
    goals: &[Figure],
    accuracy: i64,
    view: View,
) -> WayOut {
    let doubt = Doubt {
        accuracy,
        ..Doubt::default()
    };
    let walls: Vec<Wall> = walls.iter().map(|figure| Wall { figure, doubt }).collect();
    let exact = |figure| Target {
        figure,
        doubt: Doubt::default(),
    };
    let mut ends: Vec<Goal> = goals.iter().map(|figure| Goal::At(exact(figure))).collect();
    if ends.is_empty() {
        ends.push(Goal::FarAway);
    }
    widest_way(&walls, &exact(pool), &ends, view)
}
