//! Bounds: what a value must keep.

use crate::faults::Code;
use crate::grammar::{self, words};
use crate::quantity::Dimension;
use crate::ruleset::read::value::{flipped, is_amount};
use crate::ruleset::read::{Reader, listed};
use crate::ruleset::types::{Type, agree, type_of, varies};
use crate::ruleset::{Along, Bound, Choice, Test, Value};
use crate::text::{Entry, MapReader, Node, Span, capitalised, meant_and};
use crate::vocabulary::{Answer, FactId};

/// In the order of their words.
const ALONG: [Along; 2] = [Along::Anywhere, Along::AllAlong];

/// Makes a bound of its limit.
type MakeBound = fn(Value) -> Bound;

/// Words that are not ours, and the ones to use. Over and under are read as above and beneath.
const WRONG: [(&str, &str); 30] = [
    ("over", "more-than"),
    ("above", "more-than"),
    ("greater-than", "more-than"),
    ("exceeds", "more-than"),
    ("longer-than", "more-than"),
    ("after", "more-than"),
    ("under", "less-than"),
    ("below", "less-than"),
    ("smaller-than", "less-than"),
    ("fewer-than", "less-than"),
    ("before", "less-than"),
    ("min", "at-least"),
    ("minimum", "at-least"),
    ("not-less-than", "at-least"),
    ("no-less-than", "at-least"),
    ("max", "at-most"),
    ("maximum", "at-most"),
    ("up-to", "at-most"),
    ("not-more-than", "at-most"),
    ("no-more-than", "at-most"),
    ("equals", "is"),
    ("equal-to", "is"),
    ("exactly", "is"),
    ("one-of", "is"),
    ("all", "all-of"),
    ("and", "all-of"),
    ("any", "any-of"),
    ("or", "any-of"),
    ("either", "any-of"),
    ("document", "have"),
];

/// The word to use instead of one that is not ours.
pub(crate) fn right_word(word: &str) -> Option<&'static str> {
    let word = word.replace('_', "-");
    WRONG
        .iter()
        .find(|(wrong, _)| *wrong == word)
        .map(|(_, right)| *right)
}

/// Whether a map has a bound, by its right name or a wrong one.
pub(crate) fn is_bounded(entries: &[Entry]) -> bool {
    let bound = |key: &str| grammar::BOUNDS.iter().any(|known| known.name == key);
    entries
        .iter()
        .any(|entry| bound(right_word(&entry.key).unwrap_or(&entry.key)))
}

impl<'a> Reader<'a> {
    /// Says which word to use for each that is not ours.
    pub(crate) fn wrong_words(&mut self, map: &mut MapReader<'a>, entries: &'a [Entry]) {
        for entry in entries {
            let Some(right) = right_word(&entry.key) else {
                continue;
            };
            map.refuse([entry.key.as_str()]);
            self.fault(
                Code::WrongWord,
                entry.key_span,
                format!("`{}` is not one of the words of a rule.", entry.key),
            )
            .help(format!("Write `{right}`."));
        }
    }

    /// A value with the bounds that stand beside it.
    pub(crate) fn test(
        &mut self,
        map: &mut MapReader<'a>,
        value: Option<Value>,
        entries: &'a [Entry],
    ) -> Option<Test> {
        let Some(value) = value else {
            map.keys(&grammar::BOUNDS, self.faults());
            return None;
        };
        let before = self.faults().list.len();
        let bounds = self.bounds(map, &value);
        let span = map.span();
        if bounds.is_empty() {
            // A wrong word for the bound has been named already.
            let named = self.faults().list.len() > before
                || is_bounded(entries)
                || map.misspells(grammar::BOUNDS.map(|key| key.name))
                || entries.iter().any(|entry| right_word(&entry.key).is_some());
            if !named {
                self.no_bound(&value, span);
            }
            return None;
        }
        self.contradiction(&value, &bounds, span);
        let [holds] = map.keys(&[grammar::HOLDS], self.faults());
        let holds = holds.map(|entry| self.along(entry, &value));
        Some(Test {
            value,
            bounds,
            holds: flipped(holds)?,
            span,
        })
    }

    /// Where along a thing a value must keep its bounds.
    fn along(&mut self, entry: &'a Entry, value: &Value) -> Option<Along> {
        let along = self.word_of(entry, words(&grammar::ALONG), ALONG)?;
        if !varies(value, &self.vocabulary) {
            let message = "This value is the same all along the thing.";
            self.fault(Code::DoesNotVary, entry.key_span, message)
                .help("Leave `holds` out: it says where along a thing a height and the like must be kept.");
            return None;
        }
        Some(along)
    }

    fn no_bound(&mut self, value: &Value, span: Span) {
        let help = match type_of(value, &self.vocabulary) {
            Some(Type::Word(_)) => "Add `is:` with a word or a list of words.",
            Some(Type::YesNo(_)) => "Add `is: yes` or `is: no`.",
            _ => "Add `at-least`, `at-most`, `more-than`, `less-than` or `is`.",
        };
        self.fault(
            Code::NoBound,
            span,
            "Nothing says what this value must keep.",
        )
        .help(help);
    }

