//! Figures: exact arithmetic on their corners, arcs, sizes, inside and outside.

pub(super) mod arc;
pub(super) mod chain;
pub(super) mod convex;
pub(super) mod direction;
pub(super) mod exact;
pub(super) mod inside;
#[cfg(test)]
pub(super) mod random;
pub(super) mod size;
pub(super) mod touching;
