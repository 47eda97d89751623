//! Judges a plan against a rule set, over all that is still possible.

mod finding;
mod outcome;
mod truth;

pub use finding::*;
pub use outcome::{Outcome, Verdict};
pub use truth::{Level, Truth};
