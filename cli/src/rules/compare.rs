//! `siting rules compare`: what a new edition of a rule set changes, and what becomes of plans.

use std::ffi::OsString;
use std::fs;
use std::path::Path;
use std::process::ExitCode;

use lexopt::prelude::*;
use rules_core::compare::{Changes, PlanCompared, compare, compare_plan, summary, to_json};
use rules_core::ruleset::RuleSet;
use rules_core::text::{Visible, exact_name};
use rules_core::{Refusal, Refused};

use super::Loaded;
use crate::files;
use crate::print;
use crate::usage::{self, REFUSED, Trouble, misread, refuse};

/// More plans than this in a folder are a slip.
const MOST_PLANS: usize = 10_000;

pub fn run(mut arguments: lexopt::Parser) -> Result<ExitCode, Trouble> {
    let (mut paths, mut as_json) = (Vec::new(), false);
    while let Some(argument) = arguments.next().map_err(misread)? {
        match argument {
            Short('h') | Long("help") => return print::out(super::HELP),
            Short('f') | Long("format") => as_json = json(arguments.value().map_err(misread)?)?,
            Value(path) => paths.push(path),
            other => return Err(usage::unexpected(other, &["format", "help"])),
        }
    }
    let [old, new, plans @ ..] = &paths[..] else {
        let help = "Write the old one, then the new one: siting rules compare old.yaml new.yaml";
        return Err(Trouble::new("Which two rule sets?", help));
    };
    let (old, new) = (super::load(old)?, super::load(new)?);
    match (&old.read, &new.read) {
        (Ok(before), Ok(now)) => answer((&before.rule_set, &now.rule_set), plans, as_json),
        _ => Ok(refuse_both(&old, &new)),
    }
}

fn json(written: OsString) -> Result<bool, Trouble> {
    match written.to_string_lossy().as_ref() {
        "text" => Ok(false),
        "json" => Ok(true),
        other => Err(usage::unknown("format", other, &["text", "json"])),
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

fn answer(
    sets: (&RuleSet, &RuleSet),
    plans: &[OsString],
    as_json: bool,
) -> Result<ExitCode, Trouble> {
    let changes = compare(sets.0, sets.1);
    let files = in_folders(plans)?;
    let (compared, status) = judged(sets, &changes, &files)?;
    match as_json {
        true => print::json(to_json(&changes, &compared))?,
        false => print::out(text(&changes, &compared))?,
    };
    Ok(status)
}

/// The plans under the two rule sets; of those that cannot be read, what is wrong is said at once.
fn judged(
    sets: (&RuleSet, &RuleSet),
    changes: &Changes,
    files: &[OsString],
) -> Result<(Vec<(String, PlanCompared)>, ExitCode), Trouble> {
    let (mut compared, mut status) = (Vec::new(), ExitCode::SUCCESS);
    for path in files {
        let plan = files::read(path)?;
        let judged = match &plan.refused {
            Some(refused) => Err(refused.faults.clone()),
            None => compare_plan(&plan.text, sets, changes),
        };
        match judged {
            Ok(judged) => compared.push((plan.name, judged)),
            Err(faults) => {
                let refusal = Refusal {
                    plan: Some(Refused::new(None, &plan.text, faults)),
                    rules: Vec::new(),
                };
                status = refuse(&refusal, &plan.name, &plan.name)?;
            }
        }
    }
    Ok((compared, status))
}

/// What became of all plans first, then what the rule sets say, then each plan.
fn text(changes: &Changes, compared: &[(String, PlanCompared)]) -> Visible {
    let mut text = Visible::new();
    if !compared.is_empty() {
        text.add(&summary(compared));
        text.part();
    }
    text.add(&changes.to_text());
    for (file, plan) in compared {
        text.part();
        text.add(&plan.to_text(file));
    }
    text
}

/// The files named, and those in the folders named: all plans in it, in the order of their names.
fn in_folders(paths: &[OsString]) -> Result<Vec<OsString>, Trouble> {
    let mut all = Vec::new();
    for path in paths {
        match Path::new(path).is_dir() {
            true => all.extend(plans_in(Path::new(path))?),
            false => all.push(path.clone()),
        }
    }
    Ok(all)
}

fn plans_in(folder: &Path) -> Result<Vec<OsString>, Trouble> {
    let name = exact_name(&folder.to_string_lossy()).into_owned();
    let wrong = |error: std::io::Error| {
        Trouble::new(
            format!("The folder `{name}` cannot be read: {error}."),
            "Name the plans in it one by one.",
        )
    };
    let entries: Result<Vec<_>, _> = fs::read_dir(folder).map_err(wrong)?.collect();
    let paths = entries
        .map_err(wrong)?
        .into_iter()
        .map(|entry| entry.path());
    let is_plan = |path: &std::path::PathBuf| {
        let ending = path.extension().and_then(|ending| ending.to_str());
        path.is_file() && matches!(ending, Some("yaml" | "yml"))
    };
    let mut plans: Vec<OsString> = paths.filter(is_plan).map(Into::into).collect();
    plans.sort();
    match plans.len() {
        0 => Err(Trouble::new(
            format!("`{name}` is a folder, not a file."),
            "A folder stands for the plans in it, whose names end in .yaml; this one has none.",
        )),
        1..=MOST_PLANS => Ok(plans),
        _ => Err(Trouble::new(
            format!("There are more than {MOST_PLANS} files in the folder `{name}`."),
            "Name a folder that holds plans only.",
        )),
    }
}
