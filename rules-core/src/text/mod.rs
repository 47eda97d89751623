//! Text that people wrote, read with care: where each word stands, and what is wrong with it.
//!
//! [`read`] is the one door through which YAML and JSON come in, [`write()`] the one through which YAML goes out, and
//! [`Visible`] the one through which text goes to a person.

mod cures;
mod cut;
mod fault;
mod kit;
mod laid_out;
mod leaf;
mod lines;
mod looks;
mod node;
mod offsets;
mod read;
mod refused;
mod show;
mod syntax;
mod tree;
mod visible;
mod write;

#[cfg(test)]
mod hostile_tests;
#[cfg(test)]
mod laid_out_tests;
#[cfg(test)]
mod read_tests;
#[cfg(test)]
mod show_tests;
#[cfg(test)]
mod visible_tests;
#[cfg(test)]
mod write_tests;

pub(crate) use cures::with_comment_apart;
pub(crate) use cut::cut_texts_told;
pub use fault::{Fault, Faults, Help};
pub use kit::{MapReader, capitalised, closest, yes_no};
pub(crate) use kit::{is_one_slip_off, meant_and, meant_or, of_same_words};
pub(crate) use laid_out::{in_quotes, in_short};
pub use laid_out::{to_json_text, to_yaml_text};
pub use lines::Lines;
pub(crate) use looks::{begins_with_bullet, slips};
pub use node::{Content, Entry, Node, Span};
pub use read::{MAX_BYTES, MAX_DEPTH, MAX_NODES, decode, longer_than_read, read, read_bytes};
pub use show::{FaultRow, MAX_SHOWN};
pub(crate) use visible::escaped;
pub use visible::{Visible, exact_name, one_line, plain_json};
pub use write::{to_json, write};
