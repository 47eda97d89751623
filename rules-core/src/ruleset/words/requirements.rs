//! Requirements in words.

use super::nouns::{in_quotes, is_plural, listed};
use super::places::{each_words, selection_words};
use super::values::{bounds_words, choice_words, stated_words, value_words};
use super::verbs::turned;
use crate::ruleset::{
    Along, Bound, Choice, IfNone, Meaning, Requirement, RowTest, RuleSet, Selection, Table, Test,
    Then, Value,
};
use crate::vocabulary::{Answer, Fact, Phrase};

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
        Requirement::Any(members) if members.len() > 1 => {
            format!("none of these holds: {}", each(members, rules).join("; "))
        }
        inner => format!("it is not so that {}", in_brackets_if_long(inner, rules)),
    }
}

/// A defined term that holds for a thing or the plan: `“needs permit” holds`, `it counts as “neighbour dwelling”`. Its
/// name is quoted, since it need not be a noun.
pub fn meets_words(name: &str, is: &str, rules: &RuleSet) -> String {
    let mut terms = rules.terms.iter();
    let things = terms.any(|term| term.id == name && matches!(term.meaning, Meaning::Things(_)));
    let name = in_quotes(name);
    match (things, is) {
        (false, "is") => format!("{name} holds"),
        (false, is) => format!("{name} {} hold", does(is)),
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
    then.map_or_else(String::new, |then| format!(" (if there is none, {then})"))
}

/// What it comes to that there is none.
pub fn if_none_words(if_none: IfNone) -> &'static str {
    match if_none {
        IfNone::Passes => "this is met",
        IfNone::Fails => "this is not met",
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
            false => so_words(clause, "is not"),
        };
    }
    if let Some(so) = so_said(value, bounds, rules) {
        return so.words(if holds { "is" } else { "is not" });
    }
    let words = value_words(value, rules);
    let is = verb_after(&words, if holds { "is" } else { "is not" });
    let very = very_word(value, bounds, rules);
    format!("{words}{}{very}", kept_words(&is, bounds, holds, rules))
}

/// A verb with the bounds that follow it: ` is at least 3 m`, ` must be neither dwelling-wall nor pool-wall`.
pub fn kept_words(verb: &str, bounds: &[Bound], holds: bool, rules: &RuleSet) -> String {
    let bare = verb.replacen(" not", "", 1);
    if let [Bound::Is(choices)] = bounds
        && choices.len() > 1
        && bare != verb
    {
        let choices: Vec<String> = choices.iter().map(choice_words).collect();
        return format!("{bare} neither {}", listed(&choices, "nor"));
    }
    let both = both(bounds, holds);
    format!("{verb} {both}{}", bounds_words(bounds, rules))
}

/// That a clause is, must be or is not so: `the gate must close by itself`.
pub fn so_words(clause: &str, verb: &str) -> String {
    turned(clause, verb).unwrap_or_else(|| format!("it {verb} so that {}", as_one(clause)))
}

/// Says that a word that is not on its fact's list only matches a plan with that very word.
pub fn very_word(value: &Value, bounds: &[Bound], rules: &RuleSet) -> String {
    let Value::Fact(fact) = value else {
        return String::new();
    };
    let Answer::Word { words, open: true } = &rules.vocabulary.fact(*fact).answer else {
        return String::new();
    };
    let choices = bounds.iter().filter_map(|bound| match bound {
        Bound::Is(choices) => Some(choices),
        _ => None,
    });
    let own = choices.flatten().filter_map(|choice| match choice {
        Choice::Word(word) if !words.contains(word) => Some(format!("`{word}`")),
        _ => None,
    });
    let own: Vec<String> = own.collect();
    match own.is_empty() {
        true => String::new(),
        false => format!(", if the plan says just {}", listed(&own, "or")),
    }
}

/// That a table's value keeps the bounds of a row.
pub fn bounded_words(by: Option<&Value>, bounds: &[Bound], rules: &RuleSet) -> String {
    match by {
        Some(by) => bounded(by, bounds, true, rules),
        None => format!("it is {}", bounds_words(bounds, rules)),
    }
}

/// Puts a clause of several members in quotes, so that a `not` before it covers them all.
fn as_one(clause: &str) -> String {
    match clause.contains(" or ") || clause.contains(" and ") {
        true => format!("“{clause}”"),
        false => clause.to_owned(),
    }
}

/// What a test with a phrase of its own says.
pub enum SoSaid {
    /// Whether there is such a thing, `lock of the gate`: that there is one, or that there is none.
    There(String, bool),
    /// `The building stands on this lot`.
    Clause(String),
}

impl SoSaid {
    /// That it is, must be or is not so.
    pub fn words(&self, verb: &str) -> String {
        match self {
            Self::Clause(clause) if verb == "is" => clause.clone(),
            Self::Clause(clause) => so_words(clause, verb),
            Self::There(thing, is_one) => {
                let bare = verb.replace(" not", "");
                match *is_one == (bare == verb) {
                    true => format!("there {bare} {}", one(thing)),
                    false => format!("there {bare} no {thing}"),
                }
            }
        }
    }
}

/// What a test says that has a phrase of its own: that there is something or is not, that a building stands on this lot.
pub fn so_said(value: &Value, bounds: &[Bound], rules: &RuleSet) -> Option<SoSaid> {
    match (value, bounds) {
        (Value::Fact(fact), [Bound::Is(choices)]) => {
            fact_so_said(rules.vocabulary.fact(*fact), choices)
        }
        (Value::Count(of), [bound]) if !of.term.as_deref().is_some_and(is_plural) => {
            let stated = |value: &Value, amount: &str| matches!(value, Value::Stated(stated) if stated_words(stated) == amount);
            let is_one = match bound {
                Bound::AtLeast(least) if stated(least, "1") => true,
                Bound::MoreThan(least) if stated(least, "0") => true,
                Bound::AtMost(most) if stated(most, "0") => false,
                Bound::LessThan(most) if stated(most, "1") => false,
                _ => return None,
            };
            Some(SoSaid::There(selection_words(of, rules), is_one))
        }
        _ => None,
    }
}

fn fact_so_said(fact: &Fact, choices: &[Choice]) -> Option<SoSaid> {
    match choices {
        [Choice::None] => without(fact).map(|thing| SoSaid::There(thing.to_owned(), false)),
        [Choice::Word(word)] => {
            let stands = fact.said.strip_prefix("ground that ")?;
            Some(SoSaid::Clause(match word.strip_prefix("neighbour-") {
                Some(theirs) => format!("{stands} a neighbour's {theirs}"),
                None if fact.on_the_lot.as_ref() == Some(word) => format!("{stands} this {word}"),
                None => format!("{stands} the {word}"),
            }))
        }
        _ => None,
    }
}

/// `a gap below`, `an opening`.
fn one(thing: &str) -> String {
    match thing.starts_with(['a', 'e', 'i', 'o', 'u']) {
        true => format!("an {thing}"),
        false => format!("a {thing}"),
    }
}

/// What is missing if the fact is `none`; `None` where a question of its own is asked.
fn without(fact: &Fact) -> Option<&str> {
    let superlatives = ["widest ", "greatest "];
    let bare = superlatives
        .iter()
        .find_map(|it| fact.said.strip_prefix(it));
    (fact.phrase == Phrase::Noun).then(|| bare.unwrap_or(&fact.said))
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
fn both(bounds: &[Bound], holds: bool) -> &'static str {
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
