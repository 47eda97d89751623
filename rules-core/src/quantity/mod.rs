//! Amounts with their dimension, exact, and intervals of them.
//!
//! An amount is a whole number of a tiny unit (a nanometre for lengths), so that two spellings of one length are
//! the same number and a comparison at the exact limit never turns on rounding.

mod amount;
mod calendar;
mod compare;
mod dimension;
mod easter;
mod fault;
mod figures;
mod interval;
mod meant;
mod number;
mod parse;
mod show;
mod unit;
mod wide;
mod working_days;

#[cfg(test)]
mod calendar_tests;
#[cfg(test)]
mod figures_tests;
#[cfg(test)]
mod interval_tests;
#[cfg(test)]
mod parse_tests;
#[cfg(test)]
mod working_days_tests;

pub use calendar::{CalendarDate, add_months};
pub use compare::{Compared, Relation, in_one_dimension};
pub use dimension::Dimension;
pub use fault::QuantityFault;
pub use figures::Figures;
pub use interval::{Interval, NO_HIGH, NO_LOW, ONE};
pub(crate) use meant::meant_amount;
pub use parse::{Written, parse};
pub use show::{show, show_exactly, show_range};
pub use unit::Unit;
pub use wide::Rounding;
pub use working_days::{Holiday, Weekday, WorkingDays, YearDay};
