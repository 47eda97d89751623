//! The rule set: an authority's rules, read, checked and ready to be judged by.

mod about;
pub(crate) mod built_in;
mod circle;
mod clash;
mod levels;
mod lint;
mod matters;
mod model;
mod named_terms;
mod once;
pub mod pieces;
mod read;
pub mod say;
mod scope;
mod shapes;
mod sources;
pub mod stricter;
pub mod types;
mod values;
pub(crate) mod visit;
pub mod words;

#[cfg(test)]
mod edition_tests;
#[cfg(test)]
mod fault_tests;
#[cfg(test)]
mod layer_part_tests;
#[cfg(test)]
mod layer_tests;
#[cfg(test)]
mod read_tests;
#[cfg(test)]
mod scope_tests;
#[cfg(test)]
mod source_tests;

pub use about::{About, Sort};
pub use circle::circle;
pub(crate) use clash::{Meant, OF, PAPERS, clashes, with_name};
pub use levels::{Fall, HeightOver, LevelOf, Surface, Volume};
pub use matters::matters_of;
pub use model::*;
pub(crate) use once::{Once, address};
#[cfg(any(test, feature = "inside"))]
pub use read::read;
pub use read::{Checked, FORMAT, FileFaults, is_language, read_in};
pub use scope::{LeftOut, Reach};
pub use shapes::Margin;
pub use sources::{Cited, Grade, Holder, Question, Source, SourceIndex, SourcedValue, grade_of};
pub use values::*;
