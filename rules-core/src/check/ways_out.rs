//! The ways out through a barrier that were found: a rule that is open is judged many times over, mostly with the same
//! barrier.

use std::cell::RefCell;
use std::collections::BTreeMap;

use super::lines::corners;
use crate::measure::{Doubt, View, WayOut};
use crate::plan::{Figure, ThingIndex};
use crate::vocabulary::OutlineId;

/// A pool, one of the places from which people come, and which of the possible plans is measured.
pub(super) type Key = (ThingIndex, OutlineId, usize, View);

/// All that a way out depends on. The pool is off by the same whenever it is the same.
#[derive(Clone, Copy, PartialEq)]
pub(super) struct Sought<'s> {
    pub(super) walls: &'s [(Figure, Doubt)],
    pub(super) pool: (&'s Figure, Doubt),
    pub(super) place: Option<&'s (Figure, Doubt)>,
}

/// The last way that was found for each key, and for what.
#[derive(Default)]
pub(crate) struct WaysOut(RefCell<BTreeMap<Key, Known>>);

struct Known {
    walls: Vec<(Figure, Doubt)>,
    pool: (Figure, Doubt),
    place: Option<(Figure, Doubt)>,
    way: WayOut,
}

/// A barrier of more corners than this is not remembered, nor more ways than this.
const MOST_CORNERS: usize = 1000;
const MOST_WAYS: usize = 1000;

impl WaysOut {
    pub(super) fn found(
        &self,
        key: Key,
        sought: Sought<'_>,
        find: impl FnOnce() -> WayOut,
    ) -> WayOut {
        let mut known = self.0.borrow_mut();
        if let Some(known) = known.get(&key).filter(|known| known.is_for(sought)) {
            return known.way;
        }
        let way = find();
        if known.len() < MOST_WAYS && corners_of(sought.walls) <= MOST_CORNERS {
            known.insert(key, Known::of(sought, way));
        }
        way
    }
}

impl Known {
    fn of(sought: Sought<'_>, way: WayOut) -> Known {
        Known {
            walls: sought.walls.to_vec(),
            pool: (sought.pool.0.clone(), sought.pool.1),
            place: sought.place.cloned(),
            way,
        }
    }

    fn is_for(&self, sought: Sought<'_>) -> bool {
        let own = Sought {
            walls: &self.walls,
            pool: (&self.pool.0, self.pool.1),
            place: self.place.as_ref(),
        };
        own == sought
    }
}

fn corners_of(walls: &[(Figure, Doubt)]) -> usize {
    walls
        .iter()
        .map(|(figure, _)| corners(figure).count())
        .sum()
}
