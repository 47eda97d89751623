//! The kinds of which the sheet itself is made, by their names, and who vouches for a line.

/// The land.
pub(super) const LOT: &str = "lot";
/// Its sides.
pub(super) const LOT_LINE: &str = "lot-line";
/// What is to be built.
pub(super) const POOL: &str = "pool";
/// Who supplied a line of the lot so that it may be called a boundary.
pub(super) const SURE_SOURCES: [&str; 3] = ["survey", "plat", "deed"];
