//! `siting rules try`: whether the cases of a rule set come out as expected.

use std::ffi::OsString;
use std::process::ExitCode;

use lexopt::prelude::*;
use rules_core::cases::{Tried, shown, tried_to_text, try_node};
use rules_core::edges::{edges, edges_to_text, made_to_text};
use rules_core::ruleset::RuleSet;
use rules_core::text::{self, Faults, Node, Visible, exact_name};
use rules_core::{Refused, RulesRead};

use super::Loaded;
use crate::files::{self, Source};
use crate::print;
use crate::usage::{self, REFUSED, Trouble, misread, refuse};

/// The exit status when a case does not come out as expected.
const UNEXPECTED: u8 = 1;

/// What is to be done with the cases.
#[derive(Clone, Copy, PartialEq)]
enum Task {
    /// Say whether they come out as expected.
    Try,
    /// Say it, and try each limit at its edges.
    TryEdges,
    /// Write out a case on each side of each limit.
    Make,
}

/// `siting rules try`.
pub fn run(arguments: lexopt::Parser) -> Result<ExitCode, Trouble> {
    with(arguments, Task::Try, "try")
}

/// `siting rules cases`.
pub fn make(arguments: lexopt::Parser) -> Result<ExitCode, Trouble> {
    with(arguments, Task::Make, "cases")
}

fn with(mut arguments: lexopt::Parser, mut task: Task, command: &str) -> Result<ExitCode, Trouble> {
    let (mut rules, mut cases) = (None, None);
    while let Some(argument) = arguments.next().map_err(misread)? {
        match argument {
            Short('h') | Long("help") => return print::out(super::HELP),
            Long("cases") => cases = Some(arguments.value().map_err(misread)?),
            Long("edges") if task != Task::Make => task = Task::TryEdges,
            Value(path) if rules.is_none() => rules = Some(path),
            other => return Err(usage::unexpected(other, &["cases", "edges", "help"])),
        }
    }
    let rules = rules.ok_or_else(|| super::which_rules(command))?;
    let loaded = super::load(&rules)?;
    let read = match &loaded.read {
        Ok(read) => read,
        Err(refusal) => return refuse(refusal, &loaded.source.name, &loaded.source.name),
    };
    let file = file(&rules, cases, &loaded)?;
    match node(&file, read.cases.as_ref()).and_then(|node| answer(&read.rule_set, &node, task)) {
        Ok((text, status)) => print::out(text).map(|_| ExitCode::from(status)),
        Err(faults) => {
            let file = file.as_ref().unwrap_or(&loaded.source);
            print::complain(faults.show(&file.name, &file.text).as_str());
            Ok(ExitCode::from(REFUSED))
        }
    }
}

/// The cases of a rule file, its own or those beside it, tried; or what is wrong with them, as it is shown. `None` if it has
/// none.
pub(super) fn tried(
    rules: &OsString,
    read: &RulesRead,
    own: &Source,
) -> Option<Result<Vec<Tried>, String>> {
    let beside = match read.cases {
        Some(_) => None,
        None => Some(files::cases(rules).ok()??),
    };
    let tried = node(&beside, read.cases.as_ref()).and_then(|node| try_node(&read.rule_set, &node));
    let file = beside.as_ref().unwrap_or(own);
    Some(tried.map_err(|faults| faults.show(&file.name, &file.text)))
}

/// The file of cases: the one named, else none if the rule file has its own cases, else the one beside it.
fn file(
    rules: &OsString,
    asked: Option<OsString>,
    loaded: &Loaded,
) -> Result<Option<Source>, Trouble> {
    let own = loaded.read.as_ref().is_ok_and(|read| read.cases.is_some());
    match asked {
        Some(path) => files::read(&path).map(Some),
        None if own => Ok(None),
        None => files::cases(rules)?.map(Some).ok_or_else(|| {
            Trouble::new(
                format!("`{}` has no cases.", exact_name(&rules.to_string_lossy())),
                "Write them under `cases` in the rule file or in cases.yaml beside it, or name a file: --cases FILE",
            )
        }),
    }
}

fn node(file: &Option<Source>, own: Option<&Node>) -> Result<Node, Faults> {
    match file {
        Some(Source {
            refused: Some(Refused { faults, .. }),
            ..
        }) => Err(faults.clone()),
        Some(file) => text::read(&file.text),
        None => own.cloned().map_or_else(|| text::read("cases: []"), Ok),
    }
}

fn answer(rules: &RuleSet, cases: &Node, task: Task) -> Result<(Visible, u8), Faults> {
    if task == Task::Make {
        return Ok((made_to_text(rules, cases)?, 0));
    }
    let tried = try_node(rules, cases)?;
    let mut text = tried_to_text(&tried, &shown(rules, &tried));
    if task == Task::TryEdges {
        text.part();
        text.add(&edges_to_text(&edges(rules, cases)?));
    }
    let good = tried.iter().all(|case| case.wrong.is_empty());
    Ok((text, if good { 0 } else { UNEXPECTED }))
}
