//! The geometry: distances, areas and places, exact on whole nanometres wherever a verdict may rest on them.
//!
//! Nothing here knows a rule, a kind or a fact. Coordinates are taken to lie within 10 km of the origin, which
//! `validate` checks; beyond that, answers may be wrong, but nothing overflows or hangs.

mod area;
mod chain;
mod distance;
mod exact;
mod inside;
mod search;

#[cfg(test)]
mod distance_tests;
#[cfg(test)]
mod random;

pub use area::{Area, area_band, area2, length};
pub use distance::{Gap, distance, figure_gap};
pub use exact::Span;
pub use inside::{Place, Side, contains, depth, side};
