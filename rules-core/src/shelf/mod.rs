//! What to know about rule sets before using one: which there are, what each covers, how old it is, and what its values
//! rest on. Laid out for a person at a terminal.

mod list;
mod sources;

#[cfg(test)]
mod shelf_tests;

pub use list::{Shelf, listed};
pub use sources::{Tally, sources_listed, tally};

use crate::quantity::CalendarDate;

fn date(day: i128) -> String {
    CalendarDate::from_day_number(day).to_string()
}

/// `1 rule`, `2 rules`.
fn counted(number: usize, one: &str) -> String {
    match number {
        1 => format!("1 {one}"),
        more => format!("{more} {one}s"),
    }
}
