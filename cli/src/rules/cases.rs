//! `siting rules try`: whether the cases of a rule set come out as expected.

use std::ffi::OsString;
use std::process::ExitCode;

use lexopt::prelude::*;
use rules_core::cases::{Tried, edges, edges_to_text, shown, tried_to_text, try_node};
use rules_core::ruleset::RuleSet;
use rules_core::text::{self, Faults, Node, Visible, exact_name};
use rules_core::{Refused, RulesRead};

use super::Loaded;
use crate::check::REFUSED;
use crate::files::{self, Source};
use crate::print;
use crate::usage::{self, Trouble, misread};

/// The exit status when a case does not come out as expected.
const UNEXPECTED: u8 = 1;

pub fn run(mut arguments: lexopt::Parser) -> Result<ExitCode, Trouble> {
    let (mut rules, mut cases, mut with_edges) = (None, None, false);
    while let Some(argument) = arguments.next().map_err(misread)? {
        match argument {
            Short('h') | Long("help") => return print::out(super::HELP),
            Long("cases") => cases = Some(arguments.value().map_err(misread)?),
            Long("edges") => with_edges = true,
            Value(path) if rules.is_none() => rules = Some(path),
            other => return Err(usage::unexpected(other, &["cases", "edges", "help"])),
        }
    }
    let rules = rules.ok_or_else(|| super::which_rules("try"))?;
    let loaded = super::load(&rules)?;
    let read = match &loaded.read {
        Ok(read) => read,
        Err(refusal) => return super::refuse(refusal, &loaded.source.name),
    };
    let file = file(&rules, cases, &loaded)?;
    match node(&file, read.cases.as_ref())
        .and_then(|node| answer(&read.rule_set, &node, with_edges))
    {
        Ok((text, status)) => print::out(text).map(|_| ExitCode::from(status)),
        Err(faults) => {
            let file = file.as_ref().unwrap_or(&loaded.source);
            print::complain(faults.show(&file.name, &file.text).as_str());
            Ok(ExitCode::from(REFUSED))
        }
    }
}

/// The cases of a rule file, its own or those beside it; `None` if it has none that can be read.
pub(super) fn tried(rules: &OsString, read: &RulesRead) -> Option<Vec<Tried>> {
    let beside = match read.cases {
        Some(_) => None,
        None => Some(files::cases(rules).ok()??),
    };
    let node = node(&beside, read.cases.as_ref()).ok()?;
    try_node(&read.rule_set, &node).ok()
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

fn answer(rules: &RuleSet, cases: &Node, with_edges: bool) -> Result<(Visible, u8), Faults> {
    let tried = try_node(rules, cases)?;
    let mut text = tried_to_text(&tried, &shown(rules, &tried));
    if with_edges {
        text.part();
        text.add(&edges_to_text(&edges(rules, cases)?));
    }
    let good = tried.iter().all(|case| case.wrong.is_empty());
    Ok((text, if good { 0 } else { UNEXPECTED }))
}
