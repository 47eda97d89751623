//! The command as people and programs meet it, in one program: it is built and linked once.

mod bad_inputs;
mod command;
mod common;
mod draw;
mod figures;
#[cfg(unix)]
mod files;
mod form;
mod hostile;
mod place;
mod rules;
mod schema;
mod steps;
