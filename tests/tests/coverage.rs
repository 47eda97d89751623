//! The tables of docs/coverage say what the rule files hold.

use std::collections::BTreeSet;
use std::fs;

use outside_checks::by_grade::counted as counted_by_grade;
use outside_checks::pages::{of_rule_sets, root};
use outside_checks::read::bundled;
use rules_core::ruleset::Provenance;

/// How many rules of its own a rule set has, and how many of them are confirmed, from memory, and contradicted.
fn counted(name: &str) -> [usize; 4] {
    let rules = bundled(name).rules;
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
    let path = root().join("docs/coverage").join(page);
    let text = fs::read_to_string(path).expect("the page");
    let row = |line: &str| {
        let mut cells = line.strip_prefix("| ")?.strip_suffix(" |")?.split(" | ");
        let name = cells.next()?.to_owned();
        let numbers = cells.map(|cell| cell.parse().ok()).collect::<Option<_>>()?;
        Some((name, numbers))
    };
    text.lines().filter_map(row).collect()
}

/// A figure that nobody looked up, or that only the trade tells, is worth little to somebody who builds by it.
#[test]
fn less_than_a_tenth_of_the_values_are_from_the_trade_or_from_memory() {
    let (weak, all) = counted_by_grade().weak_of_all();
    assert!(
        weak * 10 < all,
        "{weak} of {all}; docs/coverage/grades.md lists them"
    );
    // By hand: twelve rules of New Brunswick name the regulation, one the watershed order, one an office's page.
    let sets = counted_by_grade().sets;
    let numbers: Vec<usize> = sets["new-brunswick"].values().copied().collect();
    assert_eq!(numbers, [13, 1, 0, 0, 0, 0]);
}

#[test]
fn the_tables_count_what_the_rule_files_hold() {
    for (page, sets) in [("north-america.md", 22), ("world.md", 18)] {
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

/// The names in backticks, each with the rule sets that stand before it: ``quebec, arizona: `rails`, `mesh`; florida `gate` ``.
fn named(cell: &str, sets: &BTreeSet<String>) -> Vec<(String, String)> {
    let (mut of, mut found) = (Vec::new(), Vec::new());
    for (place, part) in cell.split('`').enumerate() {
        let words = part.split([',', ' ', ':', ';']);
        let said: Vec<_> = words.filter(|word| sets.contains(*word)).collect();
        if place % 2 == 1 {
            found.extend(
                of.iter()
                    .map(|set: &&str| ((*set).to_owned(), part.to_owned())),
            );
        } else if !said.is_empty() {
            of = said;
        }
    }
    found
}

/// Whether a rule set has a rule, a question, a class, a paper, a duty or a caution of that name.
fn has(name: &str, id: &str) -> bool {
    let set = bundled(name);
    let rules = set.rules.iter().map(|it| &it.id);
    let questions = set.questions.iter().map(|it| &it.id);
    let decisions = set.decisions.iter().map(|it| &it.id);
    let papers = set.documents.iter().map(|it| &it.id);
    let duties = set.duties.iter().map(|it| &it.id);
    let cautions = set.cautions.iter().map(|it| &it.id);
    let all = rules.chain(questions).chain(decisions);
    all.chain(papers.chain(duties).chain(cautions))
        .any(|own| own == id)
}

#[test]
fn the_second_reading_names_what_the_rule_files_hold() {
    let files = of_rule_sets("rules.yaml").expect("the rule sets");
    let sets: BTreeSet<_> = files.into_keys().collect();
    let path = root().join("docs/coverage/second-reading.md");
    let text = fs::read_to_string(path).expect("the page");
    let rows = text.lines().filter_map(|line| line.strip_prefix("| "));
    let cells = rows.filter_map(|row| row.split(" | ").next());
    let named: BTreeSet<_> = cells.flat_map(|cell| named(cell, &sets)).collect();
    let wrong: Vec<_> = named.iter().filter(|(set, id)| !has(set, id)).collect();
    assert!(named.len() > 60, "only {} names were read", named.len());
    assert!(wrong.is_empty(), "not in the files: {wrong:?}");
}
