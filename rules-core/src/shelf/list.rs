//! The list of rule sets, for a person looking for their town.

use super::{counted, date};
use crate::report::text::{Page, Style};
use crate::ruleset::{RuleSet, Sort};
use crate::text::{Visible, capitalised};

/// Which rule sets to list, and the day of the request.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Shelf {
    /// Words that must all occur in a rule set's name, title, place, country or matters.
    pub words: Vec<String>,
    /// The day (days since 1970-01-01). Without one, nothing is called overdue.
    pub on: Option<i128>,
}

const LEAD: &str = "After each place comes the name of its rule set, to write after --rules, and below \
                    it everything that the set covers. For anything else, the report says whom to ask.";

/// The rule sets that match: places by country, then codes, topics and examples. Empty if none match.
pub fn listed(sets: &[RuleSet], wanted: &Shelf) -> Visible {
    let sets = sets.iter().filter(|rules| is_wanted(rules, wanted));
    let sets: Vec<&RuleSet> = sets.collect();
    let mut page = Page::new(Style::default());
    if !sets.is_empty() {
        page.paragraph(0, LEAD);
    }
    let headings = [
        ("Places", Some(Sort::Place)),
        ("Codes that places adopt", Some(Sort::Code)),
        ("Topics, whatever the place", Some(Sort::Topic)),
        ("Examples", Some(Sort::Example)),
        ("Others", None),
    ];
    for (heading, sort) in headings {
        let of_sort = sets.iter().filter(|rules| rules.about.sort == sort);
        group(&mut page, heading, of_sort.copied().collect(), wanted);
    }
    page.finish()
}

fn is_wanted(rules: &RuleSet, wanted: &Shelf) -> bool {
    let about = &rules.about;
    let matters = covers(rules);
    let said = [Some(&rules.id), Some(&rules.title), Some(&matters)];
    let said = said
        .into_iter()
        .chain([about.place.as_ref(), about.country.as_ref()]);
    let said: Vec<String> = said.flatten().map(|text| text.to_lowercase()).collect();
    let words = wanted.words.iter().map(|word| word.to_lowercase());
    words
        .into_iter()
        .all(|word| said.iter().any(|text| text.contains(&word)))
}

fn group(page: &mut Page, heading: &str, mut sets: Vec<&RuleSet>, wanted: &Shelf) {
    if sets.is_empty() {
        return;
    }
    sets.sort_by_key(|rules| order(rules));
    page.heading(heading);
    let mut before = None;
    for rules in sets {
        let country = country(rules);
        if before.is_some_and(|before| before != country) {
            page.gap();
        }
        if before != Some(country) && !is_whole_country(rules) && !country.is_empty() {
            page.paragraph(0, country);
        }
        before = Some(country);
        entry(page, rules, wanted);
    }
}

/// Whether it covers a whole country, so that the country need not be named twice.
fn is_whole_country(rules: &RuleSet) -> bool {
    rules.about.place == rules.about.country
}

/// By country, then by place, larger places first: Ontario before its towns.
fn order(rules: &RuleSet) -> (&str, Vec<&str>, &str) {
    let place = rules.about.place.as_deref().unwrap_or_default();
    let country = country(rules);
    let country = country.strip_prefix("The ").unwrap_or(country);
    (country, place.rsplit(", ").collect(), &rules.id)
}

/// The country to group a rule set under; empty if it is not for a place.
fn country(rules: &RuleSet) -> &str {
    let place = rules.about.place.as_ref();
    let country = place.and(rules.about.country.as_deref());
    country.unwrap_or_default()
}

fn entry(page: &mut Page, rules: &RuleSet, wanted: &Shelf) {
    let indent = if is_whole_country(rules) { 0 } else { 2 };
    match &rules.about.place {
        Some(place) => page.paragraph(indent, &format!("{place}: {}", rules.id)),
        None => page.hanging(2, &format!("{}: {}", rules.id, rules.title)),
    }
    let size = size_and_age(rules, wanted.on);
    page.paragraph(
        6,
        &match covers(rules) {
            none if none.is_empty() => format!("{size}."),
            matters => format!("{matters}. {size}."),
        },
    );
}

/// The matters that it covers.
fn covers(rules: &RuleSet) -> String {
    let matters = rules.reach.holds.iter();
    let words: Vec<String> = matters
        .map(|matter| matter.id().replace('-', " "))
        .collect();
    capitalised(&words.join(", "))
}

/// `4 rules, 15 more of barrier-as1926, read 2026-11-29`
fn size_and_age(rules: &RuleSet, on: Option<i128>) -> String {
    let parts = [Some(size(rules)), read(rules), overdue(rules, on)];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    parts.join(", ")
}

fn size(rules: &RuleSet) -> String {
    let own = rules.rules.iter().filter(|rule| rule.layer == 0).count();
    let below: Vec<&str> = rules
        .layers
        .iter()
        .skip(1)
        .map(|it| it.id.as_str())
        .collect();
    let from_others = match rules.rules.len().saturating_sub(own) {
        0 => String::new(),
        more => format!(", {more} more from {}", below.join(" and ")),
    };
    format!("{}{from_others}", counted(own, "rule"))
}

/// The first and last day on which its sources were read.
fn read(rules: &RuleSet) -> Option<String> {
    let (first, last) = rules.read_between()?;
    Some(match first == last {
        true => format!("read {}", date(first)),
        false => format!("read {} to {}", date(first), date(last)),
    })
}

/// How many of its own sources were due to be read again by that day.
fn overdue(rules: &RuleSet, on: Option<i128>) -> Option<String> {
    let on = on?;
    let own = rules.sources.iter().filter(|source| source.layer == 0);
    match own.filter(|source| source.is_overdue(on)).count() {
        0 => None,
        number => Some(format!(
            "{} due to be read again",
            counted(number, "source")
        )),
    }
}
