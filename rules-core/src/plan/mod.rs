//! The plan: the lot, the pool, and all that stands, runs or flows there.

pub mod figure;
mod model;
mod read;
mod valid;

pub use figure::{Figure, Form, Point};
pub use model::*;
pub use read::{read, read_document};
