//! The one table of kinds, outlines and facts.
//!
//! The reader, the checker, the schemas, the form and the reference page are all built from it. A rule set adds kinds
//! and facts of its own to a copy. Nothing else in the program lists what a pool or a gate has.

mod additions;
mod fact;
mod height;
mod kind;
mod look;
mod lookup;
mod matter;
mod outline;
mod path;
mod table;

#[cfg(test)]
mod table_tests;

pub use fact::{Answer, Fact, FactId, Phrase};
pub use height::{Height, Level};
pub use kind::{Kind, KindId, Number, Part, Role};
pub use look::{Layer, Look, Mark};
pub use lookup::Vocabulary;
pub use matter::Matter;
pub use outline::{Lie, Outline, OutlineId, Shape};
pub use path::Named;
