//! Small rule sets and plans, written as text and judged through the library.

mod dice;
pub mod measured;
mod plot;
pub mod random;
mod sources;

use outside_checks::cases::changed_base;
use outside_checks::read;
pub use rules_core::check::Outcome;
use rules_core::check::check;
use rules_core::ruleset::RuleSet;

pub use dice::Dice;
pub use plot::Plot;
pub use sources::sources;

fn rules(body: &str) -> RuleSet {
    read::rules(&format!(
        "ruleset: r\ntitle: T\nedition: \"1\"\nauthority: Nobody\nnotice: A test\n{body}"
    ))
}

/// The outcome of the one rule of a rule set.
pub fn outcome(body: &str, plot: &Plot) -> Outcome {
    let rules = rules(body);
    let plan = read::plan(&plot.text(), &rules);
    let found = check(&plan, &rules).expect("not too much work");
    found.rules.first().expect("one rule").outcome
}

/// The outcome of a rule for each value in its place.
pub fn outcomes<const N: usize>(
    rule: &str,
    values: [(&str, Outcome); N],
    plot: impl Fn(&str) -> Plot,
) {
    let body = format!("rules:\n  - id: r\n    title: A rule\n    clause: \"1\"{rule}\n");
    for (value, expected) in values {
        assert_eq!(outcome(&body, &plot(value)), expected, "{value}");
    }
}

/// The class that a table decides on.
pub fn class_of(table: &str, plot: &Plot) -> String {
    classes_of(table, plot).join(" or ")
}

/// All classes that are still possible.
pub fn classes_of(table: &str, plot: &Plot) -> Vec<String> {
    let rules = rules(&format!(
        "rules: []\ndecide:\n  - {{id: d, table: {table}}}\n"
    ));
    let plan = read::plan(&plot.text(), &rules);
    let found = check(&plan, &rules).expect("not too much work");
    let [decided] = &found.decisions[..] else {
        panic!("one decision")
    };
    decided
        .classes
        .iter()
        .map(|class| (*class).to_owned())
        .collect()
}

/// What a rule, or `decide` and a decision, comes to on the base plan of some cases with a change.
pub fn comes_to(rules: &RuleSet, cases: &str, what: &str, change: &str) -> String {
    let text = changed_base(cases, change)
        .unwrap_or_else(|faults| panic!("{}", faults.show("change", change)));
    let plan = read::plan(&text, rules);
    let found = check(&plan, rules).expect("not too much work");
    if let Some(id) = what.strip_prefix("decide ") {
        let decided = found
            .decisions
            .iter()
            .find(|it| rules.decisions[it.decision].id == id);
        return decided.expect("the decision").classes.join(" or ");
    }
    let finding = found
        .rules
        .iter()
        .find(|it| rules.rule(it.rule).unwrap().id == what);
    finding.expect("the rule").outcome.word().to_owned()
}
