//! One home under every bundled rule set, and under several at once: the page `docs/one-site.md`.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use rules_core::check::Outcome;
use rules_core::report::Report;
use rules_core::ruleset::Strength;
use rules_core::{Refusal, RulesText, judge_texts, judge_together_in};

const HEAD: &str = "# One home under every bundled rule set

The demo's home, Linden Row 12, judged under each bundled rule set, without answers to any rule set's
own questions: how many binding rules have each outcome, what fails, and which advice is not followed. The home is invented
and stands in none of these places; the table shows how far rules differ, and how much a rule set still has to ask. If a
permission or a neighbour's consent can still be obtained, a rule that the plan does not keep is unknown, not failed.
`cargo run -p outside-checks --bin docs -- write` writes this page, and a test keeps it up to date.

| rule set | verdict | fail | marginal | unknown | refer | pass | not applicable | what fails | advice not followed |
|---|---|---|---|---|---|---|---|---|---|
";

const TOGETHER_HEAD: &str = "
## Several rule sets at once

The same home under rule sets that people would use together: a state's with the electrical code and digging practice, a town's
with the model code for barriers, a town's with its province's. The verdict is the worst of theirs. A rule that two of them take from
the same file counts once, and a matter is covered if one of them covers it. The home's papers are left out, too. If two rules limit
the same measure between the same ends, the last column says which one governs, but only if both certainly apply; here most of them
still depend on an answer.

| rule sets | verdict | fail | marginal | unknown | refer | pass | not applicable | what fails | matters covered | still to ask | what governs |
|---|---|---|---|---|---|---|---|---|---|---|---|
";

/// Rule sets as people would use them together.
pub const TOGETHER: [&[&str]; 12] = [
    &["florida", "electric-model", "digging"],
    &["california", "electric-model", "septic-well-tree"],
    &["arizona", "electric-model"],
    &["georgia", "barrier-model", "electric-model"],
    &["north-carolina", "barrier-model", "digging"],
    &["new-york", "electric-model", "septic-well-tree"],
    &["us-adoptions", "georgia"],
    &["texas-houston", "barrier-model", "electric-model"],
    &["texas-shady-shores", "barrier-model", "digging"],
    &["quebec-chateauguay", "quebec"],
    &["ontario-ottawa", "digging"],
    &["norway", "digging"],
];

/// The report of several rule sets together on a plan.
///
/// # Errors
/// All faults of all texts.
pub fn together(
    plan: &str,
    names: &[&str],
    files: &BTreeMap<String, String>,
) -> Result<Report, Refusal> {
    let bases = |name: &str| files.get(name).map(String::as_str);
    let sets = names.iter().map(|name| RulesText {
        name,
        text: files.get(*name).map(String::as_str).unwrap_or_default(),
        bases: &bases,
    });
    judge_together_in(None, plan, &sets.collect::<Vec<_>>())
}

/// The page, from the home's plan and the rule files by name.
pub fn page(home: &str, files: &BTreeMap<String, String>) -> String {
    let mut page = alone(home, files);
    page.push_str(TOGETHER_HEAD);
    let plan = bare(home);
    for names in TOGETHER {
        let name = names.join(", ");
        match together(&plan, names, files) {
            Ok(report) => row_of_several(&mut page, &name, &report),
            Err(refusal) => {
                let said = refusal.show("plan", &name);
                let _ = writeln!(page, "| {name} | refused: {said} | | | | | | | | | | |");
            }
        }
    }
    page
}

fn row_of_several(page: &mut String, name: &str, report: &Report) {
    let governs: Vec<&str> = report
        .governs
        .iter()
        .map(|one| one.sentence.as_str())
        .collect();
    let scope = &report.scope;
    let _ = writeln!(
        page,
        "| {name} | {} | {} | {} | {} | {} |",
        outcomes(report),
        failing(report, Strength::Must),
        scope.held.len(),
        scope.open.len(),
        governs.join(" "),
    );
}

fn alone(home: &str, files: &BTreeMap<String, String>) -> String {
    let plan = without("answers:", home);
    let bases = |name: &str| files.get(name).map(String::as_str);
    let mut page = HEAD.to_owned();
    for (name, text) in files {
        match judge_texts(&plan, text, &bases) {
            Ok(report) => row(&mut page, name, &report),
            Err(refusal) => {
                let _ = writeln!(
                    page,
                    "| {name} | refused: {} | | | | | | | | |",
                    refusal.show("plan", name)
                );
            }
        }
    }
    page
}

/// The verdict, and the number of rules with each outcome.
fn outcomes(report: &Report) -> String {
    let counts = &report.counts;
    let numbers = [
        counts.fail,
        counts.marginal,
        counts.unknown,
        counts.refer,
        counts.pass,
        counts.not_applicable,
    ];
    let cells = numbers.map(|number| number.to_string()).join(" | ");
    format!("{} | {cells}", report.verdict.sentence)
}

fn row(page: &mut String, name: &str, report: &Report) {
    let _ = writeln!(
        page,
        "| {name} | {} | {} | {} |",
        outcomes(report),
        failing(report, Strength::Must),
        failing(report, Strength::Should),
    );
}

/// The titles of the rules of this strength that fail.
fn failing(report: &Report, strength: Strength) -> String {
    let rules = report.rules.iter();
    let failing = rules.filter(|rule| rule.strength == strength);
    let failing = failing.filter(|rule| rule.outcome == Outcome::Fail);
    let titles: Vec<&str> = failing.map(|rule| rule.title.as_str()).collect();
    titles.join("; ")
}

/// The home's plan without its answers and papers, which are for its own rule set.
pub fn bare(home: &str) -> String {
    without("documents:", &without("answers:", home))
}

/// The plan without the part under this key.
fn without(key: &str, home: &str) -> String {
    let mut inside = false;
    let kept = home.lines().filter(|line| {
        inside = match inside {
            false => line.starts_with(key),
            true => line.starts_with(' ') || line.trim().is_empty(),
        };
        !inside
    });
    kept.flat_map(|line| [line, "\n"]).collect()
}
