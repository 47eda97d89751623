//! The rule set: an authority's rules, read, checked and ready to be judged by.

pub(crate) mod built_in;
mod circle;
mod levels;
mod model;
mod once;
mod read;
pub mod say;
pub mod types;
mod values;
pub mod words;

#[cfg(test)]
mod edition_tests;
#[cfg(test)]
mod fault_tests;
#[cfg(test)]
mod layer_tests;
#[cfg(test)]
mod read_tests;

pub use circle::circle;
pub use levels::{Fall, HeightOver, LevelOf, Surface, Volume};
pub use model::*;
pub(crate) use once::{Once, address};
pub use read::{Checked, FileFaults, read};
pub use values::*;
