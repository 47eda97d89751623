//! Clauses of published pool rules, written in the words of a rule file and tried on plans. What each case expects was
//! worked out by hand from the clause before the program ran; the sums stand beside it.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use outside_checks::cases::{Tried, changed_base, shown, try_cases};
use outside_checks::read;
use rules_core::check::governed;
use rules_core::ruleset::RuleSet;
use rules_core::steps::{day, steps};

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tried-clauses")
}

/// A rule file that reads clean, without so much as a warning.
fn rules(name: &str) -> RuleSet {
    read::clean(&fs::read_to_string(folder().join(name)).expect("the rule file"))
}

/// The files of cases in a folder, in the order of their names.
fn case_files(name: &str) -> Vec<PathBuf> {
    let entries = fs::read_dir(folder().join(name)).expect("the folder of cases");
    let mut files: Vec<_> = entries.map(|entry| entry.expect("a file").path()).collect();
    files.sort();
    files
}

/// Tries the cases of all files; gives what was tried, and what came out otherwise, in sentences.
fn tried(rules: &RuleSet, files: &[PathBuf]) -> (Vec<Tried>, Vec<String>) {
    let (mut all, mut wrong) = (Vec::new(), Vec::new());
    for file in files {
        let name = file.file_name().unwrap_or_default().to_string_lossy();
        let text = fs::read_to_string(file).expect("a file of cases");
        let tried = try_cases(rules, &text)
            .unwrap_or_else(|faults| panic!("{}", faults.show(&name, &text)));
        let of_case = |case: &Tried| {
            let sentences = case.wrong.iter();
            sentences
                .map(|wrong| format!("{name}, case {}: {wrong}", case.case))
                .collect::<Vec<_>>()
        };
        wrong.extend(tried.iter().flat_map(of_case));
        all.extend(tried);
    }
    (all, wrong)
}

fn come_out(rule_file: &str, cases: &str, cannot: &[(&str, &str)]) {
    let rules = rules(rule_file);
    let (tried, mut wrong) = tried(&rules, &case_files(cases));
    let lacking: BTreeSet<String> = shown(&rules, &tried)
        .iter()
        .flat_map(|one| {
            one.lacking()
                .into_iter()
                .map(|word| format!("{} {word}", one.rule))
        })
        .collect();
    let cannot: BTreeSet<String> = cannot.iter().map(|(what, _)| (*what).to_owned()).collect();
    wrong.extend(
        lacking
            .difference(&cannot)
            .map(|what| format!("not shown: {what}")),
    );
    wrong.extend(
        cannot
            .difference(&lacking)
            .map(|what| format!("shown after all: {what}")),
    );
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}

/// What rules of the sixty cannot come to, and why.
const CANNOT: &[(&str, &str)] = &[(
    "separate-from-yard-fence passing",
    "whether there is room at the edge is always for the authority to see",
)];

#[test]
fn the_sixty_clauses_come_out_as_worked_by_hand() {
    come_out("rules.yaml", "cases", CANNOT);
}

#[test]
fn forty_more_clauses_come_out_as_worked_by_hand() {
    come_out("more.yaml", "more-cases", &[]);
}

/// Each of the thirty stands there in two spellings, and each case asks the same of both.
#[test]
fn thirty_clauses_in_two_spellings_come_out_as_worked_by_hand() {
    come_out("thirty.yaml", "thirty-cases", &[]);
}

/// Whether a duty is asked of a plan: surely, perhaps, or not at all. The plan is the base of that file of cases with a
/// change laid over it.
fn asked(rule_file: &str, cases: &str, change: &str, duty: &str) -> Option<bool> {
    let rules = rules(rule_file);
    let cases = fs::read_to_string(folder().join(cases)).expect("a file of cases");
    let text = changed_base(&cases, change).unwrap_or_else(|bad| panic!("{}", bad.show("", "")));
    let plan = read::plan(&text, &rules);
    let findings = governed(&plan, &rules).expect("not too much work").findings;
    let steps = steps(&rules, &findings, day("2026-03-02").expect("a day"));
    let step = steps.steps.iter().find(|step| step.id == duty);
    step.map(|step| step.sure)
}

/// Trial 42: where a wall of the dwelling is part of the barrier, the owner is at home for the final inspection.
#[test]
fn the_owner_is_at_home_where_a_wall_of_the_house_is_barrier() {
    let of_type = |make: &str| {
        let change = format!("things: [{{id: boundary, type: {make}}}]");
        asked("rules.yaml", "cases/barrier.yaml", &change, "be-home")
    };
    assert_eq!(of_type("dwelling-wall"), Some(true));
    assert_eq!(of_type("solid"), None);
    assert_eq!(of_type("{one-of: [solid, dwelling-wall]}"), Some(false));
    let unseen = "inventory: {barrier-stretch: }";
    assert_eq!(
        asked("rules.yaml", "cases/barrier.yaml", unseen, "be-home"),
        Some(false)
    );
}

/// What the forty have to be done in time: 2 to 14 days before the digging (California Government Code 4216), and what
/// stands under a condition.
#[test]
fn duties_of_the_forty() {
    let of =
        |change: &str, duty: &str| asked("more.yaml", "more-cases/barriers.yaml", change, duty);
    assert_eq!(of("{}", "locate"), Some(true));
    assert_eq!(of("{}", "certificate"), Some(true));
    assert_eq!(of("{}", "close-by-themselves"), Some(true));
    let no_door = "things: [{id: door, to-pool: no}, {id: back-door, to-pool: no}]";
    assert_eq!(of(no_door, "close-by-themselves"), None);
    let perhaps = "things: [{id: door, to-pool: no}, {id: back-door, to-pool: unknown}]";
    assert_eq!(of(perhaps, "close-by-themselves"), Some(false));
}
