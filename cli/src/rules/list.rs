//! `siting rules list`: the rule sets that come with the program.

use std::process::ExitCode;

use lexopt::prelude::*;
use rules_core::read_rules;
use rules_core::ruleset::RuleSet;
use rules_core::shelf::{Shelf, listed};

use super::day_asked;
use crate::bundled;
use crate::print;
use crate::usage::{self, Trouble, misread};

const MORE: &str = "
siting rules list WORD      only those with a word: a country, a place, a matter
siting rules read NAME      what one of them asks for
siting rules sources NAME   what its values rest on
";

pub fn run(mut arguments: lexopt::Parser) -> Result<ExitCode, Trouble> {
    let mut wanted = Shelf::default();
    while let Some(argument) = arguments.next().map_err(misread)? {
        match argument {
            Short('h') | Long("help") => return print::out(super::HELP),
            Long("on") => wanted.on = Some(day_asked(arguments.value().map_err(misread)?)?),
            Value(word) => wanted.words.push(word.to_string_lossy().into_owned()),
            other => return Err(usage::unexpected(other, &["on", "help"])),
        }
    }
    let list = listed(&bundled_sets(), &wanted);
    if list.is_empty() {
        return Err(Trouble::new(
            format!("No rule set has “{}” in it.", wanted.words.join(" ")),
            "siting rules list shows them all.",
        ));
    }
    print::out(list)?;
    print::out(MORE)
}

fn bundled_sets() -> Vec<RuleSet> {
    let sets = bundled::all().iter();
    let read = sets.filter_map(|set| read_rules(set.rules, &bundled::rules).ok());
    read.map(|read| read.rule_set).collect()
}
