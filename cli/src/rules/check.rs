//! `siting rules check`: everything that is wrong with a rule file.

use std::ffi::OsString;
use std::path::Path;
use std::process::ExitCode;

use lexopt::prelude::*;
use rules_core::asked::unasked;
use rules_core::cases::{Tried, unexercised};
use rules_core::ruleset::{FORMAT, RuleSet};
use rules_core::text::{Visible, closest};
use rules_core::{Refusal, Refused, RulesRead};

use super::cases;
use crate::bundled;
use crate::files::Source;
use crate::print;
use crate::usage::{self, REFUSED, Trouble, misread, refuse};

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
        Ok(read) => sound(read, &rules, &loaded.source),
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

/// Prints what is asked of rules without a fault; what is wrong with their cases comes first.
fn sound(read: RulesRead, rules: &OsString, source: &Source) -> Result<ExitCode, Trouble> {
    let tried = cases::tried(rules, &read, source);
    let amiss = tried.as_ref().and_then(|tried| tried.as_ref().err());
    if let Some(amiss) = amiss {
        print::complain(format!("{amiss}\n").as_str());
    }
    let status = if amiss.is_some() { REFUSED } else { 0 };
    let companions = unknown_companions(&read.rule_set, rules);
    print::out(clean(read, tried, companions, source)).map(|_| ExitCode::from(status))
}

/// The cases, tried, or what is wrong with them; `None` if there are none.
type OfCases = Option<Result<Vec<Tried>, String>>;

fn clean(mut read: RulesRead, tried: OfCases, companions: Vec<String>, source: &Source) -> Visible {
    if let Some(Ok(tried)) = &tried {
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
        0 if matches!(tried, Some(Err(_))) => {
            format!("{name}: nothing is wrong with its rules, but its cases cannot be tried.")
        }
        0 if count == 1 => format!("{name}: nothing is wrong with it (1 rule)."),
        0 => format!("{name}: nothing is wrong with it ({count} rules)."),
        1 => format!("{name}: no fault; one thing looks like a slip."),
        more => format!("{name}: no fault; {more} things look like slips."),
    });
    if read.rule_set.about.format.is_none() {
        said.line(format!("It does not say for which format it was written: add `format: {FORMAT}`, so that a later version of the program can say what has changed since."));
    }
    said.extend(questions);
    said.extend(companions);
    if tried.is_none() {
        said.line("There are no cases beside it that can be read, so that nothing shows whether its rules do what they should.");
    }
    said
}

/// Asks about rule sets under `belongs-with` that neither come with the program nor lie beside the file.
fn unknown_companions(rules: &RuleSet, path: &OsString) -> Vec<String> {
    let beside = |id: &str| Path::new(path).with_file_name(format!("{id}.yaml"));
    let unknown = rules.about.belongs_with.iter();
    let unknown = unknown.filter(|id| bundled::rules(id).is_none() && !beside(id).exists());
    let asked = unknown.map(|id| {
        let meant = bundled_like(id).map(|meant| format!(" Is `{meant}` meant?"));
        let or = " See with `siting rules list` what there is.";
        format!(
            "`belongs-with` names `{id}`, and no rule set of that name comes with the program.{}",
            meant.as_deref().unwrap_or(or)
        )
    });
    asked.collect()
}

/// The bundled rule set whose name is near to this one, in its letters or in how it begins.
fn bundled_like(id: &str) -> Option<&'static str> {
    const BEGINNING: usize = 5;
    let names = || bundled::all().iter().map(|set| set.name);
    let beginning = id.get(..BEGINNING);
    let begins = |name: &&str| beginning.is_some() && name.get(..BEGINNING) == beginning;
    closest(id, names()).or_else(|| names().find(begins))
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
