//! Outlines derived from others, how far off they may be, the way round them, and whether a drawn outline is sound.

pub(super) mod carried;
pub(super) mod margin;
pub(super) mod offset;
#[cfg(test)]
pub(super) mod offset_tests;
pub(super) mod perimeter;
#[cfg(test)]
pub(super) mod shape_tests;
pub(super) mod valid;
