//! Reading texts that a test writes. A fault in one is the test's own mistake, so it is shown and the test fails.

use std::collections::BTreeMap;

use rules_core::faults::Code;
use rules_core::plan::{self, Plan};
use rules_core::ruleset::RuleSet;
use rules_core::{Refused, RulesRead, read_rules};

use crate::pages::of_rule_sets;

/// A rule set that builds on no other.
pub fn rules(text: &str) -> RuleSet {
    layered(text, &|_| None)
}

/// A rule set that builds on others; `bases` finds their texts by name.
pub fn layered<'t>(text: &'t str, bases: &dyn Fn(&str) -> Option<&'t str>) -> RuleSet {
    read(text, bases).rule_set
}

/// A rule set that builds on no other and has no warnings, except that a file of a few rules need not say which matters
/// it covers.
pub fn clean(text: &str) -> RuleSet {
    let read = read(text, &|_| None);
    let warned: String = read.warnings.into_iter().map(without_scope).collect();
    assert!(warned.is_empty(), "\n{warned}");
    read.rule_set
}

fn without_scope(mut file: Refused) -> String {
    file.faults
        .list
        .retain(|fault| fault.code != Code::ScopeMissing);
    file.faults.show("rules", &file.text)
}

/// The warnings about a rule set that could be read.
pub fn warnings(read: &RulesRead) -> String {
    let files = read.warnings.iter();
    files
        .map(|file| file.faults.show("rules", &file.text))
        .collect()
}

/// A rule set that may build on those in the folder `rulesets`.
pub fn local(text: &str) -> RuleSet {
    let files = texts_of("rules.yaml");
    layered(text, &|name| files.get(name).map(String::as_str))
}

/// A rule set in the folder `rulesets`, by name.
pub fn bundled(name: &str) -> RuleSet {
    local(&text_of(name, "rules.yaml"))
}

/// The cases of a rule set in the folder `rulesets`.
pub fn cases_of(name: &str) -> String {
    text_of(name, "cases.yaml")
}

fn texts_of(file: &str) -> BTreeMap<String, String> {
    of_rule_sets(file).expect("the rule sets can be read")
}

fn text_of(name: &str, file: &str) -> String {
    let text = texts_of(file).remove(name);
    text.unwrap_or_else(|| panic!("no {file} of `{name}`"))
}

fn read<'t>(text: &'t str, bases: &dyn Fn(&str) -> Option<&'t str>) -> RulesRead {
    read_rules(text, bases).unwrap_or_else(|bad| panic!("\n{}", bad.show("plan", "rules")))
}

/// A plan, read with a rule set's vocabulary.
pub fn plan(text: &str, rules: &RuleSet) -> Plan {
    plan::read(text, &rules.vocabulary)
        .unwrap_or_else(|faults| panic!("\n{}", faults.show("plan", text)))
}
