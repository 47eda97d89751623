//! The geometry: distances, areas and places, exact on whole nanometres wherever a verdict may rest on them.
//!
//! Nothing here knows a rule, a kind or a fact. Coordinates are taken to lie within 10 km of the origin, which
//! `validate` checks; beyond that, answers may be wrong, but nothing overflows or hangs.

mod arc;
mod area;
mod carried;
mod chain;
mod course;
mod cut;
mod deep;
mod delaunay;
mod distance;
mod earth;
mod enclosure;
mod exact;
mod face;
mod faces;
mod ground;
mod inside;
mod joining;
mod laid;
mod nearest;
mod offset;
mod overlap;
mod perimeter;
mod reach;
mod region;
mod runs;
mod search;
mod sides;
mod sound;
mod space;
mod touching;
mod tree;
mod valid;
mod walk;
mod widest;
mod wire;
mod zone;

#[cfg(test)]
mod area_tests;
#[cfg(test)]
mod distance_tests;
#[cfg(test)]
mod offset_tests;
#[cfg(test)]
mod random;
#[cfg(test)]
mod reach_tests;
#[cfg(test)]
mod shape_tests;
#[cfg(test)]
mod sides_tests;

pub use arc::{Kidney, Traced};
pub use area::{Area, area_band, area2, disc_area, length};
pub use carried::{inward_off, outward_off};
pub(crate) use chain::Bounds;
pub use deep::{deepest_common, depth_in};
pub use distance::{Gap, distance, figure_gap};
pub use earth::{flood_storage_taken, mass_of_water};
pub use enclosure::{Doubt, Goal, Opening, Target, View, Wall, WayOut, widest_way};
pub use exact::Span;
pub(crate) use exact::part_way;
pub use face::{Beside, Beyond, Face, Naming, Proposal, Why};
pub use faces::{propose_faces, sides_along};
pub use ground::Ground;
pub use inside::{Place, Side, contains, side};
pub use offset::{Corners, OffsetFault, inward, is_convex, narrower, outward};
pub use overlap::{Keep, Weighted, around, clip, overlaps, union_area, weighted_area};
pub use perimeter::perimeter;
pub use reach::{farthest, farthest_of_arcs, lies_within};
pub use region::{ARC_TOLERANCE, Fit};
pub use sides::{
    Corner, Doubtful, Hand, Land, ROUNDED, Triangle, beside, beyond, corner, hand_of, moved_away,
    outward as outward_of,
};
pub use sound::{level, together};
pub use space::in_space;
pub use touching::Rectangle;
pub use valid::{EXTENT, FormFault, validate};
pub use walk::{Hurdle, Stand, Walk, least_way, way_round};
pub use widest::widest;
pub use wire::Wire;
pub use zone::{Patch, Region};
