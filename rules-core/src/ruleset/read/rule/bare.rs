//! Names and words that stand where a requirement is wanted.

use crate::faults::Code;
use crate::quantity::{Dimension, parse};
use crate::ruleset::read::names::parts;
use crate::ruleset::read::rule::wording::right_word;
use crate::ruleset::read::value::is_amount;
use crate::ruleset::read::{Bound, Reader};
use crate::ruleset::types::{Type, of_fact};
use crate::text::{Entry, in_short};
use crate::vocabulary::{Answer, FactId, Role};

impl Reader<'_> {
    /// Reports a fact that stands as a key, as in `{gate.width: 1 m}`. Returns whether there was one.
    pub(super) fn fact_as_key(&mut self, entries: &[Entry]) -> bool {
        let mut facts = entries
            .iter()
            .filter_map(|entry| Some((entry, self.fact_of_key(&entry.key)?)));
        let Some((entry, name)) = facts.next() else {
            return false;
        };
        let value = in_short(&entry.value);
        let help = match entry.value.text().is_some_and(is_amount) {
            true => format!(
                "Write `fact: {name}`, and beside it the limit, `at-most: {value}` or `at-least: {value}`."
            ),
            false => format!("Write `{{fact: {name}, is: {value}}}`."),
        };
        let message = format!("`{name}` is a fact: it stands after the key `fact`.");
        self.fault(Code::NoRequirement, entry.key_span, message)
            .help(help);
        true
    }

    /// The name of the fact that a key is, which may stand without the kind of the things that are meant here.
    fn fact_of_key(&self, key: &str) -> Option<String> {
        if self.fact_of_name(key).is_some() {
            return Some(key.to_owned());
        }
        let kind = self.around.bound.last()?.kind;
        let fact = self.vocabulary.fact_named(kind, key)?;
        Some(self.vocabulary.fact_path(fact))
    }

    /// What is said of a fact in one line: `septic-part.part is tank`, `pool.depth > 24 in`.
    pub(crate) fn in_one_line(&self, text: &str) -> Option<String> {
        let (name, rest) = text.split_once(' ')?;
        self.fact_of_name(name)?;
        let (sign, value) = rest.trim().split_once(' ')?;
        let key = match sign {
            "is" | "at-least" | "at-most" | "more-than" | "less-than" => sign,
            other => right_word(other)?,
        };
        Some(format!(
            "Write `{{fact: {name}, {key}: {}}}`.",
            value.trim()
        ))
    }

    /// A requirement of the things that are meant here, as an example.
    fn example_here(&self, text: &str) -> String {
        if let Some(distance) = self.distance_meant(text) {
            return distance;
        }
        let kinds = self.around.bound.iter().rev().map(|bound| bound.kind);
        let facts = kinds.flat_map(|kind| self.vocabulary.kind(kind).facts.iter().copied());
        let amount = |fact: &FactId| matches!(of_fact(*fact, &self.vocabulary), Type::Amount(_));
        // How well a line is surveyed is no rule's matter.
        let stated = |fact: &FactId| self.vocabulary.fact(*fact).name != "accuracy";
        let mut facts = facts.filter(amount).filter(stated);
        let path = facts
            .next()
            .map(|fact| (self.vocabulary.fact_path(fact), self.limit_on(fact)));
        let (path, limit) =
            path.unwrap_or_else(|| ("pool.depth".to_owned(), "at-most: 2 m".to_owned()));
        format!("{{fact: {path}, {limit}}}")
    }

    /// The distance that a sentence with a length in it means: what is said to be so far `from` something.
    fn distance_meant(&self, text: &str) -> Option<String> {
        const LINES: [&str; 3] = ["line", "lines", "boundary"];
        let far = ["from", "away", "distance", "to"];
        let words: Vec<&str> = text.split(' ').collect();
        let figure = |word: &&str| is_amount(word);
        let at = words.iter().position(figure)?;
        if !words.iter().any(|word| far.contains(word)) {
            return None;
        }
        let amount = words.get(at..at + 2)?.join(" ");
        parse(&amount, Some(Dimension::Length), None).ok()?;
        let line = |kind: &Bound| Some(kind.kind) == self.vocabulary.with_role(Role::LotLine);
        let lines = words.iter().any(|word| LINES.contains(word));
        (lines || self.around.bound.iter().any(line)).then(|| {
            format!("{{distance: {{from: pool.water, to: lot-line}}, at-least: {amount}}}")
        })
    }

    /// What to write for a word or a sentence where a requirement is wanted.
    pub(super) fn to_hold(&self, text: &str) -> String {
        let asked = self.fact_of_name(text);
        match (asked, self.fact_answered(text)) {
            (Some(fact), _) => format!("Write `{{fact: {text}, {}}}`.", self.limit_on(fact)),
            (None, Some(fact)) => {
                let path = self.vocabulary.fact_path(fact);
                format!("Write `{{fact: {path}, is: {text}}}`.")
            }
            _ if self.term_by_name.contains_key(text) => format!("Write `{{meets: {text}}}`."),
            _ if let Some(write) = self.in_one_line(text) => write,
            _ => format!(
                "Write what must hold, as in `{}`; a paper is asked for with `{{have: consent}}`, and listed under `documents`.",
                self.example_here(text)
            ),
        }
    }

    /// A limit as it may stand beside a fact.
    fn limit_on(&self, fact: FactId) -> String {
        match of_fact(fact, &self.vocabulary) {
            Type::YesNo(_) => "is: yes".to_owned(),
            Type::Word(_) => "is: …".to_owned(),
            Type::Amount(dimension) => {
                let example = dimension.example().split('`').nth(1);
                format!("at-most: {}", example.unwrap_or_default())
            }
        }
    }

    /// The fact, the question or the day of a name.
    fn fact_of_name(&self, name: &str) -> Option<FactId> {
        let vocabulary = &self.vocabulary;
        match parts(name) {
            (head, Some(tail)) => vocabulary.fact_named(vocabulary.kind_named(head)?, tail),
            (name, None) => {
                let mut kinds = vocabulary.short_kinds();
                kinds.find_map(|kind| vocabulary.fact_named(kind, name))
            }
        }
    }

    /// The fact of the things that are meant here of which a word is an answer.
    fn fact_answered(&self, word: &str) -> Option<FactId> {
        let kinds = self.around.bound.iter().rev();
        let mut facts = kinds.flat_map(|bound| &self.vocabulary.kind(bound.kind).facts);
        let answers = |fact: FactId| matches!(&self.vocabulary.fact(fact).answer, Answer::Word { words, .. } if words.iter().any(|it| it == word));
        facts.find(|fact| answers(**fact)).copied()
    }
}
