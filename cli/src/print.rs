//! Printing that copes with a closed output.
//!
//! Everything that the command prints goes through here. Text for people is printed only as [`Visible`], in which no
//! character hides.

use std::io::{self, ErrorKind, IsTerminal, Write};
use std::process::ExitCode;

use rules_core::text::{Visible, plain_json};

use crate::usage::Trouble;

/// When the terminal's colour codes are printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Colour {
    /// On a terminal, unless the environment says `NO_COLOR`.
    Auto,
    /// Whatever the output is.
    Always,
    /// Not at all.
    Never,
}

impl Colour {
    /// Whether to print them now.
    pub fn is_wanted(self) -> bool {
        let forbidden = std::env::var_os("NO_COLOR").is_some_and(|value| !value.is_empty());
        match self {
            Colour::Auto => !forbidden && io::stdout().is_terminal(),
            Colour::Always => true,
            Colour::Never => false,
        }
    }
}

/// Prints text for a person.
pub fn out(text: impl Into<Visible>) -> Result<ExitCode, Trouble> {
    to_stdout(&text.into())
}

/// Prints JSON for another program.
pub fn json(json: String) -> Result<ExitCode, Trouble> {
    to_stdout(&plain_json(json))
}

/// Says what went wrong. If even that cannot be written, the exit status has to do.
pub fn complain(text: impl Into<Visible>) {
    let written = io::stderr().lock().write_all(text.into().as_bytes());
    drop(written);
}

/// A reader that has gone away (`siting | head`) is not an error.
fn to_stdout(text: &str) -> Result<ExitCode, Trouble> {
    let mut stdout = io::stdout().lock();
    let printed = stdout
        .write_all(text.as_bytes())
        .and_then(|()| stdout.flush());
    match printed {
        Err(error) if error.kind() != ErrorKind::BrokenPipe => Err(Trouble::new(
            format!("The answer could not be written: {error}."),
            "Is there room where it should go?",
        )),
        _ => Ok(ExitCode::SUCCESS),
    }
}
