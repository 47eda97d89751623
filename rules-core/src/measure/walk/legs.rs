//! The straight legs of a route, and where they may begin and end at an outline.

use super::super::distance::{figure_gap, from_point};
use crate::measure::figure::chain::{Chain, Edge};
use crate::measure::figure::direction::distance;
use crate::measure::figure::exact::part_way;
use crate::measure::figure::inside::{Side, side};
use crate::plan::figure::{Figure, Form, Point};

/// A straight leg of a route.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Leg {
    pub from: Point,
    pub to: Point,
    /// Whether it begins at the start of the route.
    pub starts: bool,
    /// Whether it ends at the end of the route.
    pub ends: bool,
}

impl Leg {
    /// A leg from one turn to the next.
    pub fn between(from: Point, to: Point) -> Leg {
        Leg {
            from,
            to,
            starts: false,
            ends: false,
        }
    }

    pub fn length(&self) -> f64 {
        distance(self.from, self.to)
    }
}

fn edges(figure: &Figure) -> impl Iterator<Item = Edge> + '_ {
    figure.forms.iter().flat_map(|form| Chain::of(form).edges())
}

/// The places of an outline where a shortest route from some place may end: the nearest place of each side, and the corners,
/// which are not rounded.
pub(super) fn touches(figure: &Figure, at: Point) -> Vec<Point> {
    let within = |form: &Form| matches!(form, Form::Ring(ring) if side(ring, at) != Side::Outside);
    if figure.forms.iter().any(within) {
        return vec![at];
    }
    let feet = edges(figure).map(|edge| from_point(at, &edge).to);
    let corners = edges(figure).map(|edge| edge.b);
    let mut all: Vec<Point> = feet
        .chain(corners)
        .map(|inner| towards(inner, at, figure.spread))
        .collect();
    all.sort_unstable();
    all.dedup();
    all
}

/// A place moved towards another by a distance, but not past it.
fn towards(from: Point, to: Point, by: i64) -> Point {
    let far = distance(from, to);
    if by == 0 || far == 0.0 {
        return from;
    }
    part_way(from, to, (by as f64 / far).min(1.0))
}

/// The straight routes between two outlines that may be the shortest: between their nearest places, and between those of each
/// pair of sides.
pub(super) fn direct(from: &Figure, to: &Figure) -> Vec<Leg> {
    let gap = figure_gap(from, to);
    let mut pairs = vec![(gap.from, gap.to)];
    let others: Vec<Edge> = edges(to).collect();
    for one in edges(from) {
        for other in &others {
            pairs.push((one.b, from_point(one.b, other).to));
            pairs.push((from_point(other.b, &one).to, other.b));
        }
    }
    let (first, rest) = pairs.split_at(1);
    let cut = rest.iter().filter_map(|(a, b)| {
        let apart = distance(*a, *b) > (from.spread.saturating_add(to.spread)) as f64;
        apart.then(|| (towards(*a, *b, from.spread), towards(*b, *a, to.spread)))
    });
    let legs = first.iter().copied().chain(cut).map(|(from, to)| Leg {
        from,
        to,
        starts: true,
        ends: true,
    });
    legs.collect()
}
