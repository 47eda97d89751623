//! `siting check`: one plan against one rule set.

use std::ffi::OsString;
use std::process::ExitCode;

use lexopt::prelude::*;
use rules_core::check::Verdict;
use rules_core::report::{Report, text};
use rules_core::{Refusal, judge_texts, to_json};

use crate::bundled;
use crate::files::{self, Bases, Source};
use crate::print::{self, Colour};
use crate::usage::{self, Trouble, misread};

pub const HELP: &str = "\
Checks a plan against a rule set.

Usage: siting check PLAN --rules RULESET [OPTIONS]

  PLAN       The plan's file (YAML or JSON); `-` reads it from standard input
  RULESET    A rule file, or the name of a rule set that comes with the program

Options:
  -r, --rules RULESET    The rules to check against
  -f, --format FORMAT    text: for reading (if not said); json: for a program
      --colour WHEN      auto (if not said), always, or never
  -h, --help             Show this help

Exit status:
  0  nothing in the rule set stands against the plan
  1  something fails
  2  not decided yet: an answer is missing, it is too close, or the authority decides
  3  a file has faults; all of them are shown
  4  anything else: no such file, a slip on the command line
";

const AFTER_THE_EXAMPLE: &str = "
That was the example that comes with siting. To check a plan of your own:

  siting check my-plan.yaml --rules eldermere
  siting help check
";

pub enum Format {
    Text,
    Json,
}

struct Wishes {
    format: Format,
    colour: Colour,
}

/// Reads the rest of the command line and checks.
pub fn run(mut arguments: lexopt::Parser) -> Result<ExitCode, Trouble> {
    let (mut plan, mut rules) = (None, None);
    let mut wishes = Wishes {
        format: Format::Text,
        colour: Colour::Auto,
    };
    while let Some(argument) = arguments.next().map_err(misread)? {
        match argument {
            Short('h') | Long("help") => return print::out(HELP),
            Short('r') | Long("rules") => rules = Some(arguments.value().map_err(misread)?),
            Short('f') | Long("format") => {
                wishes.format = format(arguments.value().map_err(misread)?)?
            }
            Long("colour" | "color") => {
                wishes.colour = colour(arguments.value().map_err(misread)?)?
            }
            Value(path) if plan.is_none() => plan = Some(path),
            other => {
                return Err(usage::unexpected(
                    other,
                    &["rules", "format", "colour", "help"],
                ));
            }
        }
    }
    let (plan, rules) = both("check", plan, rules)?;
    let (rules, bases) = files::rules(&rules)?;
    answer(&files::read(&plan)?, &rules, &bases, &wishes)
}

/// The two files that a plan is looked at by.
pub fn both(
    command: &str,
    plan: Option<OsString>,
    rules: Option<OsString>,
) -> Result<(OsString, OsString), Trouble> {
    match (plan, rules) {
        (Some(plan), Some(rules)) if plan == "-" && rules == "-" => Err(Trouble::new(
            "Plan and rules cannot both come from standard input.",
            "Give the path of one of them.",
        )),
        (Some(plan), Some(rules)) => Ok((plan, rules)),
        (None, _) => Err(Trouble::new(
            "Which plan?",
            format!("Write its file: siting {command} my-plan.yaml --rules eldermere"),
        )),
        (Some(_), None) => Err(Trouble::new(
            "By which rules?",
            format!(
                "Add `--rules` and a rule file, or one that comes along: {}.",
                bundled::names()
            ),
        )),
    }
}

pub fn format(written: OsString) -> Result<Format, Trouble> {
    match written.to_string_lossy().as_ref() {
        "text" => Ok(Format::Text),
        "json" => Ok(Format::Json),
        other => Err(usage::unknown("format", other, &["text", "json"])),
    }
}

fn colour(written: OsString) -> Result<Colour, Trouble> {
    match written.to_string_lossy().as_ref() {
        "auto" => Ok(Colour::Auto),
        "always" => Ok(Colour::Always),
        "never" => Ok(Colour::Never),
        other => Err(usage::unknown(
            "way to colour",
            other,
            &["auto", "always", "never"],
        )),
    }
}

/// Checks the example that comes with the program, and says how to go on. The example was shown, whatever was found.
pub fn demo() -> Result<ExitCode, Trouble> {
    let answer = judge_texts(bundled::DEMO_PLAN, bundled::DEMO_RULES, &bundled::rules);
    let style = style(Colour::Auto);
    match &answer {
        Ok(report) => {
            print::out(text::render(report, style))?;
            print::out(AFTER_THE_EXAMPLE)
        }
        Err(refusal) => refuse(refusal, "the example's plan", "the example's rules"),
    }
}

fn answer(
    plan: &Source,
    rules: &Source,
    bases: &Bases,
    wishes: &Wishes,
) -> Result<ExitCode, Trouble> {
    let answer = files::unread(plan, rules)
        .and_then(|()| judge_texts(&plan.text, &rules.text, &|name| bases.find(name)));
    match (&wishes.format, &answer) {
        (Format::Json, _) => print::json(to_json(&answer))?,
        (Format::Text, Ok(report)) => print::out(text::render(report, style(wishes.colour)))?,
        (Format::Text, Err(refusal)) => return refuse(refusal, &plan.name, &rules.name),
    };
    Ok(status(&answer))
}

pub fn refuse(refusal: &Refusal, plan: &str, rules: &str) -> Result<ExitCode, Trouble> {
    print::complain(refusal.show(plan, rules).as_str());
    Ok(ExitCode::from(REFUSED))
}

fn style(colour: Colour) -> text::Style {
    text::Style {
        colour: colour.is_wanted(),
        ..text::Style::default()
    }
}

pub const REFUSED: u8 = 3;

fn status(answer: &Result<Report, Refusal>) -> ExitCode {
    let verdict = answer.as_ref().map(|report| report.verdict.word);
    ExitCode::from(match verdict {
        Ok(Verdict::NothingAgainst) => 0,
        Ok(Verdict::DoesNotComply) => 1,
        Ok(Verdict::NotDecided | Verdict::NothingInTheseRules) => 2,
        Err(_) => REFUSED,
    })
}
