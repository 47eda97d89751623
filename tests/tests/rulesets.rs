//! Every rule set in `rulesets/` reads clean, and its cases come out as they say and show each of its rules.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::PathBuf;

use outside_checks::cases::{Shown, Tried, shown, try_cases};
use outside_checks::pages::{of_rule_sets, root};
use rules_core::ruleset::RuleSet;
use rules_core::{RulesRead, read_rules};

fn folder() -> PathBuf {
    root().join("rulesets")
}

/// The rule files, by the names of their folders.
fn rule_files() -> BTreeMap<String, String> {
    of_rule_sets("rules.yaml").expect("the folder of rule sets")
}

fn checked(name: &str, files: &BTreeMap<String, String>) -> Result<RulesRead, String> {
    let bases = |base: &str| files.get(base).map(String::as_str);
    read_rules(&files[name], &bases).map_err(|bad| bad.show("", name))
}

#[test]
fn every_rule_set_reads_clean() {
    let files = rule_files();
    let mut wrong = String::new();
    for name in files.keys() {
        match checked(name, &files) {
            Ok(checked) => {
                for file in &checked.warnings {
                    let name = file.name.as_deref().unwrap_or(name);
                    wrong += &file.faults.show(name, &file.text);
                }
                if &checked.rule_set.id != name || checked.rule_set.notice.is_none() {
                    wrong += &format!(
                        "{name}: the folder's name must be the rule set's, and it needs a notice.\n"
                    );
                }
            }
            Err(faults) => wrong += &faults,
        }
    }
    assert!(files.len() > 10 && wrong.is_empty(), "\n{wrong}");
}

/// What a rule is not shown coming to, of passing, failing and being open.
fn lacking(rules: &RuleSet, tried: &[Tried]) -> Vec<String> {
    let lacking = |one: &Shown| {
        let words = one.lacking();
        let of_rule = words.into_iter().map(|word| format!("{} {word}", one.rule));
        of_rule.collect::<Vec<_>>()
    };
    shown(rules, tried).iter().flat_map(lacking).collect()
}

const ASKED: &str = "it is for the authority to judge";

/// What rules cannot come to, and why.
const CANNOT: &[(&str, &str)] = &[
    ("arizona: pool-wall failing", ASKED),
    ("arizona: pool-wall passing", ASKED),
    ("eldermere: development-plan failing", ASKED),
    ("eldermere: development-plan passing", ASKED),
    ("california: care-home failing", ASKED),
    ("california: care-home passing", ASKED),
    ("california: other-home failing", ASKED),
    ("california: other-home passing", ASKED),
    ("florida: flood failing", ASKED),
    ("germany-nrw: bank-strip failing", ASKED),
    ("germany-nrw: road-ban failing", ASKED),
    ("germany-nrw: low-coarse-fence passing", ASKED),
    ("new-zealand: immediate-area failing", ASKED),
    ("new-zealand: older-barrier passing", ASKED),
    ("new-zealand: older-barrier failing", ASKED),
    ("denmark: wood-line failing", ASKED),
    ("norway: secured-well-enough failing", ASKED),
    ("sweden: public-road failing", ASKED),
    ("victoria: house-windows failing", ASKED),
    ("victoria: older-fence failing", ASKED),
    ("victoria: older-gate failing", ASKED),
    ("wallonia: flood-hazard failing", ASKED),
    ("western-australia: blanket failing", ASKED),
    ("south-africa: complex passing", ASKED),
    ("south-africa: complex failing", ASKED),
    ("model-municipality: variance passing", ASKED),
    ("model-municipality: variance failing", ASKED),
    ("us-adoptions: new-jersey-house-wall failing", ASKED),
    ("us-adoptions: new-jersey-house-wall passing", ASKED),
];

#[test]
fn the_cases_come_out_and_show_every_rule() {
    let files = rule_files();
    let (mut wrong, mut not_shown) = (Vec::new(), BTreeSet::new());
    for name in files.keys() {
        let Ok(text) = fs::read_to_string(folder().join(name).join("cases.yaml")) else {
            continue;
        };
        let rules = checked(name, &files)
            .expect("a rule set that reads clean")
            .rule_set;
        let tried = match try_cases(&rules, &text) {
            Ok(tried) => tried,
            Err(faults) => {
                wrong.push(faults.show(&format!("{name}/cases.yaml"), &text));
                continue;
            }
        };
        for case in &tried {
            wrong.extend(
                case.wrong
                    .iter()
                    .map(|wrong| format!("{name}, case {}: {wrong}", case.case)),
            );
        }
        not_shown.extend(
            lacking(&rules, &tried)
                .into_iter()
                .map(|lacking| format!("{name}: {lacking}")),
        );
    }
    let cannot: BTreeSet<_> = CANNOT.iter().map(|(what, _)| (*what).to_owned()).collect();
    wrong.extend(
        not_shown
            .difference(&cannot)
            .map(|what| format!("not shown: {what}")),
    );
    let stale = cannot.difference(&not_shown);
    wrong.extend(stale.map(|what| {
        format!("shown after all, so take it from the list of what cannot be: {what}")
    }));
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}

#[test]
fn the_sources_name_every_rule() {
    let files = rule_files();
    let mut wrong = Vec::new();
    for name in files.keys() {
        let Ok(sources) = fs::read_to_string(folder().join(name).join("SOURCES.md")) else {
            continue;
        };
        let rules = checked(name, &files)
            .expect("a rule set that reads clean")
            .rule_set;
        let invented = sources.contains("The place is invented");
        let own = rules
            .rules
            .iter()
            .filter(|rule| rule.layer == 0 && !invented);
        wrong.extend(
            own.filter(|rule| !sources.contains(&rule.id))
                .map(|rule| format!("{name}: {}", rule.id)),
        );
    }
    assert!(wrong.is_empty(), "no source is named for {wrong:?}");
}

/// What may stand in the place of a page's address.
const NO_PAGE: &[&str] = &[
    "from memory",
    "address withheld",
    "address not noted",
    "this file's own advice",
];

#[test]
fn each_line_of_the_sources_says_where_it_was_read() {
    let mut wrong = Vec::new();
    for name in rule_files().keys() {
        let sources = fs::read_to_string(folder().join(name).join("SOURCES.md"));
        let sources = sources.unwrap_or_default();
        let rows = sources.lines().filter(|line| line.starts_with("| "));
        let told = |row: &&str| {
            let last = row
                .trim_end_matches(" |")
                .rsplit(" | ")
                .next()
                .unwrap_or("");
            last.contains("://") || NO_PAGE.iter().any(|words| last.contains(words))
        };
        let heads = |row: &&str| row.starts_with("| Rule |") || row.starts_with("| Term ");
        wrong.extend(
            rows.filter(|row| !heads(row) && !told(row))
                .map(|row| format!("{name}: {row}")),
        );
    }
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}

/// The demo's rules are invented; its notice says so instead.
const INVENTED: &str = "eldermere";

#[test]
fn each_notice_says_what_it_is_not() {
    let files = rule_files();
    let says = |name: &str| {
        let notice = checked(name, &files).expect("clean").rule_set.notice;
        let notice = notice.unwrap_or_default().to_lowercase();
        ["not an official text", "out of date", "ask "].map(|words| notice.contains(words))
    };
    let wrong: Vec<_> = files
        .keys()
        .filter(|name| *name != INVENTED && says(name).contains(&false))
        .collect();
    assert!(wrong.is_empty(), "a notice lacks a caution in {wrong:?}");
}
