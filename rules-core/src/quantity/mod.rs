//! Amounts with their dimension, exact, and intervals of them.
//!
//! An amount is a whole number of a tiny unit (a nanometre for lengths), so that two spellings of one length are
//! the same number and a comparison at the exact limit never turns on rounding.

mod dimension;
mod interval;
mod unit;

pub use dimension::Dimension;
pub use interval::Interval;
pub use unit::Unit;
