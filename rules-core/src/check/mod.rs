//! Judges a plan against a rule set, over all that is still possible.
//!
//! A plan stands for every world that agrees with what it states. The truth of a rule is the set of its outcomes in those
//! worlds. Nothing here knows how a report looks.

mod finding;
mod judge;
mod rule;
pub(crate) mod value;
mod whole;
pub(crate) mod world;

pub use finding::outcome::{Outcome, Verdict};
pub use finding::truth::{Level, Truth};
pub use finding::*;
pub use value::passage::passages;
pub use whole::bound::TooMuch;
pub use whole::check;
pub use whole::contradictions::contradictions;
pub use whole::editions::{Edition, Governed, governed};
pub use whole::papers::{questions, unsaid_papers};
