//! What the command says in plain words when something is wrong, and the exit status it then ends with.

use std::process::ExitCode;

use rules_core::Refusal;
use rules_core::text::{Visible, closest, exact_name};

use crate::print;

/// The exit status where a file has faults.
pub const REFUSED: u8 = 3;
/// The exit status of anything that is neither a verdict nor a fault in a file.
pub const TROUBLE: u8 = 4;

/// Shows what is wrong with the files.
pub fn refuse(refusal: &Refusal, plan: &str, rules: &str) -> Result<ExitCode, Trouble> {
    print::complain(refusal.show(plan, rules).as_str());
    Ok(ExitCode::from(REFUSED))
}

/// A sentence for the person at the terminal, and what would be right.
#[derive(Debug)]
pub struct Trouble {
    what: String,
    help: String,
}

impl Trouble {
    /// What is wrong, and what would be right.
    pub fn new(what: impl Into<String>, help: impl Into<String>) -> Self {
        Self {
            what: what.into(),
            help: help.into(),
        }
    }
}

impl Trouble {
    /// The text to show, one line for each.
    pub fn shown(&self) -> Visible {
        let mut shown = Visible::new();
        shown.extend([&self.what, &self.help]);
        shown
    }
}

/// A word that is not known here.
pub fn unknown(what: &str, written: &str, known: &[&str]) -> Trouble {
    let help = match closest(written, known.iter().copied()) {
        Some(meant) => format!("Did you mean `{meant}`?"),
        None if known.is_empty() => SEE_HELP.to_owned(),
        None => format!("It knows: {}.", known.join(", ")),
    };
    let written = exact_name(written);
    Trouble::new(
        format!("siting does not know the {what} `{written}`."),
        help,
    )
}

/// An option or a word that does not belong here.
pub fn unexpected(argument: lexopt::Arg<'_>, options: &[&str]) -> Trouble {
    match argument {
        lexopt::Arg::Long(name) => {
            let help = match closest(name, options.iter().copied()) {
                Some(meant) => format!("Did you mean `--{meant}`?"),
                None => SEE_HELP.to_owned(),
            };
            let name = exact_name(name);
            Trouble::new(format!("There is no option `--{name}` here."), help)
        }
        lexopt::Arg::Short(letter) => {
            Trouble::new(format!("There is no option `-{letter}` here."), SEE_HELP)
        }
        lexopt::Arg::Value(word) => {
            let word = word.to_string_lossy();
            let word = exact_name(&word);
            Trouble::new(format!("`{word}` is one word too many."), SEE_HELP)
        }
    }
}

/// A mistake in the command line itself, such as an option without its value.
pub fn misread(error: lexopt::Error) -> Trouble {
    let what = match error {
        lexopt::Error::MissingValue {
            option: Some(option),
        } => {
            format!("A value is missing after `{option}`.")
        }
        lexopt::Error::UnexpectedValue { option, .. } => format!("`{option}` takes no value."),
        other => format!("The command line cannot be read: {other}."),
    };
    Trouble::new(what, SEE_HELP)
}

const SEE_HELP: &str = "`siting --help` shows how it is used.";
