//! `siting rules sources`: what the values of a rule set rest on.

use std::process::ExitCode;

use lexopt::prelude::*;
use rules_core::shelf::sources_listed;

use super::day_asked;
use crate::print;
use crate::usage::{self, Trouble, misread, refuse};

pub fn run(mut arguments: lexopt::Parser) -> Result<ExitCode, Trouble> {
    let (mut rules, mut on) = (None, None);
    while let Some(argument) = arguments.next().map_err(misread)? {
        match argument {
            Short('h') | Long("help") => return print::out(super::HELP),
            Long("on") => on = Some(day_asked(arguments.value().map_err(misread)?)?),
            Value(path) if rules.is_none() => rules = Some(path),
            other => return Err(usage::unexpected(other, &["on", "help"])),
        }
    }
    let loaded = super::load(&rules.ok_or_else(|| super::which_rules("sources"))?)?;
    match &loaded.read {
        Ok(read) => print::out(sources_listed(&read.rule_set, on)),
        Err(refusal) => refuse(refusal, &loaded.source.name, &loaded.source.name),
    }
}
