//! The width of the widest gap on any way from the pool to the street, the neighbours or the doors of the house.

use crate::check::judge::Judge;
use crate::check::judge::possible::{Alternative, PossibleValue};
use crate::check::value::approaches::Approach;
use crate::check::value::distance::End;
use crate::check::value::holes::Hole;
use crate::check::value::indoors::DWELLING;
use crate::check::world::env::{Env, Referent, thing_of};
use crate::check::world::special::line_of;
use crate::check::world::ways_out::Inputs;
use crate::check::{Missing, Truth, Witness};
use crate::measure::{Goal, Target, Tolerance, View, Wall, WayOut, widest_way};
use crate::plan::{Figure, ThingIndex};
use crate::quantity::{Dimension, Interval, NO_HIGH};
use crate::ruleset::Enclosure;
use crate::vocabulary::{OutlineId, Role};

/// A drawn thing as the geometry takes it.
pub(crate) struct Placed {
    pub(crate) figure: Figure,
    pub(crate) tolerance: Tolerance,
    pub(crate) index: ThingIndex,
    outline: OutlineId,
    sure: bool,
    /// Whether it is a building, which may have doors.
    pub(crate) building: bool,
}

/// All that counts as barrier.
#[derive(Default)]
struct Barrier {
    walls: Vec<Placed>,
    /// Whether there may be more of it anywhere: unseen, not drawn, or with an unknown tolerance.
    more: bool,
    holes: Vec<Hole>,
    /// Whether there may be more holes anywhere in it.
    more_holes: bool,
}

impl<'a> Judge<'a> {
    /// The width of the widest way through a barrier.
    ///
    /// The high end is found with everything that surely is barrier, the low end with everything that may be: more barrier can
    /// only close more. The high end covers every pool and every approach that may be meant, the low end those that surely
    /// are.
    pub(crate) fn enclosure(&self, enclosure: &'a Enclosure, env: &Env<'_>) -> PossibleValue {
        let anything = PossibleValue::amount(Interval::from_low(0), Dimension::Length);
        let pools = self.ends(&enclosure.of, env);
        if pools.list.is_empty() {
            return PossibleValue::of(vec![Alternative::Empty(pools.if_none)], Dimension::Length);
        }
        let Some(approaches) = self.approaches(&enclosure.from, env) else {
            return anything;
        };
        let barrier = self.barrier(&self.ends(&enclosure.made_of, env).list, env);
        let (mut low, mut high) = (0, Some((0, None)));
        for end in &pools.list {
            let Some(pool) = self.placed(end) else {
                high = None;
                continue;
            };
            let indoors = match enclosure.from.iter().any(|word| word == DWELLING) {
                true => self.rooms_around(&pool, &barrier.walls, env),
                false => Vec::new(),
            };
            for approach in approaches.iter().chain(&indoors).enumerate() {
                if approach.1.sure && pool.sure && !barrier.more {
                    let way = self.way(&barrier, |_| true, &pool, (approach, View::Narrowest));
                    low = low.max(endless(way.low));
                }
                high = high
                    .zip(self.widest(&barrier, &pool, approach))
                    .map(|(one, other)| if other.0 > one.0 { other } else { one });
            }
        }
        let (high, witness) = high.unwrap_or((NO_HIGH, None));
        let high = if barrier.more_holes { NO_HIGH } else { high };
        PossibleValue {
            witness,
            ..PossibleValue::amount(
                Interval {
                    low,
                    high: high.max(low),
                },
                Dimension::Length,
            )
        }
    }

    /// The high end for one approach and where the gap is; `None` where the approach may be anywhere.
    fn widest(
        &self,
        barrier: &Barrier,
        pool: &Placed,
        approach: (usize, &Approach),
    ) -> Option<(i128, Option<Witness>)> {
        if approach.1.anywhere {
            return None;
        }
        let sure: Vec<&Placed> = barrier.walls.iter().filter(|wall| wall.sure).collect();
        let way = self.way(barrier, |wall| wall.sure, pool, (approach, View::Widest));
        let wall = |index: usize| sure.get(index).copied();
        let witness = way.opening.and_then(|opening| {
            let (from, to) = (wall(opening.walls.0)?, wall(opening.walls.1)?);
            Some(Witness {
                from: opening.from,
                to: opening.to,
                from_thing: from.index,
                from_outline: from.outline,
                to_thing: to.index,
                to_outline: to.outline,
            })
        });
        Some((endless(way.high), witness))
    }

