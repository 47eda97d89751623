//! Whether a rule holds: for each pool, for each thing that it is about, and at each place along it.

pub(super) mod alike;
mod applies;
mod assessment;
pub(super) mod finding;
pub(super) mod missing;
mod outlying;
mod part;
mod reading;
mod readings;
mod reliefs;
mod requirement;
pub(super) mod target;
