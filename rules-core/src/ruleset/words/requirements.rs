//! Requirements in words.

use super::nouns::{in_quotes, listed};
use super::places::each_words;
use super::values::{bounds_words, value_words};
use crate::ruleset::{
    Along, Bound, Choice, IfNone, Meaning, Requirement, RowTest, RuleSet, Selection, Table, Test,
    Then, Value,
};
use crate::vocabulary::Answer;

/// A requirement as a clause without a full stop: `the height of the latch is at least 54 in`.
pub fn requirement_words(requirement: &Requirement, rules: &RuleSet) -> String {
    match requirement {
        Requirement::Test(test) => test_words(test, rules),
        Requirement::All(members) => listed(&each(members, rules), "and"),
        Requirement::Any(members) => listed(&each(members, rules), "or"),
        Requirement::Not(inner) => not_words(inner, rules),
        Requirement::Count { of, bounds } => format!(
            "{} of these {} hold: {}",
            bounds_words(bounds, rules),
            of.len(),
            each(of, rules).join("; ")
        ),
        Requirement::Each(each) => format!(
            "for {}{}, {}",
            each_words(&each.selection, rules),
            if_none_in_brackets(&each.selection),
            requirement_words(&each.require, rules)
        ),
        Requirement::Table(table) => {
            rows_words(table, rules, &|then| requirement_words(then, rules)).join("; ")
        }
        Requirement::Meets { term, .. } => meets_words(&term.name, "is", rules),
        Requirement::Have(document) => match rules.documents.get(*document) {
            Some(document) => format!("there is this document: {}", document.title),
            None => "there is the document".to_owned(),
        },
        Requirement::Refer => "the authority decides".to_owned(),
    }
}

/// Members that are combinations themselves stand in brackets, so that the reader sees what belongs together.
fn each(members: &[Requirement], rules: &RuleSet) -> Vec<String> {
    match members {
        [one] => vec![requirement_words(one, rules)],
        several => (several.iter())
            .map(|member| in_brackets_if_long(member, rules))
            .collect(),
    }
}

fn in_brackets_if_long(requirement: &Requirement, rules: &RuleSet) -> String {
    let words = requirement_words(requirement, rules);
    match is_long(requirement) {
        true => format!("({words})"),
        false => words,
    }
}

/// Whether it is made of several things that must be read together.
fn is_long(requirement: &Requirement) -> bool {
    match requirement {
        Requirement::All(members) | Requirement::Any(members) => match &members[..] {
            [one] => is_long(one),
            _ => true,
        },
        Requirement::Count { .. } | Requirement::Each(_) | Requirement::Table(_) => true,
        Requirement::Not(inner) => !matches!(**inner, Requirement::Test(_)) && is_long(inner),
        _ => false,
    }
}

/// That something is not so: of one value, that it is not that; of more, in brackets, so that all of it is meant.
fn not_words(inner: &Requirement, rules: &RuleSet) -> String {
    match inner {
        Requirement::Test(test) => said_of_test(test, false, rules),
        Requirement::Meets { term, .. } => meets_words(&term.name, "is not", rules),
        inner => format!("it is not so that {}", in_brackets_if_long(inner, rules)),
    }
}

/// A defined term that a thing or the plan answers to: `“needs permit” is met`, `it counts as “neighbour dwelling”`. Its name
/// stands in quotes, since it need not be a noun.
pub fn meets_words(name: &str, is: &str, rules: &RuleSet) -> String {
    let mut terms = rules.terms.iter();
    let things = terms.any(|term| term.id == name && matches!(term.meaning, Meaning::Things(_)));
    let name = in_quotes(name);
    match (things, is) {
        (false, is) => format!("{name} {is} met"),
        (true, "is") => format!("it counts as {name}"),
        (true, is) => format!("it {} count as {name}", does(is)),
    }
}

fn does(is: &str) -> &str {
    match is {
        "is not" => "does not",
        "must be" => "must",
        "must not be" => "must not",
        "should be" => "should",
        "should not be" => "should not",
        other => other,
    }
}

fn if_none_in_brackets(selection: &Selection) -> String {
    let then = selection.if_none.map(if_none_words);
    then.map_or_else(String::new, |then| {
        format!(" (where there is none, {then})")
    })
}