    fn way(
        &self,
        barrier: &Barrier,
        counts: impl Fn(&Placed) -> bool,
        pool: &Placed,
        ((number, approach), view): ((usize, &Approach), View),
    ) -> WayOut {
        let walls = barrier.walls.iter().filter(|wall| counts(wall));
        let cut: Vec<(Figure, Tolerance)> = walls
            .map(|wall| {
                let holes = barrier.holes.iter();
                let left = holes.fold(wall.figure.clone(), |left, hole| {
                    hole.cut_from(left, wall, view)
                });
                (approach.cut_from(left, wall, view), wall.tolerance)
            })
            .collect();
        let walls: Vec<Wall> = cut
            .iter()
            .map(|(figure, tolerance)| Wall {
                figure,
                tolerance: *tolerance,
            })
            .collect();
        let start = Target {
            figure: &pool.figure,
            tolerance: pool.tolerance,
        };
        let goal = match &approach.place {
            None => Goal::FarAway,
            Some((figure, tolerance)) => Goal::At(Target {
                figure,
                tolerance: *tolerance,
            }),
        };
        // As drawn, nothing is off. What counts as barrier or as an opening in it may still be open.
        let view = match self.scene.as_drawn {
            true => View::Drawn,
            false => view,
        };
        let find = || widest_way(&walls, &start, &[goal], view);
        let inputs = Inputs {
            walls: &cut,
            pool: (&pool.figure, pool.tolerance),
            place: approach.place.as_ref(),
        };
        let key = (pool.index, pool.outline, number, view);
        self.scene.base.ways_out.get_or_find(key, inputs, find)
    }

    /// Everything that counts as barrier: the outlines that are meant, the gates that are part of them, and the holes in them.
    fn barrier(&self, ends: &[End<'_>], env: &Env<'_>) -> Barrier {
        let mut barrier = Barrier::default();
        let gates = ends.iter().flat_map(|end| self.gates_of(end));
        for end in ends.iter().copied().chain(gates) {
            match self.placed(&end) {
                // Only its part in a zone is meant, so it is not surely a wall.
                Some(placed) if end.zone.is_some() => barrier.walls.push(Placed {
                    sure: false,
                    ..placed
                }),
                Some(placed) => {
                    let sure = placed.sure && !self.may_let_through(&placed, env);
                    barrier.walls.push(Placed { sure, ..placed });
                }
                None => barrier.more = true,
            }
        }
        (barrier.holes, barrier.more_holes) = self.holes_in(&barrier.walls, env);
        barrier
    }

    /// Whether it may be a carport, a roof on posts that closes nothing off, or may have doors that are not drawn.
    fn may_let_through(&self, wall: &Placed, env: &Env<'_>) -> bool {
        wall.building
            && (self.used_as(wall.index, &["carport"], env) != Truth::FAILS
                || self.may_have_unseen_doors(wall.index, env))
    }

    /// The gates that are part of a run. When closed, they are barrier like the run itself.
    fn gates_of<'e>(&self, end: &End<'e>) -> Vec<End<'e>> {
        let vocabulary = &self.scene.rules().vocabulary;
        let Some((gate, line)) = line_of(Role::Gate, vocabulary) else {
            return Vec::new();
        };
        let of = thing_of(end.referent);
        let gates = self.scene.base.of_kind(gate).iter().filter(|index| {
            let part_of = self.scene.thing(**index).and_then(|thing| thing.part_of);
            part_of.is_some() && part_of == of
        });
        gates
            .map(|index| End {
                referent: Referent::Thing(*index),
                outline: line,
                ..*end
            })
            .collect()
    }

    /// A drawn thing with its tolerance, where that is known.
    pub(crate) fn placed(&self, end: &End<'_>) -> Option<Placed> {
        let drawn = self.drawn(end)?;
        let tolerance = self.tolerance_of(drawn.index, drawn.figure)?;
        Some(Placed {
            figure: drawn.figure.clone(),
            tolerance,
            index: drawn.index,
            outline: drawn.outline,
            sure: end.sure,
            building: Some(drawn.thing.kind)
                == self.scene.rules().vocabulary.with_role(Role::Building),
        })
    }

    /// The tolerance of a drawn thing; `None` where it is unknown.
    pub(crate) fn tolerance_of(&self, index: ThingIndex, figure: &Figure) -> Option<Tolerance> {
        if self.scene.as_drawn {
            return Some(Tolerance::default());
        }
        let thing = self.scene.thing(index)?;
        let (frame, shift) = (thing.source, self.scene.plan().shift_of(thing));
        let tolerance = figure
            .accuracy
            .zip(shift)
            .map(|(accuracy, shift)| Tolerance {
                accuracy,
                shift,
                frame,
            });
        if tolerance.is_none() {
            self.scene.depends_on(Missing::Accuracy(index), true, &[]);
        }
        tolerance
    }
}

/// A width as an amount: unlimited where nothing stands in the way.
fn endless(width: i64) -> i128 {
    match width {
        i64::MAX => NO_HIGH,
        width => i128::from(width),
    }
}
