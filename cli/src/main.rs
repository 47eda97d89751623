//! The command `siting`: reads files, calls the library, prints the answer.
// Only `print` prints.
#![deny(clippy::print_stdout, clippy::print_stderr)]

mod arguments;
mod check;
mod draw;
mod files;
mod form;
mod place;
mod print;
mod rules;
mod steps;
mod usage;

use std::ffi::OsStr;
use std::process::ExitCode;

use lexopt::prelude::*;
use siting_rulesets as bundled;
use usage::{Trouble, misread};

const USAGE: &str = "\
Checks the plan of a private swimming pool against an authority's rules.

Usage: siting check PLAN --rules RULESET
       siting steps PLAN --rules RULESET --start DATE
       siting place PLAN --rules RULESET
       siting draw PLAN
       siting rules list
       siting form
       siting

Commands:
";

const OPTIONS: &str = "
Without a command, siting checks the example that it brings along and ends with
status 0: what the example comes to stands in the text.

Options:
  -h, --help       Show this help
  -V, --version    Show the version

The program reads what the files say and nothing else. Only the authority that
the report names can permit a pool.
";

/// The command that shows how the others are used.
const HELP: &str = "help";

/// Any other command.
struct Command {
    name: &'static str,
    /// What it is for, in a line.
    says: &'static str,
    help: &'static str,
    run: fn(lexopt::Parser) -> Result<ExitCode, Trouble>,
}

static COMMANDS: [Command; 6] = [
    Command {
        name: "check",
        says: "Check a plan: what passes, what fails and by how much, what is unknown",
        help: check::HELP,
        run: check::run,
    },
    Command {
        name: "steps",
        says: "What to do in which order, and on which days",
        help: steps::HELP,
        run: steps::run,
    },
    Command {
        name: "place",
        says: "Where on the lot the pool could go",
        help: place::HELP,
        run: place::run,
    },
    Command {
        name: "draw",
        says: "A plan as a drawing, with what was found about it",
        help: draw::HELP,
        run: draw::run,
    },
    Command {
        name: "rules",
        says: "List rule sets; check, read back, try or compare rule files",
        help: rules::HELP,
        run: rules::run,
    },
    Command {
        name: "form",
        says: "The form: a page for a browser, in which a plan is drawn and checked",
        help: form::HELP,
        run: form::run,
    },
];

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
        Short('h') | Long("help") => print::out(overview().as_str()),
        Short('V') | Long("version") => print::out(version().as_str()),
        Value(name) if name == HELP => help(arguments),
        Value(name) => (command(&name)?.run)(arguments),
        Short(_) | Long(_) => Err(usage::unexpected(first, &["help", "version"])),
    }
}

fn help(mut arguments: lexopt::Parser) -> Result<ExitCode, Trouble> {
    match arguments.next().map_err(misread)? {
        None => print::out(overview().as_str()),
        Some(Value(name)) => print::out(command(&name)?.help),
        Some(option) => Err(usage::unexpected(option, &[])),
    }
}

/// What the command can do, and how it is used.
fn overview() -> String {
    let own = (
        HELP,
        "Show this help, or that of a command: siting help check",
    );
    let rows = COMMANDS.iter().map(|command| (command.name, command.says));
    let rows = rows.chain([own]);
    let rows: String = rows
        .map(|(name, says)| format!("  {name:<9}{says}\n"))
        .collect();
    format!("{USAGE}{rows}{OPTIONS}")
}

/// The command of that name.
fn command(name: &OsStr) -> Result<&'static Command, Trouble> {
    let name = name.to_string_lossy();
    let known = COMMANDS.iter().find(|command| command.name == name);
    known.ok_or_else(|| {
        let names = COMMANDS.iter().map(|command| command.name);
        let names: Vec<_> = names.chain([HELP]).collect();
        usage::unknown("command", &name, &names)
    })
}

fn version() -> String {
    format!("siting {}", env!("CARGO_PKG_VERSION"))
}
