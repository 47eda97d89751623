//! `siting rules check`: everything that is wrong with a rule file.

use std::process::ExitCode;

use lexopt::prelude::*;
use rules_core::{Refusal, RulesRead};

use crate::print;
use crate::usage::{self, Trouble, misread};

pub fn run(mut arguments: lexopt::Parser) -> Result<ExitCode, Trouble> {
    let mut rules = None;
    while let Some(argument) = arguments.next().map_err(misread)? {
        match argument {
            Short('h') | Long("help") => return print::out(super::HELP),
            Value(path) if rules.is_none() => rules = Some(path),
            other => return Err(usage::unexpected(other, &["help"])),
        }
    }
    let loaded = super::load(&rules.ok_or_else(|| super::which_rules("check"))?)?;
    match loaded.read {
        Ok(read) => print::out(&clean(read, &loaded.source.name)),
        Err(refusal) => super::refuse(&refusal, &loaded.source.name),
    }
}

fn clean(read: RulesRead, name: &str) -> String {
    let slips: usize = (read.warnings.iter())
        .map(|file| file.faults.sorted().len())
        .sum();
    let rules = read.rule_set.rules.len();
    let shown = Refusal {
        plan: None,
        rules: read.warnings,
    };
    let shown = shown.show(name, name);
    match slips {
        0 => format!("{name}: nothing is wrong with it ({rules} rules).\n"),
        1 => format!("{shown}\n{name}: no fault; one thing looks like a slip.\n"),
        more => format!("{shown}\n{name}: no fault; {more} things look like slips.\n"),
    }
}
