//! The one table of kinds, outlines and facts.
//!
//! Reader, checker, schema, form and reference page are all drawn from it; a rule set adds kinds and facts of its
//! own to a copy. Nothing else in the program lists what a pool or a gate has.

mod height;
mod look;
mod matter;
mod model;
mod path;
mod table;

#[cfg(test)]
mod table_tests;

pub use height::{Height, Level};
pub use look::{Layer, Look, Mark};
pub use matter::Matter;
pub use model::*;
pub use path::{Named, is_name};
