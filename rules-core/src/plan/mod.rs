//! The plan: the lot, the pool, and all that stands, runs or flows there.

pub mod figure;
mod model;

pub use figure::{Figure, Form, Point};
pub use model::*;
