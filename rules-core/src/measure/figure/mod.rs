//! Figures: exact arithmetic on their corners, arcs, inside and outside, and outlines derived from others.

pub(super) mod arc;
pub(super) mod carried;
pub(super) mod chain;
pub(super) mod exact;
pub(super) mod inside;
pub(super) mod offset;
#[cfg(test)]
pub(super) mod offset_tests;
pub(super) mod perimeter;
#[cfg(test)]
pub(super) mod random;
#[cfg(test)]
pub(super) mod shape_tests;
pub(super) mod touching;
pub(super) mod valid;
