//! The geometry: distances, areas and places, exact in whole nanometres wherever a verdict may depend on them.
//!
//! Nothing here knows a rule, a kind or a fact. Coordinates must be within 10 km of the origin ([`EXTENT`]); the
//! plan's reader refuses others. Beyond that, answers may be wrong, but nothing overflows or hangs.

mod area;
mod distance;
mod enclosure;
mod figure;
mod ground;
mod lot;
mod outdoors;
mod outline;
mod walk;

pub use area::clip::{Keep, clip};
pub use area::overlap::{Weighted, around, overlaps, union_area, weighted_area};
pub use area::region::{ARC_TOLERANCE, Fit};
pub use area::zone::{Patch, Region};
pub use area::{Area, area_band, disc_area};
pub use distance::deep::{deepest_common, depth_in};
pub use distance::reach::{farthest, farthest_of_arcs, lies_within};
pub use distance::space::in_space;
pub use distance::widest::widest;
pub use distance::{Gap, distance, figure_gap};
pub use enclosure::{Goal, Opening, Target, Tolerance, View, Wall, WayOut, widest_way};
pub use figure::arc::{Kidney, Traced};
pub(crate) use figure::chain::Bounds;
pub use figure::convex::is_convex;
pub use figure::exact::Span;
pub(crate) use figure::exact::part_way;
pub use figure::inside::{Place, Side, contains, side};
pub(crate) use figure::size::signed_area2;
pub use figure::size::{area2, length};
pub use figure::touching::Rectangle;
pub use ground::earth::{flood_storage_taken, mass_of_water};
pub use ground::{Ground, is_within};
pub use lot::face::{Beside, Beyond, Face, Naming, Proposal, Why};
pub use lot::faces::{propose_faces, sides_along};
pub use lot::sides::{
    Corner, Hand, Land, ROUNDED, Triangle, UncertainLine, beside, beyond, corner, hand_of,
    in_a_row, look_alike, moved_away, opposite, outward as outward_of,
};
pub use outdoors::sound::{level, together};
pub use outdoors::wire::Wire;
pub use outline::carried::{inward_off, outward_off};
pub use outline::margin::{margin, width};
pub use outline::offset::{Corners, OffsetFault, inward, narrower, outward};
pub use outline::perimeter::perimeter;
pub use outline::valid::{EXTENT, Flaw, flaw};
pub use walk::{Hurdle, Stand, Walk, least_way, way_round};
