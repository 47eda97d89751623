//! Openings drawn in a barrier, through which a person can walk or crawl.

use crate::check::Missing;
use crate::check::judge::Judge;
use crate::check::value::approaches::opened;
use crate::check::value::distance::End;
use crate::check::value::enclosure::Placed;
use crate::check::world::env::{Env, Referent};
use crate::check::world::special::{WIDTH, line_of};
use crate::measure::{Tolerance, View};
use crate::plan::{Figure, ThingIndex};
use crate::quantity::Interval;
use crate::vocabulary::Role;

/// An opening drawn in a barrier.
pub(crate) struct Hole {
    figure: Figure,
    tolerance: Tolerance,
    /// The diameter of the largest ball that surely passes, and of the largest that may pass.
    width: (i64, i64),
    /// The wall that it is an opening in, if only one is possible.
    wall: Option<ThingIndex>,
}

impl Hole {
    /// The rest of a wall once the opening is cut out of it. For the widest way it opens every wall near it, for the narrowest
    /// only its own.
    pub(crate) fn cut_from(&self, wall: Figure, of: &Placed, view: View) -> Figure {
        let widest = match view {
            View::Narrowest if self.wall != Some(of.index) => return wall,
            View::Narrowest => self.width.0,
            View::Drawn | View::Widest => self.width.1,
        };
        let off = self.tolerance.against(of.tolerance);
        opened(&wall, &self.figure, off, Some(widest), view)
    }

    fn is_at(&self, wall: &Placed) -> bool {
        let left = opened(
            &wall.figure,
            &self.figure,
            self.tolerance.against(wall.tolerance),
            None,
            View::Widest,
        );
        left.forms != wall.figure.forms
    }
}

impl Judge<'_> {
    /// The openings drawn in a barrier, and whether it may have more.
    pub(crate) fn holes_in(&self, walls: &[Placed], env: &Env<'_>) -> (Vec<Hole>, bool) {
        let (mut holes, mut more) = (Vec::new(), false);
        let vocabulary = &self.scene.rules().vocabulary;
        let hole = line_of(Role::BarrierOpening, vocabulary);
        let Some((kind, outline)) = hole.filter(|_| !walls.is_empty()) else {
            return (holes, more);
        };
        if self.may_be_unseen(kind) {
            self.scene.depends_on(Missing::Inventory(kind), true, &[]);
            more = true;
        }
        for &index in self.scene.base.of_kind(kind) {
            let end = End {
                referent: Referent::Thing(index),
                outline,
                sure: true,
                zone: None,
            };
            match self.placed(&end) {
                Some(placed) => holes.push(self.hole(placed, walls, env)),
                None => more = true,
            }
        }
        (holes, more)
    }

    fn hole(&self, placed: Placed, walls: &[Placed], env: &Env<'_>) -> Hole {
        let vocabulary = &self.scene.rules().vocabulary;
        let thing = self.scene.thing(placed.index);
        let width = thing.and_then(|thing| {
            let fact = vocabulary.fact_named(thing.kind, WIDTH)?;
            let referent = Referent::Thing(placed.index);
            Some(self.varying_height(fact, referent, env).hull())
        });
        let width = width.unwrap_or(Interval::from_low(0));
        let whole = |end: i128| i64::try_from(end.max(0)).unwrap_or(i64::MAX);
        let mut hole = Hole {
            figure: placed.figure,
            tolerance: placed.tolerance,
            width: (whole(width.low), whole(width.high)),
            wall: thing.and_then(|thing| thing.part_of),
        };
        if hole.wall.is_none() {
            let mut near = walls.iter().filter(|wall| hole.is_at(wall));
            let first = near.next().map(|wall| wall.index);
            hole.wall = first.filter(|first| near.all(|wall| wall.index == *first));
        }
        hole
    }
}
