//! Plans that obey every rule that a rule set has written and break a law that it has not. Such a plan must not end with
//! "nothing stands against it": the report warns of just this matter and says whom to ask.
//!
//! One for each rule set stands in `tests/unwritten`; those that a second reading found to be passed wrongly, in
//! `tests/false-verdicts/whole-plans`.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use outside_checks::pages::of_rule_sets;
use rules_core::check::{Outcome, Verdict};
use rules_core::judge_texts;
use rules_core::report::{Report, text};
use serde_yaml::Value;

fn folder(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(name)
}

/// The folders in a folder, by their names.
fn listed(of: &Path) -> BTreeSet<String> {
    let entries = fs::read_dir(of).expect("the folder");
    let names = entries.map(|entry| entry.expect("an entry").file_name());
    names.filter_map(|name| name.into_string().ok()).collect()
}

/// The exit status of the command, as its help says.
fn status(report: &Report) -> u64 {
    match report.verdict.word {
        Verdict::NothingAgainst => 0,
        Verdict::DoesNotComply => 1,
        Verdict::NotDecided | Verdict::NothingInTheseRules => 2,
    }
}

/// How many binding rules come to one of these.
fn many(report: &Report, outcomes: &[Outcome]) -> usize {
    let binding = report.rules.iter().filter(|rule| rule.binds());
    binding
        .filter(|rule| outcomes.contains(&rule.outcome))
        .count()
}

/// On one line, so that it does not matter where lines break.
fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A plan in its folder: under which rules, and what is to come out.
struct Told {
    plan: String,
    expected: Value,
}

impl Told {
    fn read(at: &Path) -> Self {
        let text = |name: &str| {
            let path = at.join(name);
            fs::read_to_string(&path).unwrap_or_else(|_| panic!("{} is missing", path.display()))
        };
        let expected = text("expected.yaml");
        let bad = |bad| panic!("{}: {bad}", at.display());
        Self {
            plan: text("plan.yaml"),
            expected: serde_yaml::from_str(&expected).unwrap_or_else(bad),
        }
    }

    fn word(&self, key: &str) -> &str {
        let word = self.expected.get(key).and_then(Value::as_str);
        word.unwrap_or("").trim()
    }

    fn report(&self, set: &str) -> Result<Report, String> {
        let files = of_rule_sets("rules.yaml").expect("the rule sets");
        let rules = files.get(set).ok_or("there is no such rule set")?;
        let bases = |name: &str| files.get(name).map(String::as_str);
        judge_texts(&self.plan, rules, &bases)
            .map_err(|refusal| refusal.show("plan", set).to_string())
    }

    /// What came out otherwise than expected.
    fn wrong(&self, report: &Report) -> Vec<String> {
        let said = text::render(report, text::Style::default());
        let (ends, says) = (status(report), flat(self.word("says")));
        let mut wrong = Vec::new();
        if self.expected.get("status").and_then(Value::as_u64) != Some(ends) || ends == 0 {
            wrong.push(format!("it ends with {ends}"));
        }
        if says.is_empty() || !flat(&said).contains(&says) {
            wrong.push(format!("the report does not say: {says}"));
        }
        if self.word("broken").is_empty() || self.word("source").is_empty() {
            wrong.push("what is broken, or its source, is not said".to_owned());
        }
        wrong
    }
}

/// The plan obeys what is written: what fails or is open is at most the one rule that came of it since.
fn keeps_what_is_written(report: &Report) -> Vec<String> {
    let not_kept = many(
        report,
        &[Outcome::Fail, Outcome::Unknown, Outcome::Marginal],
    );
    let passing = many(report, &[Outcome::Pass]);
    let mut wrong = Vec::new();
    if not_kept > 1 {
        wrong.push(format!("{not_kept} rules fail or are open"));
    }
    if passing == 0 {
        wrong.push("no rule that binds passes".to_owned());
    }
    wrong
}

#[test]
fn no_rule_set_promises_more_than_it_holds() {
    let sets: BTreeSet<_> = of_rule_sets("rules.yaml")
        .expect("the rule sets")
        .into_keys()
        .collect();
    let plans = listed(&folder("unwritten"));
    let mut wrong: Vec<_> = sets
        .symmetric_difference(&plans)
        .map(|name| format!("{name}: a rule set without a plan, or a plan without a rule set"))
        .collect();
    for set in sets.intersection(&plans) {
        let told = Told::read(&folder("unwritten").join(set));
        let found = match told.report(set) {
            Ok(report) => [told.wrong(&report), keeps_what_is_written(&report)].concat(),
            Err(refused) => vec![refused],
        };
        wrong.extend(found.iter().map(|said| format!("{set}: {said}")));
    }
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}

#[test]
fn plans_once_passed_wrongly_are_not_passed() {
    let at = folder("false-verdicts/whole-plans");
    let plans = listed(&at);
    let mut wrong = Vec::new();
    for plan in &plans {
        let told = Told::read(&at.join(plan));
        let found = match told.report(told.word("rules")) {
            Ok(report) => told.wrong(&report),
            Err(refused) => vec![refused],
        };
        wrong.extend(found.iter().map(|said| format!("{plan}: {said}")));
    }
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
    assert!(plans.len() >= 10, "all ten are still there");
}
