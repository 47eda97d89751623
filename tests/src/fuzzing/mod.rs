//! Plans and rule files put together at random from the words of the vocabulary and the grammar, and what must hold of
//! every answer about them.

mod changed;
mod oracles;
mod stock;

pub use oracles::{Case, Outcome, tried};
pub use stock::Stock;
