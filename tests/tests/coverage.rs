//! The tables of docs/coverage say what the rule files hold.

use std::fs;
use std::path::{Path, PathBuf};

use rules_core::ruleset::{Provenance, RuleSet, read};
use rules_core::vocabulary::Vocabulary;

fn rules_of(name: &str) -> RuleSet {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../rulesets");
    let text = |name: &str| fs::read_to_string(folder.join(name).join("rules.yaml")).ok();
    let layer = text("barrier-as1926");
    let own = text(name).unwrap_or_else(|| panic!("{name}: the folder of this name"));
    let bases = |base: &str| layer.as_deref().filter(|_| base == "barrier-as1926");
    read(&own, &bases, Vocabulary::standard())
        .unwrap_or_else(|_| panic!("{name} reads clean"))
        .rule_set
}

/// How many rules of its own a rule set has, and how many of them are confirmed, from memory, and contradicted.
fn counted(name: &str) -> [usize; 4] {
    let rules = rules_of(name).rules;
    let own = || rules.iter().filter(|rule| rule.layer == 0);
    let marked = |mark: Provenance| own().filter(|rule| rule.provenance == mark).count();
    [
        own().count(),
        marked(Provenance::Confirmed),
        marked(Provenance::FromMemory),
        marked(Provenance::Contradicted),
    ]
}

/// The rows of a page's table of figures: a name and its numbers.
fn figures(page: &str) -> Vec<(String, Vec<usize>)> {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../docs/coverage");
    let text = fs::read_to_string(path.join(page)).expect("the page");
    let row = |line: &str| {
        let mut cells = line.strip_prefix("| ")?.strip_suffix(" |")?.split(" | ");
        let name = cells.next()?.to_owned();
        let numbers = cells.map(|cell| cell.parse().ok()).collect::<Option<_>>()?;
        Some((name, numbers))
    };
    text.lines().filter_map(row).collect()
}

#[test]
fn the_tables_count_what_the_rule_files_hold() {
    for (page, sets) in [("north-america.md", 10), ("world.md", 11)] {
        let rows = figures(page);
        let (together, each) = rows.split_last().expect("rows");
        assert_eq!((together.0.as_str(), each.len()), ("together", sets));
        for (name, numbers) in each {
            assert_eq!(numbers[..4], counted(name), "{page}: {name}");
        }
        for (place, sum) in together.1.iter().enumerate() {
            let added: usize = each.iter().map(|(_, numbers)| numbers[place]).sum();
            assert_eq!(added, *sum, "{page}: column {place}");
        }
    }
}
