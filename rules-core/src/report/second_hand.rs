//! Which values are neither from the law nor from a page of the authority that applies it, said beside each of them and
//! once for all.

use super::matter::Matter;
use super::model::SecondHandReport;
use crate::ruleset::words::listed;
use crate::ruleset::{Cited, Grade, Holder, Provenance, Rule, SourcedValue};

impl Matter<'_> {
    /// What stands behind the clause of a rule: `from a restatement`, `from memory, to be checked (48 in)`.
    pub(super) fn rule_mark(&self, rule: &Rule) -> Option<String> {
        let values = self.rules.values_under(rule);
        if values.is_empty() && rule.provenance == Provenance::FromMemory {
            return Some(origin(Grade::Memory).to_owned());
        }
        mark(&values)
    }

    /// The same of what names these sources.
    pub(super) fn mark_of(&self, holder: Holder, id: &str, cited: &[Cited]) -> Option<String> {
        mark(&self.rules.values_in(holder, id, cited))
    }

    /// All of them in a sentence; none where there is none, or where no file names its sources.
    pub(super) fn second_hand(&self) -> Option<SecondHandReport> {
        let values = self.rules.sourced_values();
        let second_hand: Vec<_> = values.iter().filter(is_second_hand).collect();
        let number = |grade: Grade| second_hand.iter().filter(|it| it.grade == grade).count();
        let counted = Grade::ALL.iter().map(|(_, grade)| (*grade, number(*grade)));
        let counted: Vec<_> = counted.filter(|(_, number)| *number > 0).collect();
        let said = counted.iter();
        let said: Vec<String> = said
            .map(|(grade, number)| format!("{number} {}", grade.origin()))
            .collect();
        let are = if second_hand.len() == 1 { "is" } else { "are" };
        (!second_hand.is_empty()).then(|| SecondHandReport {
            values: second_hand.len(),
            of: values.len(),
            sentence: format!(
                "Of the {} values of these rules, {} {are} neither from the law nor from an office's page: {}. Each is marked where it is used.",
                values.len(),
                second_hand.len(),
                listed(&said, "and")
            ),
        })
    }
}

fn is_second_hand(value: &&SourcedValue<'_>) -> bool {
    value.grade.is_second_hand()
}

/// Where the second-hand ones of these values are from, the best source first; which of them, where not all are.
fn mark(values: &[SourcedValue<'_>]) -> Option<String> {
    let marks = Grade::ALL.iter().filter_map(|(_, grade)| {
        let of_grade = values.iter().filter(|it| it.grade == *grade);
        let of_grade: Vec<_> = of_grade.filter(is_second_hand).collect();
        let named = of_grade.iter().filter_map(|value| said(value));
        let named: Vec<String> = named.collect();
        let whole = of_grade.len() == values.len() || named.is_empty();
        match (of_grade.is_empty(), whole) {
            (true, _) => None,
            (_, true) => Some(origin(*grade).to_owned()),
            _ => Some(format!("{} ({})", origin(*grade), named.join("; "))),
        }
    });
    let marks: Vec<String> = marks.collect();
    (!marks.is_empty()).then(|| marks.join("; "))
}

/// Which value it is, where it is not the whole of a rule.
fn said(value: &SourcedValue<'_>) -> Option<String> {
    match (value.value, value.holder) {
        (Some(value), _) => Some(value.to_owned()),
        (None, Holder::Term) => Some(value.id.replace('-', " ")),
        (None, _) => None,
    }
}

fn origin(grade: Grade) -> &'static str {
    match grade {
        Grade::Memory => "from memory, to be checked",
        other => other.origin(),
    }
}
