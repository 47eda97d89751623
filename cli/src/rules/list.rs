//! `siting rules list`: the rule sets that come with the program.

use std::process::ExitCode;

use lexopt::prelude::*;
use rules_core::read_rules;
use rules_core::ruleset::RuleSet;
use rules_core::text::Visible;

use crate::bundled;
use crate::print;
use crate::usage::{self, Trouble, misread};

pub fn run(mut arguments: lexopt::Parser) -> Result<ExitCode, Trouble> {
    match arguments.next().map_err(misread)? {
        None => print::out(listed()),
        Some(Short('h') | Long("help")) => print::out(super::HELP),
        Some(other) => Err(usage::unexpected(other, &["help"])),
    }
}

fn listed() -> Visible {
    let read = bundled::all()
        .iter()
        .filter_map(|set| read_rules(set.rules, &bundled::rules).ok());
    let mut list = Visible::new();
    list.extend(read.flat_map(|read| row(&read.rule_set)));
    list.gap();
    list.line("siting rules read NAME says what one of them asks for.");
    list
}

fn row(rules: &RuleSet) -> [String; 3] {
    let own = rules.rules.iter().filter(|rule| rule.layer == 0).count();
    let from_others = match rules.rules.len() - own {
        0 => String::new(),
        more => {
            let below: Vec<&str> = rules.layers.iter().skip(1).map(|l| l.id.as_str()).collect();
            format!(", and {more} of {}", below.join(", "))
        }
    };
    [
        rules.id.clone(),
        format!("    {}, edition {}", rules.title, rules.edition),
        format!("    {}; {}{from_others}", rules.authority, counted(own)),
    ]
}

fn counted(rules: usize) -> String {
    match rules {
        1 => "1 rule".to_owned(),
        _ => format!("{rules} rules"),
    }
}
