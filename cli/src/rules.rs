//! `siting rules`: for whoever writes a rule file, or wants to know what one says.

mod check;
mod list;
mod read;

use std::ffi::OsString;
use std::process::ExitCode;

use lexopt::prelude::*;
use rules_core::{Refusal, RulesRead, read_rules};

use crate::files::{self, Source};
use crate::print;
use crate::usage::{self, Trouble, misread};

pub const HELP: &str = "\
For whoever writes a rule file, or wants to know what one says.

Usage: siting rules list
       siting rules check RULESET
       siting rules read RULESET [--format text|markdown]

  RULESET    A rule file, or the name of a rule set that comes with the program

Commands:
  list     The rule sets that come with the program
  check    Everything that is wrong with a rule file, and what looks like a slip
  read     What a rule file says, in plain sentences, with an example on each
           side of each limit

Options:
  -f, --format FORMAT    text (if not said), or markdown
  -h, --help             Show this help

Exit status:
  0  nothing is wrong; what looks like a slip is shown all the same
  3  a file has faults; all of them are shown
  4  anything else: no such file, a slip on the command line
";

const COMMANDS: [&str; 3] = ["list", "check", "read"];

/// The exit status of faults in a file.
const REFUSED: u8 = 3;

/// Reads the rest of the command line and answers.
pub fn run(mut arguments: lexopt::Parser) -> Result<ExitCode, Trouble> {
    match arguments.next().map_err(misread)? {
        None | Some(Short('h') | Long("help")) => print::out(HELP),
        Some(Value(command)) => match command.to_string_lossy().as_ref() {
            "list" => list::run(arguments),
            "check" => check::run(arguments),
            "read" => read::run(arguments),
            other => Err(usage::unknown("command", other, &COMMANDS)),
        },
        Some(option) => Err(usage::unexpected(option, &["help"])),
    }
}

/// A rule file that was read, or why it was not.
struct Loaded {
    source: Source,
    read: Result<RulesRead, Refusal>,
}

/// Reads the rule file of that path or name.
fn load(name: &OsString) -> Result<Loaded, Trouble> {
    let (source, bases) = files::rules(name)?;
    let read = match &source.refused {
        Some(refused) => Err(Refusal {
            plan: None,
            rules: vec![refused.clone()],
        }),
        None => read_rules(&source.text, &|name| bases.find(name)),
    };
    Ok(Loaded { source, read })
}

/// Shows what is wrong with a file.
fn refuse(refusal: &Refusal, name: &str) -> Result<ExitCode, Trouble> {
    print::complain(refusal.show(name, name).trim_end());
    Ok(ExitCode::from(REFUSED))
}

fn which_rules(command: &str) -> Trouble {
    Trouble::new(
        "Which rules?",
        format!("Write a rule file, or the name of a rule set: siting rules {command} eldermere"),
    )
}
