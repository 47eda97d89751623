//! How wide the widest gap is on any way from the pool to the street, the neighbours or the doors of the house.

use crate::check::judge::{Judge, thing_of};
use crate::check::value::aims::Aim;
use crate::check::value::distance::End;
use crate::check::value::holes::Hole;
use crate::check::value::ways_out::Sought;
use crate::check::value::{Alternative, PossibleValue};
use crate::check::world::env::{Env, Referent};
use crate::check::world::special::line_of;
use crate::check::{Missing, Witness};
use crate::measure::{Doubt, Goal, Target, View, Wall, WayOut, widest_way};
use crate::plan::{Figure, ThingIndex};
use crate::quantity::{Dimension, Interval, NO_HIGH};
use crate::ruleset::Enclosure;
use crate::vocabulary::{OutlineId, Role};

/// A drawn thing as the geometry takes it.
pub(crate) struct Placed {
    pub(crate) figure: Figure,
    pub(crate) doubt: Doubt,
    pub(crate) index: ThingIndex,
    outline: OutlineId,
    sure: bool,
}

/// All that counts as barrier.
#[derive(Default)]
struct Barrier {
    walls: Vec<Placed>,
    /// More of it may stand anywhere: unseen, not drawn, or nobody knows how far off.
    more: bool,
    holes: Vec<Hole>,
    /// There may be others anywhere in it.
    more_holes: bool,
}

impl<'a> Judge<'a> {
    /// How wide the widest way through a barrier is.
    ///
    /// What surely is barrier gives the high end, all that may be barrier the low one: more of it can only close
    /// more. The high end looks at every pool and every goal that may be meant, the low one at those that surely are.
    pub(crate) fn enclosure(&self, enclosure: &'a Enclosure, env: &Env<'_>) -> PossibleValue {
        let anything = PossibleValue::amount(Interval::from_low(0), Dimension::Length);
        let pools = self.ends(&enclosure.of, env);
        if pools.list.is_empty() {
            return PossibleValue::of(vec![Alternative::Empty(pools.if_none)], Dimension::Length);
        }
        let Some(aims) = self.aims(&enclosure.from, env) else {
            return anything;
        };
        let barrier = self.barrier(&self.ends(&enclosure.made_of, env).list, env);
        let (mut low, mut high) = (0, Some((0, None)));
        for end in &pools.list {
            let Some(pool) = self.placed(end) else {
                high = None;
                continue;
            };
            for (number, aim) in aims.iter().enumerate() {
                let aim = (number, aim);
                if aim.1.sure && pool.sure && !barrier.more {
                    let way = self.way(&barrier, |_| true, &pool, (aim, View::Narrowest));
                    low = low.max(endless(way.low));
                }
                high = high
                    .zip(self.widest(&barrier, &pool, aim))
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

    /// The high end to one goal and where the gap is; `None` where nobody knows where the goal is.
    fn widest(
        &self,
        barrier: &Barrier,
        pool: &Placed,
        aim: (usize, &Aim),
    ) -> Option<(i128, Option<Witness>)> {
        if aim.1.anywhere {
            return None;
        }
        let sure: Vec<&Placed> = barrier.walls.iter().filter(|wall| wall.sure).collect();
        let way = self.way(barrier, |wall| wall.sure, pool, (aim, View::Widest));
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
        ((number, aim), view): ((usize, &Aim), View),
    ) -> WayOut {
        let view = if self.scene.as_drawn {
            View::Drawn
        } else {
            view
        };
        let walls = barrier.walls.iter().filter(|wall| counts(wall));
        let cut: Vec<(Figure, Doubt)> = walls
            .map(|wall| {
                let holes = barrier.holes.iter();
                let left = holes.fold(wall.figure.clone(), |left, hole| {
                    hole.cut_from(left, wall, view)
                });
                (aim.cut_from(&left, wall.doubt, view), wall.doubt)
            })
            .collect();
        let walls: Vec<Wall> = cut
            .iter()
            .map(|(figure, doubt)| Wall {
                figure,
                doubt: *doubt,
            })
            .collect();
        let start = Target {
            figure: &pool.figure,
            doubt: pool.doubt,
        };
        let goal = match &aim.place {
            None => Goal::FarAway,
            Some((figure, doubt)) => Goal::At(Target {
                figure,
                doubt: *doubt,
            }),
        };
        let find = || widest_way(&walls, &start, &[goal], view);
        let sought = Sought {
            walls: &cut,
            pool: (&pool.figure, pool.doubt),
            place: aim.place.as_ref(),
        };
        let key = (pool.index, pool.outline, number, view);
        self.scene.base.ways_out.found(key, sought, find)
    }

    /// What counts as barrier: what is meant, the gates that are part of it, and the holes in it.
    fn barrier(&self, ends: &[End<'_>], env: &Env<'_>) -> Barrier {
        let mut barrier = Barrier::default();
        let gates = ends.iter().flat_map(|end| self.gates_of(end));
        for end in ends.iter().copied().chain(gates) {
            match self.placed(&end) {
                // Only a part of it may be meant: perhaps there is a wall.
                Some(placed) if end.zone.is_some() => barrier.walls.push(Placed {
                    sure: false,
                    ..placed
                }),
                Some(placed) => barrier.walls.push(placed),
                None => barrier.more = true,
            }
        }
        (barrier.holes, barrier.more_holes) = self.holes_in(&barrier.walls, env);
        barrier
    }

    /// The gates that are part of a run: closed, they are barrier as the run is.
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

    /// A drawn thing, where it is known how far off it may be.
    pub(crate) fn placed(&self, end: &End<'_>) -> Option<Placed> {
        let drawn = self.drawn(end)?;
        let doubt = self.doubt(drawn.index, drawn.figure)?;
        Some(Placed {
            figure: drawn.figure.clone(),
            doubt,
            index: drawn.index,
            outline: drawn.outline,
            sure: end.sure,
        })
    }

    /// How far off a drawn thing may be; `None` where nobody knows.
    pub(crate) fn doubt(&self, index: ThingIndex, figure: &Figure) -> Option<Doubt> {
        if self.scene.as_drawn {
            return Some(Doubt::default());
        }
        let thing = self.scene.thing(index)?;
        let (frame, shift) = (thing.source, self.scene.plan().shift_of(thing));
        let doubt = figure.accuracy.zip(shift).map(|(accuracy, shift)| Doubt {
            accuracy,
            shift,
            frame,
        });
        if doubt.is_none() {
            self.scene.depends_on(Missing::Accuracy(index), true, &[]);
        }
        doubt
    }
}

/// A width as it is told: where nothing stands in the way it has no end.
fn endless(width: i64) -> i128 {
    match width {
        i64::MAX => NO_HIGH,
        width => i128::from(width),
    }
}
