//! `siting draw`: a plan as a drawing.

use std::ffi::OsString;
use std::fs;
use std::path::PathBuf;
use std::process::ExitCode;

use lexopt::prelude::*;
use rules_core::Refusal;
use rules_core::RulesText;
use rules_core::picture::picture;
use rules_core::text::exact_name;

use crate::files::{self, RuleSets, Source};
use crate::print;
use crate::usage::{self, Trouble, misread, refuse};

pub const HELP: &str = "\
A plan as a drawing to scale, in SVG, with what was found about it.

Usage: siting draw PLAN [--rules RULESET] [--out FILE]

  PLAN       The plan's file (YAML or JSON); `-` reads it from standard input
  RULESET    A rule file, or the name of a rule set that comes with the program

Options:
  -r, --rules RULESET    The rules to check it by: the distances of those that fail
                         or are too close to call are drawn, and what was found
                         stands below; without it only the plan is drawn
  -o, --out FILE         Where the drawing is written (standard output if not said)
  -h, --help             Show this help

`siting place PLAN --rules RULESET --format svg` draws where the pool could go.

Exit status:
  0  the plan is drawn, whatever was found
  3  a file has faults; all of them are shown
  4  anything else: no such file, a slip on the command line
";

/// Reads the rest of the command line and draws.
pub fn run(mut arguments: lexopt::Parser) -> Result<ExitCode, Trouble> {
    let (mut plan, mut rules, mut out) = (None, Vec::new(), None);
    while let Some(argument) = arguments.next().map_err(misread)? {
        match argument {
            Short('h') | Long("help") => return print::out(HELP),
            Short('r') | Long("rules") => rules.push(arguments.value().map_err(misread)?),
            Short('o') | Long("out") => out = Some(arguments.value().map_err(misread)?),
            Value(path) if plan.is_none() => plan = Some(path),
            other => return Err(usage::unexpected(other, &["rules", "out", "help"])),
        }
    }
    let Some(plan) = plan else {
        return Err(Trouble::new(
            "Which plan?",
            "Write its file: siting draw my-plan.yaml --rules eldermere",
        ));
    };
    if rules.len() > 1 {
        return Err(Trouble::new(
            "A plan is drawn with one rule set at a time.",
            "Name one with `--rules`.",
        ));
    }
    if plan == "-" && rules.iter().any(|path| path == "-") {
        return Err(Trouble::new(
            "The plan and the rules cannot both come from standard input.",
            "Give the path of one of them.",
        ));
    }
    answer(&plan, &rules, out)
}

fn answer(plan: &OsString, rules: &[OsString], out: Option<OsString>) -> Result<ExitCode, Trouble> {
    let rules = RuleSets::of(rules)?;
    let plan = files::read(plan)?;
    match drawn(&plan, &rules) {
        Err(refusal) => refuse(&refusal, &plan.name, rules.name()),
        Ok(svg) => match out {
            None => print::out(svg.as_str()),
            Some(file) => write(&svg, &PathBuf::from(file)),
        },
    }
}

fn drawn(plan: &Source, rules: &RuleSets) -> Result<String, Refusal> {
    let rules_of = |set: &RulesText<'_>| picture(&plan.text, Some((set.text, set.bases)));
    rules.ask(plan, |sets| match sets.first() {
        Some(set) => rules_of(set),
        None => picture(&plan.text, None),
    })
}

fn write(svg: &str, file: &PathBuf) -> Result<ExitCode, Trouble> {
    let name = file.display().to_string();
    let name = exact_name(&name);
    fs::write(file, svg).map_err(|error| {
        Trouble::new(
            format!("`{name}` cannot be written: {error}."),
            "Name another place: --out FILE",
        )
    })?;
    print::out(format!("{name}: the drawing.").as_str())
}
