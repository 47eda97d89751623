//! Large plans and rule sets, made when they are wanted: for how work grows with what is written.

mod plans;
pub mod rows;
mod rules;

pub use plans::*;
pub use rules::*;
