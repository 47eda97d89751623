//! Openings drawn in a barrier, through which a person can walk or crawl.

use crate::check::judge::Judge;
use crate::check::value::approaches::{DOORS, opened};
use crate::check::value::distance::End;
use crate::check::value::enclosure::Placed;
use crate::check::value::indoors::DWELLING;
use crate::check::world::env::{Env, Referent};
use crate::check::world::special::{WIDTH, line_of};
use crate::check::{Missing, Truth};
use crate::measure::{Tolerance, View};
use crate::plan::{Figure, ThingIndex};
use crate::quantity::Interval;
use crate::vocabulary::{KindId, Role};

/// An opening drawn in a barrier.
pub(crate) struct Hole {
    figure: Figure,
    tolerance: Tolerance,
    /// The diameter of the largest ball that surely passes, and of the largest that may pass.
    width: (i64, i64),
    /// The wall that it is an opening in, if only one is possible.
    wall: Option<ThingIndex>,
    /// Whether it is a door of a building. It opens that building, never a fence.
    door: bool,
}

impl Hole {
    /// The rest of a wall once the opening is cut out of it. For the widest way it opens every wall near it, for the narrowest
    /// only its own.
    pub(crate) fn cut_from(&self, wall: Figure, of: &Placed, view: View) -> Figure {
        if self.door && !of.building {
            return wall;
        }
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
        if self.may_be_unseen(kind, env) {
            self.scene.depends_on(Missing::Inventory(kind), true, &[]);
            more = true;
        }
        for &index in self.scene.base.of_kind(kind) {
            match self.placed(&End::whole(Referent::Thing(index), outline)) {
                Some(placed) => {
                    let width = self.width_of(index, env);
                    holes.push(self.hole(placed, width, walls));
                }
                None => more = true,
            }
        }
        holes.extend(self.doors_in(walls, env));
        (holes, more)
    }

    /// The doors drawn in a shed or a garage that lead through it. A door of a dwelling is none of them: people come out of it,
    /// but nobody from the street goes in.
    fn doors_in(&self, walls: &[Placed], env: &Env<'_>) -> Vec<Hole> {
        let doors = line_of(Role::WallOpening, &self.scene.rules().vocabulary);
        let Some((kind, outline)) = doors.filter(|_| walls.iter().any(|wall| wall.building)) else {
            return Vec::new();
        };
        let things = self.scene.base.of_kind(kind).iter();
        let holes = things.filter_map(|&index| {
            let leads = self.leads_through((kind, index), env);
            let placed = self.placed(&End::whole(Referent::Thing(index), outline))?;
            let surely_passes = if leads == Truth::HOLDS { i64::MAX } else { 0 };
            (leads != Truth::FAILS).then(|| Hole {
                door: true,
                ..self.hole(placed, (surely_passes, i64::MAX), walls)
            })
        });
        holes.collect()
    }

    /// Whether a shed or a garage may have doors that are not drawn: then its wall may not close anything off.
    pub(crate) fn may_have_unseen_doors(&self, index: ThingIndex, env: &Env<'_>) -> bool {
        let vocabulary = &self.scene.rules().vocabulary;
        let doors = line_of(Role::WallOpening, vocabulary);
        let Some((kind, outline)) =
            doors.filter(|_| self.used_as(index, &[DWELLING], env) != Truth::HOLDS)
        else {
            return false;
        };
        let unseen = self.may_be_unseen(kind, env);
        if unseen {
            self.scene.depends_on(Missing::Inventory(kind), true, &[]);
        }
        let mut drawn = self.scene.base.of_kind(kind).iter();
        let is_its_own = |door: ThingIndex| {
            let of = self.scene.thing(door).and_then(|door| door.part_of);
            of.is_none_or(|of| of == index)
        };
        unseen
            || drawn.any(|&door| {
                is_its_own(door)
                    && self.leads_through((kind, door), env) != Truth::FAILS
                    && self
                        .placed(&End::whole(Referent::Thing(door), outline))
                        .is_none()
            })
    }

    /// Whether somebody can go through an opening from one side of a barrier to the other: it is a door, of no dwelling, and
    /// does not close and latch by itself.
    fn leads_through(&self, (kind, index): (KindId, ThingIndex), env: &Env<'_>) -> Truth {
        let is = |fact, words: &[&str]| self.says((kind, index), fact, words, env);
        let closes = is("self-closing", &["yes"]).and(is("self-latching", &["yes"]));
        is("type", DOORS)
            .and(self.is_in_a_dwelling(kind, index, env).negated())
            .and(is("in", &["barrier-stretch", "neighbour-building"]).negated())
            .and(closes.negated())
    }

    /// The diameter of the largest ball that surely passes through an opening, and of the largest that may pass.
    fn width_of(&self, index: ThingIndex, env: &Env<'_>) -> (i64, i64) {
        let vocabulary = &self.scene.rules().vocabulary;
        let width = self.scene.thing(index).and_then(|thing| {
            let fact = vocabulary.fact_named(thing.kind, WIDTH)?;
            Some(
                self.varying_height(fact, Referent::Thing(index), env)
                    .hull(),
            )
        });
        let width = width.unwrap_or(Interval::from_low(0));
        let whole = |end: i128| i64::try_from(end.max(0)).unwrap_or(i64::MAX);
        (whole(width.low), whole(width.high))
    }

    fn hole(&self, placed: Placed, width: (i64, i64), walls: &[Placed]) -> Hole {
        let thing = self.scene.thing(placed.index);
        let mut hole = Hole {
            figure: placed.figure,
            tolerance: placed.tolerance,
            width,
            wall: thing.and_then(|thing| thing.part_of),
            door: false,
        };
        if hole.wall.is_none() {
            let mut near = walls.iter().filter(|wall| hole.is_at(wall));
            let first = near.next().map(|wall| wall.index);
            hole.wall = first.filter(|first| near.all(|wall| wall.index == *first));
        }
        hole
    }
}
