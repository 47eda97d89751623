//! Help for whoever is typing a rule file: where its entries stand, and what may stand where the writer is.
//!
//! Everything comes from the grammar and the vocabulary. Nothing here reads a rule: the reader has the last word.

mod entries;
mod keysets;
mod offers;
mod open;
mod place;
mod rough;

#[cfg(test)]
mod hints_tests;

pub use entries::{Entry, end_of_section, entries, section_of};
pub use offers::{About, Hints, Offer, hints};
