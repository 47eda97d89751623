//! The plan: the lot, the pool, and all that stands, runs or flows there.

pub mod figure;
mod model;
mod read;

pub use figure::{Arc, Course, Curved, Figure, Form, Point};
pub use model::*;
pub use read::{read, read_document};
