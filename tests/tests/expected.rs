//! What a practitioner of a place expects its rule set to deal with, listed from the sources before the file was opened:
//! `docs/coverage/expected` says where each item is answered. An item may be a rule, something that the set asks, or an
//! entry of its own list of what it leaves out; it may not be missing.

use std::collections::BTreeSet;
use std::fs;

use outside_checks::pages::{of_rule_sets, root};
use outside_checks::read::bundled;
use rules_core::ruleset::RuleSet;
use rules_core::vocabulary::Matter;
use serde_yaml::Value;

/// How many items a list has at least.
const ENOUGH: usize = 8;

/// The lists, by the names of their files.
fn listed() -> BTreeSet<String> {
    let folder = root().join("docs/coverage/expected");
    let entries = fs::read_dir(folder).expect("the folder of expectations");
    let name = |path: std::path::PathBuf| path.file_stem()?.to_str().map(str::to_owned);
    entries
        .filter_map(|entry| name(entry.expect("a file").path()))
        .collect()
}

fn read(name: &str) -> Value {
    let path = root().join(format!("docs/coverage/expected/{name}.yaml"));
    let text = fs::read_to_string(path).expect("the list");
    serde_yaml::from_str(&text).unwrap_or_else(|bad| panic!("{name}: {bad}"))
}

/// The text of a key, where it holds one.
fn text<'v>(of: &'v Value, key: &str) -> &'v str {
    of.get(key).and_then(Value::as_str).unwrap_or("").trim()
}

/// Whether the rule set, with all that it builds on, has what is named.
fn has(rules: &RuleSet, what: &str, name: &str) -> bool {
    match what {
        "rule" => rules.rules.iter().any(|it| it.id == name),
        "question" => rules.questions.iter().any(|it| it.id == name),
        "document" => rules.documents.iter().any(|it| it.id == name),
        "decision" => rules.decisions.iter().any(|it| it.id == name),
        "duty" => rules.duties.iter().any(|it| it.id == name),
        "caution" => rules.cautions.iter().any(|it| it.id == name),
        "leaves-out" => {
            Matter::named(name).is_some_and(|matter| rules.reach.left_out(matter).is_some())
        }
        "on-top" => rules.reach.on_top.iter().any(|words| words.contains(name)),
        _ => false,
    }
}

/// What is wrong with an item, in a sentence.
fn wrong_with(rules: &RuleSet, item: &Value) -> Option<String> {
    let said = text(item, "item");
    if said.is_empty() || text(item, "source").is_empty() {
        return Some(format!("an item or its source is missing: {item:?}"));
    }
    let answered = item.get("answered").and_then(Value::as_mapping);
    let Some((what, name)) = answered
        .filter(|one| one.len() == 1)
        .and_then(|one| one.iter().next())
    else {
        return Some(format!("it is not said where one thing answers: {said}"));
    };
    let (what, name) = (what.as_str()?, name.as_str().unwrap_or("").trim());
    (name.is_empty() || !has(rules, what, name))
        .then(|| format!("it has no {what} `{name}`, which is to answer: {said}"))
}

/// What is wrong with a list, in sentences.
fn wrong_in(name: &str) -> Vec<String> {
    let (list, rules) = (read(name), bundled(name));
    let none = Vec::new();
    let items = list.get("expects").and_then(Value::as_sequence);
    let items = items.unwrap_or(&none);
    let mut wrong: Vec<_> = items
        .iter()
        .filter_map(|item| wrong_with(&rules, item))
        .collect();
    if items.len() < ENOUGH {
        wrong.push(format!("only {} items", items.len()));
    }
    if text(&list, "set") != name {
        wrong.push("it names another set".to_owned());
    }
    wrong
        .into_iter()
        .map(|said| format!("{name}: {said}"))
        .collect()
}

#[test]
fn each_rule_set_answers_what_is_expected_of_it() {
    let sets: BTreeSet<_> = of_rule_sets("rules.yaml")
        .expect("the rule sets")
        .into_keys()
        .collect();
    let lists = listed();
    let mut wrong: Vec<_> = sets
        .symmetric_difference(&lists)
        .map(|name| format!("{name}: a rule set without a list, or a list without a rule set"))
        .collect();
    wrong.extend(sets.intersection(&lists).flat_map(|name| wrong_in(name)));
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}

#[test]
fn what_a_rule_set_lacks_is_noticed() {
    let rules = bundled("georgia");
    for (what, name) in [("rule", "moat"), ("leaves-out", "moat"), ("law", "height")] {
        assert!(!has(&rules, what, name), "{what} {name}");
    }
    assert!(has(&rules, "rule", "height"), "a rule of the base");
}
