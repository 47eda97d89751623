//! One home under every bundled rule set: the page `docs/one-site.md`.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use rules_core::check::Outcome;
use rules_core::judge_texts;
use rules_core::report::Report;

const HEAD: &str = "# One home under every bundled rule set

The demo's home, Linden Row 12, judged under each rule set that comes with the program, without an answer to any rule set's
own questions: how many of the rules that bind come out how, what fails, and which advice is not kept. The home is invented,
and it stands in none of these places; the table shows how far rules differ, and how much a rule set still has to ask. Where a
permission or a neighbour's consent may still be got, a rule that the plan does not keep is unknown, not failed. This page is
written by `cargo run -p outside-checks --bin docs -- write`, and a test holds it to what the program says.

| rule set | verdict | fail | marginal | unknown | refer | pass | not applicable | what fails | advice not kept |
|---|---|---|---|---|---|---|---|---|---|
";

/// The page, from the home's plan and the rule files by name.
pub fn page(home: &str, files: &BTreeMap<String, String>) -> String {
    let plan = without_answers(home);
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

fn row(page: &mut String, name: &str, report: &Report) {
    let counts = &report.counts;
    let failing = |strength: &str| {
        let rules = report.rules.iter();
        let failing = rules.filter(|rule| rule.strength == strength);
        let failing = failing.filter(|rule| rule.outcome == Outcome::Fail);
        let titles: Vec<&str> = failing.map(|rule| rule.title.as_str()).collect();
        titles.join("; ")
    };
    let _ = writeln!(
        page,
        "| {name} | {} | {} | {} | {} | {} | {} | {} | {} | {} |",
        report.verdict.sentence,
        counts.fail,
        counts.marginal,
        counts.unknown,
        counts.refer,
        counts.pass,
        counts.not_applicable,
        failing("must"),
        failing("should"),
    );
}

/// The plan without its answers: they are answers to one rule set's own questions.
fn without_answers(home: &str) -> String {
    let mut inside = false;
    let kept = home.lines().filter(|line| {
        inside = match inside {
            false => line.starts_with("answers:"),
            true => line.starts_with(' ') || line.trim().is_empty(),
        };
        !inside
    });
    kept.flat_map(|line| [line, "\n"]).collect()
}
