//! docs/coverage/grades.md: how well the values of the rule sets are known, and which are known worst.

use std::collections::BTreeMap;

use rules_core::ruleset::{Grade, SourcedValue};
use rules_core::shelf::{Tally, tally};

use crate::pages::of_rule_sets;
use crate::read::bundled;

const HEAD: &str = "\
# How well the values are known

A rule counts as one value, or as many as its sources tell apart (`{id: page, value: the height}`); so does a term, a decision,
a paper, a step or a question that names a source. A value is as good as the best of its sources, and a rule without one
counts as from memory. Each value counts once, in the set whose file it is in: what a set takes from another that it builds
on counts there. The program writes this page from the rule files. A test keeps it up to date, and keeps the values from the trade and
from memory below a tenth of all.

| Rule set | law | authority | copy | restatement | trade | memory |
|---|---|---|---|---|---|---|
";

/// How many values of each grade each set has in its own file, and the worst-known ones, in words.
pub struct ByGrade {
    /// By rule set; only those that name sources.
    pub sets: BTreeMap<String, Tally>,
    /// All sets together.
    pub together: Tally,
    /// The values from the trade and from memory, in the order of the sets.
    pub weak: Vec<String>,
}

impl ByGrade {
    /// How many values are from the trade or from memory, and how many there are in all.
    pub fn weak_of_all(&self) -> (usize, usize) {
        let number = |grade| self.together.get(&grade).copied().unwrap_or_default();
        let weak = number(Grade::Trade) + number(Grade::Memory);
        (weak, self.together.values().sum())
    }
}

/// Counts the values of all published rule sets.
pub fn counted() -> ByGrade {
    let mut by_grade = ByGrade {
        sets: BTreeMap::new(),
        together: tally(&[]),
        weak: Vec::new(),
    };
    for name in of_rule_sets("rules.yaml").expect("the rule sets").keys() {
        let rules = bundled(name);
        let values = rules.sourced_values().into_iter();
        let own: Vec<_> = values.filter(|value| value.layer == 0).collect();
        if own.is_empty() {
            continue;
        }
        let found = tally(&own);
        for (grade, number) in &found {
            *by_grade.together.entry(*grade).or_default() += number;
        }
        by_grade.sets.insert(name.clone(), found);
        let weak = own.iter().filter(|value| value.grade >= Grade::Trade);
        by_grade.weak.extend(weak.map(|value| named(name, value)));
    }
    by_grade
}

fn named(set: &str, value: &SourcedValue<'_>) -> String {
    let which = value.value.map(|which| format!(": {which}"));
    let (grade, holder) = (value.grade.word(), value.holder.word());
    let which = which.unwrap_or_default();
    format!("{set}, {holder} `{}`{which} ({grade})", value.id)
}

/// The page.
pub fn page() -> String {
    let by_grade = counted();
    let mut page = HEAD.to_owned();
    let together = [("together".to_owned(), by_grade.together.clone())];
    for (name, tally) in by_grade
        .sets
        .iter()
        .chain(together.iter().map(|(n, t)| (n, t)))
    {
        let numbers: Vec<String> = tally.values().map(usize::to_string).collect();
        page += &format!("| {name} | {} |\n", numbers.join(" | "));
    }
    let (weak, all) = by_grade.weak_of_all();
    page += &format!("\n{weak} of {all} values are from the trade or from memory:\n\n");
    for one in &by_grade.weak {
        page += &format!("- {one}\n");
    }
    page
}
