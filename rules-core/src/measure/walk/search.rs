//! The search from place to place, the shortest first. Each leg is only tested when its turn comes.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use super::super::distance::figure_gap;
use super::legs::{Leg, direct, touches};
use crate::plan::figure::{Figure, Form, Point};
use crate::work;

/// A candidate leg of a route.
struct Step {
    leg: Leg,
    /// The place where the route turns next; `None` at its end.
    into: Option<usize>,
    /// The length of the route up to there.
    gone: f64,
    /// The leg before it.
    before: Option<usize>,
}

struct Search<'s> {
    to: &'s Figure,
    places: &'s [Point],
    /// The straight distance from each place to the end.
    ahead: Vec<f64>,
    done: Vec<bool>,
    steps: Vec<Step>,
    /// The least length of a route that goes on from a step, and the step.
    open: BinaryHeap<Reverse<(u64, usize)>>,
}

/// The shortest route between two outlines by way of some places, with all legs free: its length and its turns.
pub(super) fn shortest(
    from: &Figure,
    to: &Figure,
    places: &[Point],
    free: &dyn Fn(&Leg) -> bool,
) -> Option<(f64, Vec<Point>)> {
    let mut search = Search {
        to,
        places,
        ahead: places.iter().map(|place| straight(*place, to)).collect(),
        done: vec![false; places.len()],
        steps: Vec::new(),
        open: BinaryHeap::new(),
    };
    search.begin(from);
    search.run(free)
}

/// A little less than the distance from a place to an outline.
fn straight(place: Point, to: &Figure) -> f64 {
    let place = Figure::new(vec![Form::Point(place)], 0, None);
    (figure_gap(&place, to).low.saturating_sub(2)).max(0) as f64
}

impl Search<'_> {
    fn begin(&mut self, from: &Figure) {
        for leg in direct(from, self.to) {
            self.add(leg, None, None);
        }
        for (index, place) in self.places.iter().enumerate() {
            for at in touches(from, *place) {
                let leg = Leg {
                    starts: true,
                    ..Leg::between(at, *place)
                };
                self.add(leg, Some(index), None);
            }
        }
    }

    fn add(&mut self, leg: Leg, into: Option<usize>, before: Option<usize>) {
        let so_far = before
            .and_then(|at| self.steps.get(at))
            .map_or(0.0, |step| step.gone);
        let gone = so_far + leg.length();
        let ahead = into
            .and_then(|at| self.ahead.get(at))
            .map_or(0.0, |ahead| *ahead);
        // Lengths are not negative, so their bits sort like the lengths.
        let key = (gone + ahead).to_bits();
        self.open.push(Reverse((key, self.steps.len())));
        self.steps.push(Step {
            leg,
            into,
            gone,
            before,
        });
    }

    fn run(&mut self, free: &dyn Fn(&Leg) -> bool) -> Option<(f64, Vec<Point>)> {
        while let Some(Reverse((_, at))) = self.open.pop() {
            let step = self.steps.get(at)?;
            let (leg, into) = (step.leg, step.into);
            let reached = into.and_then(|place| self.done.get(place));
            if work::step_is_too_many() {
                return None;
            }
            if reached == Some(&true) || !free(&leg) {
                continue;
            }
            match into {
                None => return Some((step.gone, self.traced(at))),
                Some(place) => self.go_on(at, place, leg.to),
            }
        }
        None
    }

    fn go_on(&mut self, step: usize, place: usize, here: Point) {
        work::step_through(self.places.len() * 8);
        if let Some(done) = self.done.get_mut(place) {
            *done = true;
        }
        for at in touches(self.to, here) {
            let leg = Leg {
                ends: true,
                ..Leg::between(here, at)
            };
            self.add(leg, None, Some(step));
        }
        for (index, next) in self.places.iter().enumerate() {
            if self.done.get(index) == Some(&false) {
                self.add(Leg::between(here, *next), Some(index), Some(step));
            }
        }
    }

    fn traced(&self, last: usize) -> Vec<Point> {
        let mut way = Vec::new();
        let mut at = Some(last);
        while let Some(step) = at.and_then(|at| self.steps.get(at)) {
            way.push(step.leg.to);
            if step.before.is_none() {
                way.push(step.leg.from);
            }
            at = step.before;
        }
        way.reverse();
        way
    }
}
