//! The one table of kinds, outlines and facts.
//!
//! The reader, the checker, the schemas, the form and the reference page are all built from it. A rule set adds kinds
//! and facts of its own to a copy. Nothing else in the program lists what a pool or a gate has.

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
pub use path::Named;
