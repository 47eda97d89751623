//! A pool in the house: whoever lives there reaches it without going through an outside door.

use crate::check::judge::Judge;
use crate::check::value::approaches::Approach;
use crate::check::value::distance::End;
use crate::check::value::enclosure::Placed;
use crate::check::world::env::{Env, Referent};
use crate::check::{Missing, Truth};
use crate::measure::{Place, contains, distance};
use crate::plan::{Figure, Form, Point};

/// The use of a building that people live in; as a place, where they come from.
pub(crate) const DWELLING: &str = "dwelling";

impl Judge<'_> {
    /// The dwellings that surely or perhaps hold some of the pool. People come from there.
    pub(crate) fn rooms_around(
        &self,
        pool: &Placed,
        barrier: &[Placed],
        env: &Env<'_>,
    ) -> Vec<Approach> {
        let (building, wall) = (self.special.building, self.special.wall);
        let buildings = self.scene.base.of_kind(building).iter();
        let found = buildings.filter_map(|&index| {
            let meant = self.used_as(index, &[DWELLING], env);
            let walls = End::whole(Referent::Thing(index), wall);
            if meant == Truth::FAILS || self.lacks(walls.referent, wall) {
                return None;
            }
            let Some(walls) = self.placed(&walls) else {
                return Some(Approach::ANYWHERE);
            };
            let off = walls.tolerance.against(pool.tolerance);
            let off = off.saturating_add(pool.figure.spread);
            let near = |ring: &[Point]| gap(&Form::Ring(ring.to_vec()), &pool.figure) <= off;
            let mut others = barrier.iter().filter(|other| other.index != index);
            let sure = meant == Truth::HOLDS
                && rings(&walls.figure).any(|ring| is_in(&pool.figure, ring, off))
                && !others.any(|other| is_indoors(other, &walls.figure));
            let may_be_in = rings(&walls.figure).any(near);
            may_be_in.then(|| Approach::inside(walls, sure))
        });
        let unseen = self.may_be_unseen(building, env);
        if unseen {
            self.scene
                .depends_on(Missing::Inventory(building), true, &[]);
        }
        found.chain(unseen.then_some(Approach::ANYWHERE)).collect()
    }
}

fn rings(figure: &Figure) -> impl Iterator<Item = &[Point]> {
    figure.forms.iter().filter_map(|form| match form {
        Form::Ring(ring) => Some(ring.as_slice()),
        _ => None,
    })
}

fn gap(one: &Form, figure: &Figure) -> i64 {
    let gaps = figure.forms.iter().map(|form| distance(one, form).low);
    gaps.min().unwrap_or(i64::MAX)
}

/// Whether some of a pool is in an area even if both are drawn wrongly by so much.
fn is_in(pool: &Figure, ring: &[Point], off: i64) -> bool {
    let line = Form::Path(ring.iter().chain(ring.first()).copied().collect());
    pool.corners().any(|corner| {
        let corner = Form::Point(*corner);
        contains(ring, &corner) == Place::Within && distance(&corner, &line).low > off
    })
}

/// Whether some of a barrier is inside a house's walls. It may part the pool from the other rooms.
fn is_indoors(barrier: &Placed, walls: &Figure) -> bool {
    let outside = |place| matches!(place, Place::Outside | Place::OutsideTouching);
    let inside = |form: &Form| rings(walls).any(|ring| !outside(contains(ring, form)));
    barrier.figure.forms.iter().any(inside)
}
