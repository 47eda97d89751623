//! The rule set: an authority's rules, read, checked and ready to be judged by.

mod model;
pub mod words;

pub use model::*;
