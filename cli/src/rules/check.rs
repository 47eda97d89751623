//! `siting rules check`: everything that is wrong with a rule file.

use std::ffi::OsString;
use std::process::ExitCode;

use lexopt::prelude::*;
use rules_core::asked::unasked;
use rules_core::cases::unexercised;
use rules_core::ruleset::FORMAT;
use rules_core::text::Visible;
use rules_core::{Refusal, Refused, RulesRead};

use super::cases;
use crate::files::Source;
use crate::print;
use crate::usage::{self, Trouble, misread, refuse};

pub fn run(mut arguments: lexopt::Parser) -> Result<ExitCode, Trouble> {
    let mut rules = None;
    while let Some(argument) = arguments.next().map_err(misread)? {
        match argument {
            Short('h') | Long("help") => return print::out(super::HELP),
            Value(path) if rules.is_none() => rules = Some(path),
            other => return Err(usage::unexpected(other, &["help"])),
        }
    }
    let rules = rules.ok_or_else(|| super::which_rules("check"))?;
    let loaded = super::load(&rules)?;
    match loaded.read {
        Ok(read) => print::out(clean(read, &rules, &loaded.source)),
        Err(refusal) => refused(&refusal, &loaded.source.name),
    }
}

/// Prints the faults, and then what looks like a slip.
fn refused(refusal: &Refusal, name: &str) -> Result<ExitCode, Trouble> {
    let status = refuse(refusal, name, name)?;
    let slips = refusal.show_slips(name);
    if !slips.is_empty() {
        let lead = "\nBeside the faults, this looks like a slip:\n\n";
        print::complain(format!("{lead}{slips}").as_str());
    }
    Ok(status)
}

fn clean(mut read: RulesRead, rules: &OsString, source: &Source) -> Visible {
    let tried = cases::tried(rules, &read);
    if let Some(tried) = &tried {
        let untried = unexercised(&read.rule_set, tried);
        add_to_own(&mut read.warnings, source, untried.list);
    }
    let slips: usize = (read.warnings.iter())
        .map(|file| file.faults.sorted().len())
        .sum();
    let questions = unasked(&read.rule_set);
    let (name, count) = (&source.name, read.rule_set.rules.len());
    let shown = Refusal {
        plan: None,
        rules: read.warnings,
    };
    let mut said = Visible::from(shown.show(name, name).as_str());
    said.part();
    said.line(match slips {
        0 if count == 1 => format!("{name}: nothing is wrong with it (1 rule)."),
        0 => format!("{name}: nothing is wrong with it ({count} rules)."),
        1 => format!("{name}: no fault; one thing looks like a slip."),
        more => format!("{name}: no fault; {more} things look like slips."),
    });
    if read.rule_set.about.format.is_none() {
        said.line(format!("It does not say for which format it was written: add `format: {FORMAT}`, so that a later version of the program can say what has changed since."));
    }
    said.extend(questions);
    if tried.is_none() {
        said.line("There are no cases beside it that can be read, so that nothing shows whether its rules do what they should.");
    }
    said
}

/// Adds slips to those of the file being checked.
fn add_to_own(files: &mut Vec<Refused>, source: &Source, slips: Vec<rules_core::text::Fault>) {
    if slips.is_empty() {
        return;
    }
    if files.iter().all(|file| file.name.is_some()) {
        files.insert(0, Refused::new(None, &source.text, Default::default()));
    }
    let own = files.iter_mut().find(|file| file.name.is_none());
    own.into_iter()
        .for_each(|file| file.faults.list.extend(slips.clone()));
}