/// What it comes to that there is none.
pub fn if_none_words(if_none: IfNone) -> &'static str {
    match if_none {
        IfNone::Passes => "this holds",
        IfNone::Fails => "this does not hold",
        IfNone::Refer => "the authority decides",
    }
}

/// A test as a clause: `the gate closes by itself`, `the flood zone is AE or VE`, `the depth is more than 600 mm`.
pub fn test_words(test: &Test, rules: &RuleSet) -> String {
    said_of_test(test, true, rules)
}

fn said_of_test(test: &Test, holds: bool, rules: &RuleSet) -> String {
    let words = bounded(&test.value, &test.bounds, holds, rules);
    format!("{words}{}", along_words(test))
}

/// That a value keeps bounds, or does not.
fn bounded(value: &Value, bounds: &[Bound], holds: bool, rules: &RuleSet) -> String {
    if let Some((clause, yes)) = asked(value, bounds, rules) {
        return match holds == yes {
            true => clause.to_owned(),
            false => format!("it is not so that {clause}"),
        };
    }
    let words = value_words(value, rules);
    let is = verb_after(&words, if holds { "is" } else { "is not" });
    let both = both(bounds, holds);
    format!("{words}{is} {both}{}", bounds_words(bounds, rules))
}

/// That a table's value keeps the bounds of a row.
pub fn bounded_words(by: Option<&Value>, bounds: &[Bound], rules: &RuleSet) -> String {
    match by {
        Some(by) => bounded(by, bounds, true, rules),
        None => format!("it is {}", bounds_words(bounds, rules)),
    }
}

/// The verb that goes behind a value; behind `the way it is` no second one.
pub fn verb_after(value: &str, verb: &str) -> String {
    match (value.ends_with(" is") || value.ends_with(" are"), verb) {
        (true, "is") => ":".to_owned(),
        (true, "is not") => ": not".to_owned(),
        _ => format!(" {verb}"),
    }
}

/// What must not be two things at once is not "not more than 1 m and at most 2 m".
pub fn both(bounds: &[Bound], holds: bool) -> &'static str {
    match bounds.len() > 1 && !holds {
        true => "both ",
        false => "",
    }
}

/// Where along a thing something holds, where the rule says it.
pub fn along_words(test: &Test) -> &'static str {
    match test.holds {
        None => "",
        Some(Along::Anywhere) => " somewhere along it",
        Some(Along::AllAlong) => " all along it",
    }
}

/// What is so or is not where a fact says yes or no: `the gate closes by itself`.
pub fn clause_of<'r>(value: &Value, rules: &'r RuleSet) -> Option<&'r str> {
    match value {
        Value::Fact(fact) => rules.vocabulary.fact(*fact).clause(),
        _ => None,
    }
}

/// The clause of a value that is asked for yes or for no, and whether for yes.
pub fn asked<'r>(value: &Value, bounds: &[Bound], rules: &'r RuleSet) -> Option<(&'r str, bool)> {
    let [Bound::Is(choices)] = bounds else {
        return None;
    };
    let is_so = match choices.as_slice() {
        [Choice::Word(word)] if word == "yes" => true,
        [Choice::Word(word)] if word == "no" => false,
        _ => return None,
    };
    let asks =
        matches!(value, Value::Fact(fact) if rules.vocabulary.fact(*fact).answer == Answer::YesNo);
    let clause = clause_of(value, rules).filter(|_| asks)?;
    Some((clause, is_so))
}

/// The rows of a table, each as `at most 15 kV: at least 25 ft`; `give` says what a row gives.
pub fn rows_words<T>(
    table: &Table<T>,
    rules: &RuleSet,
    give: &dyn Fn(&T) -> String,
) -> Vec<String> {
    let row = |row: &crate::ruleset::Row<T>| {
        let then = match &row.then {
            Then::Give(what) => give(what),
            Then::Refer => "the authority decides".to_owned(),
        };
        match &row.test {
            RowTest::Bounds(bounds) => {
                let bounded = bounded_words(table.by.as_ref(), bounds, rules);
                format!("where {bounded}, {then}")
            }
            RowTest::When(when) => format!("where {}, {then}", requirement_words(when, rules)),
            RowTest::Otherwise => format!("otherwise {then}"),
        }
    };
    table.rows.iter().map(row).collect()
}
