//! Text that people wrote, read with care: where each word stands, and what is wrong with it.

mod fault;
mod node;

pub use fault::{Fault, Faults};
pub use node::{Content, Entry, Node, Span};
