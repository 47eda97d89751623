//! Large plans and rule sets, made on demand to see how work grows with the size of the input.

mod plans;
pub mod rows;
mod rules;

pub use plans::*;
pub use rules::*;
