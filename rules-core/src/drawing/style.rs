//! The kinds that the sheet treats specially, by name, and the sources that make a line a boundary.

/// The land.
pub(super) const LOT: &str = "lot";
/// Its sides.
pub(super) const LOT_LINE: &str = "lot-line";
/// What is to be built.
pub(super) const POOL: &str = "pool";
/// Sources good enough for a line of the lot to be drawn as a boundary.
pub(super) const SURE_SOURCES: [&str; 3] = ["survey", "plat", "deed"];
