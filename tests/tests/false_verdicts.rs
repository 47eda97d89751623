//! Clauses that once got a false verdict: as a clerk would write them, and in other words that mean the same. Each folder
//! has rules and cases; what a case expects was worked out by hand from the clause, which stands at its head.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

use outside_checks::cases::try_cases;
use outside_checks::read;
use rules_core::check::Outcome;
use rules_core::read_rules;

/// What is in a folder of `false-verdicts`, in the order of the names.
fn listed(folder: &str) -> Vec<PathBuf> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("false-verdicts");
    let entries = fs::read_dir(root.join(folder)).expect("the folder");
    let mut all: Vec<_> = entries.map(|entry| entry.expect("a file").path()).collect();
    all.sort();
    all
}

fn text(path: &Path) -> String {
    fs::read_to_string(path).unwrap_or_else(|_| panic!("{} cannot be read", path.display()))
}

/// What came out otherwise, and which rules never came to two outcomes: nothing would tell whether they can.
fn wrong_in(folder: &Path) -> Vec<String> {
    let rules = read::rules(&text(&folder.join("rules.yaml")));
    let cases = text(&folder.join("cases.yaml"));
    let tried = try_cases(&rules, &cases).unwrap_or_else(|bad| panic!("{}", bad.show("", &cases)));
    let mut outcomes: BTreeMap<&str, BTreeSet<Outcome>> = BTreeMap::new();
    for rule in &rules.rules {
        outcomes.entry(&rule.id).or_default();
    }
    let of_cases = tried.iter().flat_map(|case| &case.outcomes);
    for (rule, outcome) in of_cases {
        outcomes.entry(rule).or_default().insert(*outcome);
    }
    let one_way = outcomes.iter().filter(|(_, shown)| shown.len() < 2);
    let one_way = one_way.map(|(rule, _)| format!("{rule} never comes out otherwise"));
    let wrong = tried.iter().flat_map(|case| {
        let sentences = case.wrong.iter();
        sentences.map(move |wrong| format!("{}: {wrong}", case.case))
    });
    wrong.chain(one_way).collect()
}

#[test]
fn clauses_come_out_as_worked_by_hand() {
    let folders = listed("")
        .into_iter()
        .filter(|path| path.join("cases.yaml").is_file());
    let mut wrong = Vec::new();
    let mut tried = 0;
    for folder in folders {
        tried += 1;
        let sentences = wrong_in(&folder).into_iter();
        wrong.extend(sentences.map(|said| format!("{}: {said}", folder.display())));
    }
    assert!(tried > 12 && wrong.is_empty(), "\n{}", wrong.join("\n"));
}

/// A clause that could be read in two ways, one of them a false pass, is not read at all: each file is refused with the
/// question that stands at its head, as often as it comes up.
#[test]
fn what_could_be_meant_in_two_ways_is_asked() {
    let files = listed("refused");
    for file in &files {
        let rules = text(file);
        let head = rules
            .lines()
            .next()
            .and_then(|line| line.strip_prefix("# "));
        let (times, question) = head
            .and_then(|line| line.split_once(" times: "))
            .expect("a head");
        let refused = read_rules(&rules, &|_| None).expect_err("two meanings");
        let said = refused.show("", "rules");
        let asked = said.matches(question).count();
        assert_eq!(asked.to_string(), times, "{}:\n{said}", file.display());
        assert_eq!(said.matches("in rules, line").count(), asked, "{said}");
    }
    assert!(files.len() > 3);
}
