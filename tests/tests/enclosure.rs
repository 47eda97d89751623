//! The widest gap in a barrier: drawn cases, mazes against a raster, and what doubts may change.

mod cases;
mod doubts;
mod judged;
mod mazes;
mod worlds;

use rules_core::measure::{Goal, Target, Tolerance, View, Wall, WayOut, widest_way};
use rules_core::plan::{Figure, Form, Point};

/// One form, drawn exactly.
pub(super) fn figure(form: Form) -> Figure {
    Figure::new(vec![form], 0, Some(0))
}

/// Places of whole numbers, so many nanometres each.
pub(super) fn points(list: &[(i64, i64)], scale: i64) -> Vec<Point> {
    let place = |&(x, y): &(i64, i64)| Point {
        x: x * scale,
        y: y * scale,
    };
    list.iter().map(place).collect()
}

/// The widest way out of a pool, all walls equally good.
pub(super) fn way_out(
    walls: &[Figure],
    pool: &Figure,
    goals: &[Figure],
    accuracy: i64,
    view: View,
) -> WayOut {
    let tolerance = Tolerance {
        accuracy,
        ..Tolerance::default()
    };
    let walls: Vec<Wall> = walls
        .iter()
        .map(|figure| Wall { figure, tolerance })
        .collect();
    let exact = |figure| Target {
        figure,
        tolerance: Tolerance::default(),
    };
    let mut ends: Vec<Goal> = goals.iter().map(|figure| Goal::At(exact(figure))).collect();
    if ends.is_empty() {
        ends.push(Goal::FarAway);
    }
    widest_way(&walls, &exact(pool), &ends, view)
}
