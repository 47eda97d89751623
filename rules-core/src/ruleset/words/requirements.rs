//! Requirements in words.

use super::nouns::{listed, term_words};
use super::places::each_words;
use super::values::{bound_words, bounds_words, value_words};
use crate::ruleset::{Bound, Choice, Requirement, RowTest, RuleSet, Table, Test, Then, Value};
use crate::vocabulary::Answer;

/// A requirement as a clause without a full stop: `the height of the latch is at least 54 in`.
pub fn requirement_words(requirement: &Requirement, rules: &RuleSet) -> String {
    match requirement {
        Requirement::Test(test) => test_words(test, rules),
        Requirement::All(members) => joined(members, "and", rules),
        Requirement::Any(members) => joined(members, "or", rules),
        Requirement::Not(inner) => {
            format!("it is not so that {}", requirement_words(inner, rules))
        }
        Requirement::Count { of, bounds } => format!(
            "{} of these {} hold: {}",
            bounds_words(bounds, None, rules),
            of.len(),
            each(of, rules).join("; ")
        ),
        Requirement::Each(each) => format!(
            "for {}, {}",
            each_words(&each.selection, rules),
            requirement_words(&each.require, rules)
        ),
        Requirement::Table(table) => {
            rows_words(table, rules, &|then| requirement_words(then, rules)).join("; ")
        }
        Requirement::Meets { term, .. } => format!("{} is met", term_words(&term.name)),
        Requirement::Have(document) => match rules.documents.get(*document) {
            Some(document) => format!("there is this document: {}", document.title),
            None => "there is the document".to_owned(),
        },
        Requirement::Refer => "the authority decides".to_owned(),
    }
}

fn each(members: &[Requirement], rules: &RuleSet) -> Vec<String> {
    members
        .iter()
        .map(|member| requirement_words(member, rules))
        .collect()
}

/// Members that are combinations themselves stand in brackets, so that the reader sees what belongs together.
fn joined(members: &[Requirement], word: &str, rules: &RuleSet) -> String {
    let clauses: Vec<String> = members
        .iter()
        .map(|member| {
            let words = requirement_words(member, rules);
            match member {
                Requirement::All(inner) | Requirement::Any(inner) if inner.len() > 1 => {
                    format!("({words})")
                }
                _ => words,
            }
        })
        .collect();
    listed(&clauses, word)
}

/// A test as a clause: `the gate closes by itself`, `the flood zone: AE or VE`, `the depth is more than 600 mm`.
pub fn test_words(test: &Test, rules: &RuleSet) -> String {
    if let Some((clause, is_so)) = clause_asked(test, rules) {
        return match is_so {
            true => clause.to_owned(),
            false => format!("it is not so that {clause}"),
        };
    }
    let value = value_words(&test.value, rules);
    match test.bounds.as_slice() {
        [bound @ Bound::Is(choices)]
            if choices
                .iter()
                .all(|choice| matches!(choice, Choice::Amount(..))) =>
        {
            format!(
                "{value} is {}",
                bound_words(bound, Some(&test.value), rules)
            )
        }
        [bound @ Bound::Is(_)] => {
            format!("{value}: {}", bound_words(bound, Some(&test.value), rules))
        }
        bounds => format!(
            "{value} is {}",
            bounds_words(bounds, Some(&test.value), rules)
        ),
    }
}

/// What is so or is not where a fact says yes or no: `the gate closes by itself`.
pub fn clause_of<'r>(value: &Value, rules: &'r RuleSet) -> Option<&'r str> {
    match value {
        Value::Fact(fact) => rules.vocabulary.fact(*fact).clause(),
        _ => None,
    }
}

/// The clause of a test that asks a fact of yes or no for one of the two, and whether for yes.
fn clause_asked<'r>(test: &Test, rules: &'r RuleSet) -> Option<(&'r str, bool)> {
    let [Bound::Is(choices)] = test.bounds.as_slice() else {
        return None;
    };
    let is_so = match choices.as_slice() {
        [Choice::Word(word)] if word == "yes" => true,
        [Choice::Word(word)] if word == "no" => false,
        _ => return None,
    };
    let asks = matches!(&test.value, Value::Fact(fact) if rules.vocabulary.fact(*fact).answer == Answer::YesNo);
    let clause = clause_of(&test.value, rules).filter(|_| asks)?;
    Some((clause, is_so))
}

/// The rows of a table, each as `at most 15 kV: at least 25 ft`; `give` says what a row gives.
pub fn rows_words<T>(
    table: &Table<T>,
    rules: &RuleSet,
    give: &dyn Fn(&T) -> String,
) -> Vec<String> {
    let by = table.by.as_ref().map(|by| value_words(by, rules));
    let row = |row: &crate::ruleset::Row<T>| {
        let then = match &row.then {
            Then::Give(what) => give(what),
            Then::Refer => "the authority decides".to_owned(),
        };
        let by = by.as_deref().unwrap_or("it");
        match &row.test {
            RowTest::Bounds(bounds) => {
                format!(
                    "where {by} is {}, {then}",
                    bounds_words(bounds, table.by.as_ref(), rules)
                )
            }
            RowTest::When(when) => format!("where {}, {then}", requirement_words(when, rules)),
            RowTest::Otherwise => format!("otherwise {then}"),
        }
    };
    table.rows.iter().map(row).collect()
}
