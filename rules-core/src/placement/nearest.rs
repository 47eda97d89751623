//! The nearest place to somewhere on the map.

use super::map::Class;
use super::model::{CellReport, TurnReport};
use super::spot::{Spot, Way};

impl TurnReport {
    /// The nearest move to a way, among those where the rules hold as surely as anywhere on this map; `None` where each
    /// place is ruled out.
    pub fn nearest_to(&self, way: Way) -> Option<Way> {
        let best = self.cells.iter().map(CellReport::rank).min()?;
        let cells = self.cells.iter().filter(|cell| cell.rank() == best);
        let nearest = cells.map(|cell| cell.nearest_to(way));
        nearest.min_by_key(|place| (place.squared_to(way), *place))
    }
}

impl CellReport {
    fn rank(&self) -> (Class, bool) {
        (self.holds, self.edge)
    }

    /// An open cell was only tried at its middle and its corners: a rule may fail in between.
    fn nearest_to(&self, way: Way) -> Way {
        let spot = Spot {
            low: self.way,
            size: self.size,
        };
        match self.holds {
            Class::Sure | Class::AsDrawn => spot.nearest_to(way),
            Class::Open | Class::Never => spot.middle(),
        }
    }
}
