//! `siting steps`: what to do in which order, and on which days.

use std::ffi::OsString;
use std::process::ExitCode;

use lexopt::prelude::*;
use rules_core::steps::day;
use rules_core::{steps_to_json, steps_together};

use crate::arguments::{Format, format, plan_by};
use crate::files::{self, RuleSets};
use crate::print;
use crate::usage::{self, REFUSED, Trouble, misread, refuse};

pub const HELP: &str = "\
What to do in which order, and on which days, by the duties of a rule set, or of
several together.

Usage: siting steps PLAN --rules RULESET [--rules RULESET]... --start DATE

  PLAN       The plan's file (YAML or JSON); `-` reads it from standard input
  RULESET    A rule file, or the name of a rule set that comes with the program
  DATE       The day on which the first step can begin, such as 2026-03-02

Options:
  -r, --rules RULESET    The rules whose duties are put in order; once for each
                         rule set
  -s, --start DATE       The day on which the first step can begin
  -f, --format FORMAT    text: for reading (if not said); json: for a program
  -h, --help             Show this help

Exit status:
  0  the steps are shown
  3  a file has faults; all of them are shown
  4  anything else: no such file, a slip on the command line
";

/// Reads the rest of the command line and answers.
pub fn run(mut arguments: lexopt::Parser) -> Result<ExitCode, Trouble> {
    let (mut plan, mut rules, mut start) = (None, Vec::new(), None);
    let mut wanted = Format::Text;
    while let Some(argument) = arguments.next().map_err(misread)? {
        match argument {
            Short('h') | Long("help") => return print::out(HELP),
            Short('r') | Long("rules") => rules.push(arguments.value().map_err(misread)?),
            Short('s') | Long("start") => start = Some(arguments.value().map_err(misread)?),
            Short('f') | Long("format") => {
                wanted = format(arguments.value().map_err(misread)?)?;
            }
            Value(path) if plan.is_none() => plan = Some(path),
            other => {
                let known = ["rules", "start", "format", "help"];
                return Err(usage::unexpected(other, &known));
            }
        }
    }
    let plan = plan_by(&rules, "steps", plan)?;
    answer(&plan, &rules, first_day(start)?, &wanted)
}

fn first_day(written: Option<OsString>) -> Result<i128, Trouble> {
    const HELP: &str = "Write the day on which you can begin as year-month-day: --start 2026-03-02";
    let written = written.ok_or_else(|| Trouble::new("Starting on which day?", HELP))?;
    day(&written.to_string_lossy()).map_err(|wrong| Trouble::new(wrong, HELP))
}

fn answer(
    plan: &OsString,
    rules: &[OsString],
    start: i128,
    wanted: &Format,
) -> Result<ExitCode, Trouble> {
    let rules = RuleSets::of(rules)?;
    let plan = files::read(plan)?;
    let answer = rules.ask(&plan, |sets| steps_together(&plan.text, sets, start));
    match (wanted, &answer) {
        (Format::Json, Ok(_)) => print::json(steps_to_json(&answer)),
        (Format::Json, Err(_)) => {
            print::json(steps_to_json(&answer)).map(|_| ExitCode::from(REFUSED))
        }
        (Format::Text, Ok(steps)) => print::out(steps.to_text()),
        (Format::Text, Err(refusal)) => refuse(refusal, &plan.name, rules.name()),
    }
}
