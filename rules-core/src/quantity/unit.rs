//! Units. To come.

/// A unit of measure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Unit;
