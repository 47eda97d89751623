//! Plans and rule files put together at random from the vocabulary's and the grammar's own words, and what must be so of
//! whatever is said of them.

mod changed;
mod oracles;
mod stock;

pub use oracles::{Case, Outcome, tried};
pub use stock::Stock;