    /// All bounds beside a value, which may be several.
    pub(crate) fn bounds(&mut self, map: &mut MapReader<'a>, value: &Value) -> Vec<Bound> {
        let Some(sort) = type_of(value, &self.vocabulary) else {
            return Vec::new();
        };
        let mut bounds = Vec::new();
        let [at_least, at_most, more_than, less_than, is] =
            map.keys(&grammar::BOUNDS, self.faults());
        let compared: [(_, MakeBound); 4] = [
            (at_least, Bound::AtLeast),
            (at_most, Bound::AtMost),
            (more_than, Bound::MoreThan),
            (less_than, Bound::LessThan),
        ];
        for (written, make) in compared {
            bounds.extend(written.and_then(|entry| self.limit(entry, sort)).map(make));
        }
        if let Some(entry) = is {
            let nodes = entry
                .value
                .as_list()
                .unwrap_or(std::slice::from_ref(&entry.value));
            let choices: Option<Vec<_>> = nodes
                .iter()
                .map(|node| self.choice(node, sort, value))
                .collect::<Vec<_>>()
                .into_iter()
                .collect();
            if choices.as_ref().is_some_and(Vec::is_empty) {
                self.fault(Code::EmptyValue, entry.value.span, "`is` names no answer.");
            }
            bounds.extend(choices.map(Bound::Is));
        }
        bounds
    }

    fn limit(&mut self, entry: &'a Entry, sort: Type) -> Option<Value> {
        let Type::Amount(wanted) = sort else {
            self.fault(
                Code::NotAnAmount,
                entry.key_span,
                format!(
                    "`{}` compares amounts, and this is answered with a word.",
                    entry.key
                ),
            )
            .help("Use `is` with a word or a list of words.");
            return None;
        };
        let limit = self.value(&entry.value, Some(wanted))?;
        match type_of(&limit, &self.vocabulary)? {
            Type::Amount(found) if agree(found, wanted) => Some(limit),
            Type::Amount(found) => {
                self.sorts_differ(entry.value.span, found, wanted);
                None
            }
            _ => {
                let message = format!(
                    "{} is expected here, and this is answered with a word.",
                    capitalised(wanted.words())
                );
                self.fault(Code::NotAnAmount, entry.value.span, message);
                None
            }
        }
    }

    fn choice(&mut self, node: &'a Node, sort: Type, value: &Value) -> Option<Choice> {
        let Some(word) = node.text() else {
            self.fault(
                Code::NotAWord,
                node.span,
                format!(
                    "A word or an amount is expected after `is`, not {}.",
                    node.describe()
                ),
            )
            .help("Write one of them, or one list of them: `is: [one, other]`.");
            return None;
        };
        if word == "none" && !self.has_word(sort, word) {
            return self.none(value, node.span);
        }
        match sort {
            Type::Amount(wanted) => self.amount_choice(word, node.span, wanted),
            Type::YesNo(_) => self
                .yes_no(node)
                .map(|answer| Choice::Word(if answer { "yes" } else { "no" }.to_owned())),
            Type::Word(fact) => self.word_choice(word, node.span, fact),
        }
    }

    fn amount_choice(&mut self, word: &str, span: Span, wanted: Dimension) -> Option<Choice> {
        if !is_amount(word) {
            self.fault(
                Code::BadAmount,
                span,
                format!("`{word}` is not {}.", wanted.words()),
            )
            .help(format!("Write it as {}.", wanted.example()));
            return None;
        }
        let stated = self.stated(word, span, Some(wanted))?;
        if stated.dimension != wanted {
            self.sorts_differ(span, stated.dimension, wanted);
            return None;
        }
        Some(Choice::Amount(stated.range.low, stated.dimension))
    }

    fn has_word(&self, sort: Type, word: &str) -> bool {
        let Type::Word(fact) = sort else { return false };
        matches!(&self.vocabulary.fact(fact).answer, Answer::Word { words, .. } if words.iter().any(|known| known == word))
    }

    fn none(&mut self, value: &Value, span: Span) -> Option<Choice> {
        let Value::Fact(id) = value else {
            self.fault(Code::NeverNone, span, "A measure is never `none`.")
                .help("Use `count` to ask whether there are any.");
            return None;
        };
        if self.vocabulary.fact(*id).none {
            return Some(Choice::None);
        }
        let path = self.vocabulary.fact_path(*id);
        self.fault(
            Code::NeverNone,
            span,
            format!("`{path}` always has a value; it is never `none`."),
        )
        .help("Take `none` out, and say what the value must be.");
        None
    }

    fn word_choice(&mut self, word: &str, span: Span, id: FactId) -> Option<Choice> {
        let fact = self.vocabulary.fact(id);
        let Answer::Word { words, open } = fact.answer.clone() else {
            return None;
        };
        if open || words.iter().any(|known| known == word) {
            return Some(Choice::Word(word.to_owned()));
        }
        let path = self.vocabulary.fact_path(id);
        let words = words.iter().map(String::as_str);
        let list = format!("Its answers are {}.", listed(words.clone()));
        let help = meant_and(word, words, list);
        self.fault(
            Code::UnknownWord,
            span,
            format!("`{word}` is not an answer to `{path}`."),
        )
        .help(help);
        None
    }

    /// Two bounds that no amount can keep.
    fn contradiction(&mut self, value: &Value, bounds: &[Bound], span: Span) {
        if crate::ruleset::lint::coverage::impossible(value, bounds, &self.vocabulary) {
            self.fault(
                Code::Contradiction,
                span,
                "Nothing can keep all of these limits at once.",
            )
            .help("Is one of them the wrong way round?");
        }
    }
}
