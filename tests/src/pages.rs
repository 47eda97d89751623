//! The pages under `docs/` that the program writes, and the texts they are made from.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::{fs, io};

use rules_core::ruleset;
use rules_core::schema;
use rules_core::vocabulary::{Fact, Outline, Vocabulary};
use serde_json::Value;

use crate::{by_grade, fault_page, one_site, reference};

/// The root folder of the project.
pub fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

/// One file of every published rule set that has it, by rule set.
///
/// # Errors
/// What the file system says.
pub fn of_rule_sets(file: &str) -> io::Result<BTreeMap<String, String>> {
    let mut texts = BTreeMap::new();
    for entry in fs::read_dir(root().join("rulesets"))? {
        let entry = entry?;
        if let Ok(text) = fs::read_to_string(entry.path().join(file)) {
            texts.insert(entry.file_name().to_string_lossy().into_owned(), text);
        }
    }
    Ok(texts)
}

/// A page: its path from the root, and its text.
pub type Page = (&'static str, String);

/// All pages that the program writes.
///
/// # Errors
/// What the file system says.
pub fn pages() -> io::Result<Vec<Page>> {
    let (standard, all) = (Vocabulary::standard(), of_all_rule_sets()?);
    let files = of_rule_sets("rules.yaml")?;
    let home = fs::read_to_string(root().join("rulesets/eldermere/home.yaml"))?;
    Ok(vec![
        ("docs/schema/plan.json", json(&schema::plan(&all))),
        (
            "docs/schema/rule-set.json",
            json(&schema::rule_set(&standard)),
        ),
        ("docs/schema/cases.json", json(&schema::cases(&all))),
        ("docs/reference.md", reference::page(&standard)),
        ("docs/faults.md", fault_page::page()),
        ("docs/one-site.md", one_site::page(&home, &files)),
        ("docs/coverage/grades.md", by_grade::page()),
    ])
}

/// The program's own vocabulary with everything that the published rule sets add.
///
/// # Errors
/// What the file system says.
pub fn of_all_rule_sets() -> io::Result<Vocabulary> {
    let files = of_rule_sets("rules.yaml")?;
    let bases = |name: &str| files.get(name).map(String::as_str);
    let mut all = Vocabulary::standard();
    for text in files.values() {
        if let Ok(checked) = ruleset::read(text, &bases, Vocabulary::standard()) {
            add(&mut all, &checked.rule_set.vocabulary);
        }
    }
    Ok(all)
}

fn add(all: &mut Vocabulary, more: &Vocabulary) {
    for (_, kind) in more.kinds() {
        let own = all.add_kind(&kind.name, &kind.said, kind.number, &kind.ask);
        for outline in kind.outlines.iter().map(|id| more.outline(*id)) {
            if all.outline_named(own, &outline.name).is_none() {
                all.add_outline(Outline {
                    kind: own,
                    ..outline.clone()
                });
            }
        }
        for fact in kind.facts.iter().map(|id| more.fact(*id)) {
            let same = |known: &Fact| known.name == fact.name && known.answer == fact.answer;
            if !all.kind(own).facts.iter().any(|id| same(all.fact(*id))) {
                all.add_fact(Fact {
                    kind: own,
                    ..fact.clone()
                });
            }
        }
    }
}

/// A schema as a file, with its keys in alphabetical order, so that the same schema always gives the same text.
fn json(schema: &Value) -> String {
    let sorted = sorted(schema);
    let text = serde_json::to_string_pretty(&sorted).unwrap_or_default();
    format!("{text}\n")
}

fn sorted(value: &Value) -> Value {
    match value {
        Value::Array(items) => items.iter().map(sorted).collect(),
        Value::Object(map) => {
            let keys: BTreeMap<_, _> = map
                .iter()
                .map(|(key, value)| (key.clone(), sorted(value)))
                .collect();
            keys.into_iter().collect()
        }
        other => other.clone(),
    }
}
