//! Which values are neither from the law nor from a page of the authority that applies it, said beside each of them and
//! once for all.

use std::collections::BTreeSet;

use super::context::ReportContext;
use super::model::SecondHandReport;
use crate::ruleset::words::listed;
use crate::ruleset::{Cited, Grade, Holder, Provenance, Rule, RuleSet, SourcedValue, language_of};
use crate::words::{Language, Word};

impl ReportContext<'_> {
    /// What stands behind the clause of a rule: `from a restatement`, `from memory, to be checked (48 in)`.
    pub(super) fn rule_mark(&self, rule: &Rule) -> Option<String> {
        let values = self.rules.values_under(rule);
        if values.is_empty() && rule.provenance == Provenance::FromMemory {
            return Some(origin(Grade::Memory, self.rules.language).to_owned());
        }
        mark(&values, self.rules.language)
    }

    /// The same of what names these sources.
    pub(super) fn mark_of(&self, holder: Holder, id: &str, cited: &[Cited]) -> Option<String> {
        mark(
            &self.rules.values_in(holder, id, cited),
            self.rules.language,
        )
    }
}

/// All of them in a sentence; none where there is none, or where no file names its sources.
pub(super) fn second_hand(rule_sets: &[&RuleSet]) -> Option<SecondHandReport> {
    let all = grades(rule_sets);
    let number = |grade: Grade| all.iter().filter(|it| **it == grade).count();
    let counted = Grade::ALL.map(|grade| (grade, number(grade))).into_iter();
    let second_hand = counted.filter(|(grade, number)| grade.is_second_hand() && *number > 0);
    let second_hand: Vec<(Grade, usize)> = second_hand.collect();
    let values: usize = second_hand.iter().map(|(_, number)| number).sum();
    let language = language_of(rule_sets);
    let said = second_hand.iter();
    let said =
        said.map(|(grade, number)| format!("{number} {}", grade.origin().in_language(language)));
    let said: Vec<String> = said.collect();
    let words = match values {
        1 => Word::OneSecondHand,
        _ => Word::SecondHand,
    };
    let fill = [
        ("of", all.len().to_string()),
        ("n", values.to_string()),
        ("grades", listed(&said, Word::And.in_language(language))),
    ];
    let fill = fill.each_ref().map(|(name, text)| (*name, text.as_str()));
    (values > 0).then(|| SecondHandReport {
        values,
        of: all.len(),
        sentence: words.said(language, &fill),
    })
}

/// The grade of each value; one of a file on which several of these rule sets build counts once.
fn grades(rule_sets: &[&RuleSet]) -> Vec<Grade> {
    let mut seen = BTreeSet::new();
    let values = rule_sets.iter().flat_map(|rules| {
        let values = rules.sourced_values().into_iter();
        values.map(|value| (rules.layers.get(value.layer).map(|layer| &layer.id), value))
    });
    let first =
        values.filter(|(layer, value)| seen.insert((*layer, value.holder, value.id, value.value)));
    first.map(|(_, value)| value.grade).collect()
}

fn is_second_hand(value: &&SourcedValue<'_>) -> bool {
    value.grade.is_second_hand()
}

/// Where the second-hand ones of these values are from, the best source first; which of them, where not all are.
fn mark(values: &[SourcedValue<'_>], language: Language) -> Option<String> {
    let marks = Grade::ALL.iter().filter_map(|grade| {
        let of_grade = values.iter().filter(|it| it.grade == *grade);
        let of_grade: Vec<_> = of_grade.filter(is_second_hand).collect();
        let named = of_grade.iter().filter_map(|value| said(value));
        let named: Vec<String> = named.collect();
        let whole = of_grade.len() == values.len() || named.is_empty();
        match (of_grade.is_empty(), whole) {
            (true, _) => None,
            (_, true) => Some(origin(*grade, language).to_owned()),
            _ => Some(format!(
                "{} ({})",
                origin(*grade, language),
                named.join("; ")
            )),
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

fn origin(grade: Grade, language: Language) -> &'static str {
    let words = match grade {
        Grade::Memory => Word::ToBeChecked,
        other => other.origin(),
    };
    words.in_language(language)
}
