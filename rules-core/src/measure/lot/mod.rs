//! Derived from the lines of a lot: what its sides face, and the land beside them.

pub(super) mod face;
pub(super) mod faces;
pub(super) mod sides;
#[cfg(test)]
pub(super) mod sides_tests;
