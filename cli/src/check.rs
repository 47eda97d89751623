//! `siting check`: one plan against one rule set, or several together.

use std::process::ExitCode;

use lexopt::prelude::*;
use rules_core::check::Verdict;
use rules_core::report::{Report, text};
use rules_core::{Refusal, judge_texts, judge_together_in, to_json};

use crate::arguments::{Format, colour, format, language, plan_by};
use crate::bundled;
use crate::files::{self, RuleSets, Source};
use crate::print::{self, Colour};
use crate::usage::{self, REFUSED, Trouble, misread, refuse};

pub const HELP: &str = "\
Checks a plan against a rule set, or against several together.

Usage: siting check PLAN --rules RULESET [--rules RULESET]... [OPTIONS]

  PLAN       The plan's file (YAML or JSON); `-` reads it from standard input
  RULESET    A rule file, or the name of a rule set that comes with the program

Options:
  -r, --rules RULESET    The rules to check against; once for each rule set, and
                         one report says what all of them together come to
  -f, --format FORMAT    text: for reading (if not said); json: for a program
  -l, --language NAME    en (if not said), nb or fr: the language of the report's own
                         words, and of what the rules have in it
      --colour WHEN      auto (if not said), always, or never
  -h, --help             Show this help

Exit status:
  0  nothing in the rules stands against the plan
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

struct Wishes {
    format: Format,
    colour: Colour,
    language: Option<String>,
}

/// Reads the rest of the command line and checks.
pub fn run(mut arguments: lexopt::Parser) -> Result<ExitCode, Trouble> {
    let (mut plan, mut rules) = (None, Vec::new());
    let mut wishes = Wishes {
        format: Format::Text,
        colour: Colour::Auto,
        language: None,
    };
    while let Some(argument) = arguments.next().map_err(misread)? {
        match argument {
            Short('h') | Long("help") => return print::out(HELP),
            Short('r') | Long("rules") => rules.push(arguments.value().map_err(misread)?),
            Short('f') | Long("format") => {
                wishes.format = format(arguments.value().map_err(misread)?)?
            }
            Long("colour" | "color") => {
                wishes.colour = colour(arguments.value().map_err(misread)?)?
            }
            Short('l') | Long("language") => {
                wishes.language = Some(language(arguments.value().map_err(misread)?)?);
            }
            Value(path) if plan.is_none() => plan = Some(path),
            other => {
                return Err(usage::unexpected(
                    other,
                    &["rules", "format", "colour", "language", "help"],
                ));
            }
        }
    }
    let plan = plan_by(&rules, "check", plan)?;
    let all = RuleSets::of(&rules)?;
    answer(&files::read(&plan)?, &all, &wishes)
}

/// Checks the bundled example, and says how to go on. The status is 0 whatever the verdict.
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

fn answer(plan: &Source, rules: &RuleSets, wishes: &Wishes) -> Result<ExitCode, Trouble> {
    let language = wishes.language.as_deref();
    let answer = rules.ask(plan, |sets| judge_together_in(language, &plan.text, sets));
    match (&wishes.format, &answer) {
        (Format::Json, _) => print::json(to_json(&answer))?,
        (Format::Text, Ok(report)) => print::out(text::render(report, style(wishes.colour)))?,
        (Format::Text, Err(refusal)) => return refuse(refusal, &plan.name, rules.name()),
    };
    Ok(status(&answer))
}

fn style(colour: Colour) -> text::Style {
    text::Style {
        colour: colour.is_wanted(),
        ..text::Style::default()
    }
}

fn status(answer: &Result<Report, Refusal>) -> ExitCode {
    let verdict = answer.as_ref().map(|report| report.verdict.word);
    ExitCode::from(match verdict {
        Ok(Verdict::NothingAgainst) => 0,
        Ok(Verdict::DoesNotComply) => 1,
        Ok(Verdict::NotDecided | Verdict::NothingInTheseRules) => 2,
        Err(_) => REFUSED,
    })
}
