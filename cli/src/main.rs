//! The command `siting`: reads files, calls the library, prints the answer.
// Only `print` prints.
#![deny(clippy::print_stdout, clippy::print_stderr)]

mod check;
mod files;
mod form;
mod place;
mod print;
mod rules;
mod steps;
mod usage;

use std::process::ExitCode;

use lexopt::prelude::*;
use siting_rulesets as bundled;
use usage::{Trouble, misread};

const HELP: &str = "\
Checks the plan of a private swimming pool against an authority's rules.

Usage: siting check PLAN --rules RULESET
       siting steps PLAN --rules RULESET --start DATE
       siting place PLAN --rules RULESET
       siting rules list
       siting form
       siting

Commands:
  check    Check a plan: what passes, what fails and by how much, what is unknown
  steps    What to do in which order, and on which days
  place    Where on the lot the pool could go
  rules    List rule sets; check, read back, try or compare rule files
  form     The form: a page for a browser, in which a plan is drawn and checked
  help     Show this help, or that of a command: siting help check

Without a command, siting checks the example that it brings along and ends with
status 0: what the example comes to stands in the text.

Options:
  -h, --help       Show this help
  -V, --version    Show the version

The program reads what the files say and nothing else. Only the authority that
the report names can permit a pool.
";

const COMMANDS: [&str; 6] = ["check", "steps", "place", "rules", "form", "help"];

fn main() -> ExitCode {
    match run(lexopt::Parser::from_env()) {
        Ok(code) => code,
        Err(trouble) => {
            print::complain(trouble.shown());
            ExitCode::from(usage::TROUBLE)
        }
    }
}

fn run(mut arguments: lexopt::Parser) -> Result<ExitCode, Trouble> {
    let Some(first) = arguments.next().map_err(misread)? else {
        return check::demo();
    };
    match first {
        Short('h') | Long("help") => print::out(HELP),
        Short('V') | Long("version") => print::out(version().as_str()),
        Value(command) => match command.to_string_lossy().as_ref() {
            "check" => check::run(arguments),
            "steps" => steps::run(arguments),
            "place" => place::run(arguments),
            "rules" => rules::run(arguments),
            "form" => form::run(arguments),
            "help" => help(arguments),
            other => Err(usage::unknown("command", other, &COMMANDS)),
        },
        Short(_) | Long(_) => Err(usage::unexpected(first, &["help", "version"])),
    }
}

fn help(mut arguments: lexopt::Parser) -> Result<ExitCode, Trouble> {
    match arguments.next().map_err(misread)? {
        None => print::out(HELP),
        Some(Value(command)) => match command.to_string_lossy().as_ref() {
            "check" => print::out(check::HELP),
            "steps" => print::out(steps::HELP),
            "place" => print::out(place::HELP),
            "rules" => print::out(rules::HELP),
            "form" => print::out(form::HELP),
            other => Err(usage::unknown("command", other, &COMMANDS)),
        },
        Some(option) => Err(usage::unexpected(option, &[])),
    }
}

fn version() -> String {
    format!("siting {}", env!("CARGO_PKG_VERSION"))
}
