//! `siting rules`: for people who write rule files or want to know what one says.

mod cases;
mod check;
mod compare;
mod list;
mod read;
mod sources;

use std::ffi::OsString;
use std::process::ExitCode;

use lexopt::prelude::*;
use rules_core::steps::day;
use rules_core::{Refusal, RulesRead, read_rules};

use crate::files::{self, Source};
use crate::print;
use crate::usage::{self, Trouble, misread};

pub const HELP: &str = "\
For whoever writes a rule file, or wants to know what one says.

Usage: siting rules list [WORD...] [--on DATE]
       siting rules check RULESET
       siting rules read RULESET [--format text|markdown|page]
       siting rules sources RULESET [--on DATE]
       siting rules try RULESET [--cases FILE] [--edges]
       siting rules cases RULESET [--cases FILE]
       siting rules compare OLD NEW [PLAN...] [--format text|json]

  RULESET    A rule file, or the name of a rule set that comes with the program

Commands:
  list     The rule sets that come with the program; with words, only those that
           have them in their name, place, country or matters
  check    Everything that is wrong with a rule file, and what looks like a slip
  read     What a rule file says, in plain sentences, with an example on each
           side of each limit
  sources  What its values rest on: source by source, the best first
  try      Whether its cases come out as they should, what they have shown, and
           which clauses no case touches
  cases    A case on each side of each limit, made from those of the file and
           written out to be kept
  compare  What a new edition changes, in words, whether it is stricter, and which
           plans come out differently; a folder stands for all plans in it

Options:
  -f, --format FORMAT    text (if not said); for `read` also markdown, or page: HTML
                         to print and sign; for `compare` also json
      --on DATE          The day by which sources are called overdue
      --cases FILE       The cases to try; if not said, those that stand under
                         `cases` in the rule file, else cases.yaml beside it
      --edges            Also try each limit just inside, at the limit, and just
                         outside
  -h, --help             Show this help

Exit status:
  0  nothing is wrong; what looks like a slip is shown all the same
  1  a case does not come out as expected
  3  a file has faults; all of them are shown
  4  anything else: no such file, a slip on the command line
";

const COMMANDS: [&str; 7] = [
    "list", "check", "read", "sources", "try", "cases", "compare",
];

/// Reads the rest of the command line and answers.
pub fn run(mut arguments: lexopt::Parser) -> Result<ExitCode, Trouble> {
    match arguments.next().map_err(misread)? {
        None | Some(Short('h') | Long("help")) => print::out(HELP),
        Some(Value(command)) => match command.to_string_lossy().as_ref() {
            "list" => list::run(arguments),
            "check" => check::run(arguments),
            "read" => read::run(arguments),
            "sources" => sources::run(arguments),
            "try" => cases::run(arguments),
            "cases" => cases::make(arguments),
            "compare" => compare::run(arguments),
            other => Err(usage::unknown("command", other, &COMMANDS)),
        },
        Some(option) => Err(usage::unexpected(option, &["help"])),
    }
}

/// A rule file, and what was read from it or why it was refused.
struct Loaded {
    source: Source,
    read: Result<RulesRead, Refusal>,
}

/// Reads the rule file with that path or name.
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

/// The day after `--on`.
fn day_asked(written: OsString) -> Result<i128, Trouble> {
    const HELP: &str = "Write the day as year-month-day: --on 2026-03-02";
    day(&written.to_string_lossy()).map_err(|wrong| Trouble::new(wrong, HELP))
}

fn which_rules(command: &str) -> Trouble {
    Trouble::new(
        "Which rules?",
        format!("Write a rule file, or the name of a rule set: siting rules {command} eldermere"),
    )
}
