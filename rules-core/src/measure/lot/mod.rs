//! What a lot's own lines give: what its sides face, the land beside them, building lines.

pub(super) mod face;
pub(super) mod faces;
pub(super) mod sides;
#[cfg(test)]
pub(super) mod sides_tests;
