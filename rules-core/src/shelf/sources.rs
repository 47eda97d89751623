//! What the values of a rule set rest on, source by source, best first.

use std::collections::BTreeMap;

use super::{counted, date};
use crate::report::text::{Page, Style};
use crate::ruleset::words::listed;
use crate::ruleset::{Grade, Holder, Rule, RuleSet, Source, SourcedValue};
use crate::text::Visible;
use crate::words::Language;

/// How many values there are of each grade.
pub type Tally = BTreeMap<Grade, usize>;

/// How many values there are of each grade, with a zero for a grade that has none.
pub fn tally(values: &[SourcedValue<'_>]) -> Tally {
    let none = Grade::ALL.into_iter().map(|grade| (grade, 0));
    let mut tally: Tally = none.collect();
    for value in values {
        *tally.entry(value.grade).or_default() += 1;
    }
    tally
}

/// All sources of a rule set by grade, each with the values that rest on it, and a total. `on` is the day of the
/// request (a number of days since 1970-01-01); without one, nothing is called overdue.
pub fn sources_listed(rules: &RuleSet, on: Option<i128>) -> Visible {
    let mut page = Page::new(Style::default());
    page.paragraph(0, &format!("{}, edition {}", rules.title, rules.edition));
    let values = rules.sourced_values();
    for grade in Grade::ALL {
        graded(&mut page, rules, grade, (&values, on));
    }
    unsourced(&mut page, &values);
    page.heading("In all");
    for line in sum(&values) {
        page.hanging(2, &line);
    }
    page.finish()
}

type Asked<'v, 'r> = (&'v [SourcedValue<'r>], Option<i128>);

fn graded(page: &mut Page, rules: &RuleSet, grade: Grade, asked: Asked<'_, '_>) {
    let sources = rules.sources.iter().enumerate();
    let of_grade: Vec<_> = sources.filter(|(_, one)| one.grade == grade).collect();
    if of_grade.is_empty() {
        return;
    }
    page.heading(heading(grade));
    for (number, (place, _)) in of_grade.into_iter().enumerate() {
        if number > 0 {
            page.gap();
        }
        one_source(page, rules, place, asked);
    }
}

fn one_source(page: &mut Page, rules: &RuleSet, place: usize, (values, on): Asked<'_, '_>) {
    let Some(source) = rules.sources.get(place) else {
        return;
    };
    page.hanging(2, &source.title);
    if let Some(at) = &source.at {
        page.paragraph(4, at);
    }
    page.paragraph(4, &age(source, on));
    if let Some(note) = &source.note {
        page.paragraph(4, &format!("Note: {note}"));
    }
    for value in values {
        let rule = rule_of(rules, value);
        for cited in value.cited.iter().filter(|one| one.source == place) {
            let clause = cited.clause.as_deref();
            let resting = resting(value, clause.or(rule.map(|rule| rule.clause.as_str())));
            page.item(4, "- ", &(resting + &compared_again(rule, on)));
        }
    }
}

/// The rule that a value belongs to.
fn rule_of<'r>(rules: &'r RuleSet, value: &SourcedValue<'_>) -> Option<&'r Rule> {
    let of_rule = (value.holder == Holder::Rule).then_some(value.id)?;
    rules.rules.iter().find(|rule| rule.id == of_rule)
}

/// When a rule itself says that it is to be compared with its sources again.
fn compared_again(rule: Option<&Rule>, on: Option<i128>) -> String {
    let said = |day| match on.is_some_and(|on| on > day) {
        true => format!("; overdue since {}", date(day)),
        false => format!("; to be compared again after {}", date(day)),
    };
    let day = rule.and_then(|rule| rule.again);
    day.map(said).unwrap_or_default()
}

/// When it was read, and when it is due to be read again.
fn age(source: &Source, on: Option<i128>) -> String {
    let read = match source.read {
        Some(day) => format!("Read on {}", date(day)),
        None => "Nobody noted when it was read".to_owned(),
    };
    let overdue = on.is_some_and(|on| source.is_overdue(on));
    let again = source.again.map(|day| match overdue {
        true => format!("; overdue since {}", date(day)),
        false => format!("; due to be read again after {}", date(day)),
    });
    format!("{read}{}.", again.unwrap_or_default())
}

/// ``rule `height`, s. 305.2.1: 48 in``
fn resting(value: &SourcedValue<'_>, clause: Option<&str>) -> String {
    let clause = clause.map(|clause| format!(", {clause}"));
    let which = value.value.map(|value| format!(": {value}"));
    format!(
        "{} `{}`{}{}",
        value.holder.word(),
        value.id,
        clause.unwrap_or_default(),
        which.unwrap_or_default()
    )
}

fn unsourced(page: &mut Page, values: &[SourcedValue<'_>]) {
    let unsourced = values.iter().filter(|value| value.cited.is_empty());
    let unsourced: Vec<_> = unsourced.collect();
    if unsourced.is_empty() {
        return;
    }
    page.heading("No source is named, so it counts as from memory");
    for value in unsourced {
        page.item(4, "- ", &resting(value, None));
    }
}

fn sum(values: &[SourcedValue<'_>]) -> Vec<String> {
    if values.is_empty() {
        return vec!["No value in it names a source.".to_owned()];
    }
    let tally = tally(values);
    let number = |grade: &Grade| tally.get(grade).copied().unwrap_or_default();
    let each = Grade::ALL.iter().filter(|grade| number(grade) > 0);
    let each: Vec<String> = each
        .map(|grade| {
            format!(
                "{} {}",
                number(grade),
                grade.origin().in_language(Language::English)
            )
        })
        .collect();
    let whole = counted(values.len(), "value");
    vec![format!("{whole}: {}.", listed(&each, "and"))]
}

fn heading(grade: Grade) -> &'static str {
    match grade {
        Grade::Law => "The law (law)",
        Grade::Authority => "A page of the office that applies it (authority)",
        Grade::Copy => "The law's text, kept by somebody else (copy)",
        Grade::Restatement => "The law in somebody else's words (restatement)",
        Grade::Trade => "What the trade says (trade)",
        Grade::Memory => "Nobody looked it up (memory)",
    }
}
