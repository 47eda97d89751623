//! The ways out through a barrier that were found: a rule that is open is judged many times over, mostly with the same
//! barrier.

use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;

use crate::check::value::lines::corners;
use crate::measure::{Doubt, View, WayOut};
use crate::plan::{Figure, ThingIndex};
use crate::vocabulary::OutlineId;

/// A pool, one of the places from which people come, and which of the possible plans is measured.
pub(crate) type Key = (ThingIndex, OutlineId, usize, View);

/// All that a way out depends on. The pool is off by the same whenever it is the same.
#[derive(Clone, Copy, PartialEq)]
pub(crate) struct Sought<'s> {
    pub(crate) walls: &'s [(Figure, Doubt)],
    pub(crate) pool: (&'s Figure, Doubt),
    pub(crate) place: Option<&'s (Figure, Doubt)>,
}

/// The last way that was found for each key, and for what.
#[derive(Default)]
pub(crate) struct WaysOut {
    known: RefCell<BTreeMap<Key, Known>>,
    /// How many corners all that is known has.
    corners: Cell<usize>,
}

struct Known {
    walls: Vec<(Figure, Doubt)>,
    pool: (Figure, Doubt),
    place: Option<(Figure, Doubt)>,
    way: WayOut,
}

/// No more corners than this are remembered.
const MOST_CORNERS: usize = 200_000;
/// What is remembered of a way besides its corners takes as much room as so many.
const CORNERS_A_WAY: usize = 20;

impl WaysOut {
    pub(crate) fn found(
        &self,
        key: Key,
        sought: Sought<'_>,
        find: impl FnOnce() -> WayOut,
    ) -> WayOut {
        let mut known = self.known.borrow_mut();
        if let Some(known) = known.get(&key).filter(|known| known.is_for(sought)) {
            return known.way;
        }
        let way = find();
        let before = known.remove(&key).map_or(0, |known| known.corners());
        let new = Known::of(sought, way);
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
    fn of(sought: Sought<'_>, way: WayOut) -> Known {
        Known {
            walls: sought.walls.to_vec(),
            pool: (sought.pool.0.clone(), sought.pool.1),
            place: sought.place.cloned(),
            way,
        }
    }

    /// How much room it takes.
    fn corners(&self) -> usize {
        let walls = self.walls.iter().chain([&self.pool]).chain(&self.place);
        let all = walls.map(|(figure, _)| corners(figure).count());
        all.sum::<usize>() + CORNERS_A_WAY
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
