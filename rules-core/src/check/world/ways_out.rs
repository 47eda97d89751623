//! A store of the ways out through a barrier: an open rule is judged many times, mostly with the same barrier.

use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;

use crate::measure::{Tolerance, View, WayOut};
use crate::plan::{Figure, ThingIndex};
use crate::vocabulary::OutlineId;

/// A pool, the index of an approach, and which of the possible plans is measured.
pub(crate) type Key = (ThingIndex, OutlineId, usize, View);

/// Everything that a way out depends on.
#[derive(Clone, Copy, PartialEq)]
pub(crate) struct Inputs<'s> {
    pub(crate) walls: &'s [(Figure, Tolerance)],
    pub(crate) pool: (&'s Figure, Tolerance),
    pub(crate) place: Option<&'s (Figure, Tolerance)>,
}

/// The last way found for each key, with its inputs.
#[derive(Default)]
pub(crate) struct WaysOut {
    known: RefCell<BTreeMap<Key, Known>>,
    /// The number of corners stored.
    corners: Cell<usize>,
}

struct Known {
    walls: Vec<(Figure, Tolerance)>,
    pool: (Figure, Tolerance),
    place: Option<(Figure, Tolerance)>,
    way: WayOut,
}

/// The most corners to store.
const MOST_CORNERS: usize = 200_000;
/// The memory for a way besides its corners, counted in corners.
const CORNERS_A_WAY: usize = 20;

impl WaysOut {
    /// The stored way for these inputs; if there is none, finds it and stores it.
    pub(crate) fn get_or_find(
        &self,
        key: Key,
        inputs: Inputs<'_>,
        find: impl FnOnce() -> WayOut,
    ) -> WayOut {
        let mut known = self.known.borrow_mut();
        if let Some(known) = known.get(&key).filter(|known| known.is_for(inputs)) {
            return known.way;
        }
        let way = find();
        let before = known.remove(&key).map_or(0, |known| known.corners());
        let new = Known::of(inputs, way);
        let corners = self.corners.get().saturating_sub(before);
        let all = corners.saturating_add(new.corners());
        if all <= MOST_CORNERS {
            known.insert(key, new);
            self.corners.set(all);
        } else {
            self.corners.set(corners);
        }
        way
    }
}

impl Known {
    fn of(inputs: Inputs<'_>, way: WayOut) -> Known {
        Known {
            walls: inputs.walls.to_vec(),
            pool: (inputs.pool.0.clone(), inputs.pool.1),
            place: inputs.place.cloned(),
            way,
        }
    }

    /// The memory that it takes, in corners.
    fn corners(&self) -> usize {
        let walls = self.walls.iter().chain([&self.pool]).chain(&self.place);
        let all = walls.map(|(figure, _)| figure.corners().count());
        all.sum::<usize>() + CORNERS_A_WAY
    }

    fn is_for(&self, inputs: Inputs<'_>) -> bool {
        let own = Inputs {
            walls: &self.walls,
            pool: (&self.pool.0, self.pool.1),
            place: self.place.as_ref(),
        };
        own == inputs
    }
}
