//! `siting rules compare`: what a new edition of a rule set changes.

use std::ffi::OsString;
use std::process::ExitCode;

use lexopt::prelude::*;
use rules_core::compare::{compare, compare_plan};
use rules_core::ruleset::RuleSet;
use rules_core::{Refusal, Refused};

use super::Loaded;
use crate::check::{REFUSED, refuse};
use crate::files;
use crate::print;
use crate::usage::{self, Trouble, misread};

pub fn run(mut arguments: lexopt::Parser) -> Result<ExitCode, Trouble> {
    let mut paths = Vec::new();
    while let Some(argument) = arguments.next().map_err(misread)? {
        match argument {
            Short('h') | Long("help") => return print::out(super::HELP),
            Value(path) => paths.push(path),
            other => return Err(usage::unexpected(other, &["help"])),
        }
    }
    let [old, new, plans @ ..] = &paths[..] else {
        return Err(Trouble::new(
            "Which two rule sets?",
            "Write the old one, then the new one: siting rules compare old.yaml new.yaml",
        ));
    };
    let (old, new) = (super::load(old)?, super::load(new)?);
    match (&old.read, &new.read) {
        (Ok(before), Ok(now)) => answer(&before.rule_set, &now.rule_set, plans),
        _ => Ok(refuse_both(&old, &new)),
    }
}

fn refuse_both(old: &Loaded, new: &Loaded) -> ExitCode {
    let refused = [old, new].into_iter().filter_map(|loaded| {
        let refusal = loaded.read.as_ref().err()?;
        Some(refusal.show(&loaded.source.name, &loaded.source.name))
    });
    print::complain(refused.collect::<Vec<_>>().join("\n").as_str());
    ExitCode::from(REFUSED)
}

fn answer(old: &RuleSet, new: &RuleSet, plans: &[OsString]) -> Result<ExitCode, Trouble> {
    print::out(compare(old, new).to_text())?;
    let mut status = ExitCode::SUCCESS;
    for path in plans {
        let plan = files::read(path)?;
        let compared = match &plan.refused {
            Some(refused) => Err(refused.faults.clone()),
            None => compare_plan(&plan.text, old, new),
        };
        match compared {
            Ok(compared) => {
                print::out("\n")?;
                print::out(compared.to_text(&plan.name))?
            }
            Err(faults) => {
                let plan_refused = Some(Refused::new(None, &plan.text, faults));
                let refusal = Refusal {
                    plan: plan_refused,
                    rules: Vec::new(),
                };
                status = refuse(&refusal, &plan.name, &plan.name)?;
                continue;
            }
        };
    }
    Ok(status)
}
