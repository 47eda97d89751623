//! Bounds: what a value must keep.

use crate::faults::Code;
use crate::grammar::{self, words};
use crate::quantity::{Dimension, parse};
use crate::ruleset::read::names::unknown_facts::led_by_bound;
use crate::ruleset::read::rule::odd_limits::is_share;
use crate::ruleset::read::rule::wording::{right_word, what_to_write};
use crate::ruleset::read::value::{flipped, is_amount};
use crate::ruleset::read::{Reader, listed};
use crate::ruleset::types::{Type, agree, type_of, varies};
use crate::ruleset::{Along, Bound, Choice, Test, Value};
use crate::text::{Content, Entry, MapReader, Node, Span, capitalised, in_short, meant_and};
use crate::vocabulary::{Answer, FactId};

/// In the order of their words.
const ALONG: [Along; 2] = [Along::Anywhere, Along::AllAlong];

/// Makes a bound of its limit.
type MakeBound = fn(Value) -> Bound;

/// The words of a text that are several answers, with a mark, a blank, `or` or `and` between them.
fn several(text: &str) -> Option<Vec<&str>> {
    let words = text.split([' ', ',', ';', '/']);
    let words: Vec<&str> = words
        .filter(|word| !matches!(*word, "" | "or" | "and"))
        .collect();
    (words.len() > 1).then_some(words)
}

/// What to write for a text that is several known words in one.
pub(crate) fn as_list_of<'w>(
    text: &str,
    known: impl Iterator<Item = &'w str> + Clone,
) -> Option<String> {
    let words = several(text)?;
    let all = words.iter().all(|word| known.clone().any(|it| it == *word));
    all.then(|| format!("Several words are a list: write `[{}]`.", words.join(", ")))
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
            let Some(help) = what_to_write(&entry.key) else {
                continue;
            };
            map.refuse([entry.key.as_str()]);
            self.fault(
                Code::WrongWord,
                entry.key_span,
                format!("`{}` is not one of the words of a rule.", entry.key),
            )
            .help(help);
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
                || entries
                    .iter()
                    .any(|entry| what_to_write(&entry.key).is_some())
                || self.misplaced_bound(entries)
                || self.around.bound_outside
                || self.has_others(map);
            if !named {
                self.no_bound(&value, span);
            }
            return None;
        }
        self.contradiction(&value, &bounds, span);
        self.odd_share(&value, &bounds, entries);
        let [holds] = map.keys(&[grammar::HOLDS], self.faults());
        let holds = holds.map(|entry| self.along(entry, &value));
        Some(Test {
            value,
            bounds,
            holds: flipped(holds)?,
            span,
        })
    }

    /// Whether there is a key that no test has; it was probably meant as the bound.
    fn has_others(&mut self, map: &mut MapReader<'a>) -> bool {
        map.know(
            grammar::BOUNDS
                .iter()
                .chain([&grammar::HOLDS])
                .map(|key| key.name),
        );
        map.has_unknown()
    }

    /// Reports bounds that are inside the measure and belong beside it.
    fn misplaced_bound(&mut self, entries: &'a [Entry]) -> bool {
        let within = |entry: &'a Entry| {
            let inner = entry.value.as_map().unwrap_or_default().iter();
            let bound = |inner: &&Entry| grammar::BOUNDS.iter().any(|key| key.name == inner.key);
            Some((entry, inner.into_iter().find(bound)?))
        };
        let Some((measure, bound)) = entries.iter().find_map(within) else {
            return false;
        };
        let (outer, key) = (&measure.key, &bound.key);
        let rest = measure.value.as_map().unwrap_or_default().iter();
        let rest = Node {
            content: Content::Map(rest.filter(|it| it.key != *key).cloned().collect()),
            ..measure.value
        };
        let message = format!("`{key}` stands inside `{outer}`.");
        let help = format!(
            "Put it beside: `{{{outer}: {}, {key}: {}}}`.",
            in_short(&rest),
            in_short(&bound.value)
        );
        self.fault(Code::Misplaced, bound.key_span, message)
            .because_of(bound.key_span)
            .help(help);
        true
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
            bounds.extend(
                written
                    .and_then(|entry| self.limit(entry, sort, value))
                    .map(make),
            );
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

    fn limit(&mut self, entry: &'a Entry, sort: Type, value: &Value) -> Option<Value> {
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
        let text = entry.value.text().unwrap_or_default();
        if is_share(value)
            && parse(text, None, None).is_ok_and(|it| it.dimension == Dimension::Area)
        {
            let message = format!("`{text}` is an area, and this is a share of one.");
            self.fault(Code::BadAmount, entry.value.span, message).help(
                "Write a share, such as `35 %`; if the area itself is meant, take out `share-of`.",
            );
            return None;
        }
        if self.two_limits(entry) {
            return None;
        }
        let limit = self.value(&entry.value, Some(wanted))?;
        match type_of(&limit, &self.vocabulary)? {
            Type::Amount(found) if agree(found, wanted) => Some(limit),
            Type::Amount(found) => {
                if !self.term_without_unit(text, found, wanted) {
                    self.sorts_differ(entry.value.span, found, wanted);
                }
                None
            }
            _ => {
                let message = format!(
                    "{} is expected here, and this is answered with a word.",
                    capitalised(wanted.words())
                );
                let example = wanted.example();
                let help = match self.question_of(wanted) {
                    Some(question) => format!(
                        "Write an amount, such as {example}, or name a question that is answered with one: `{question}`."
                    ),
                    None => {
                        format!("Write an amount, such as {example}, or name a fact that is one.")
                    }
                };
                self.fault(Code::NotAnAmount, entry.value.span, message)
                    .help(help);
                None
            }
        }
    }

    fn choice(&mut self, node: &'a Node, sort: Type, value: &Value) -> Option<Choice> {
        let Some(word) = node.text() else {
            let found = node.describe();
            let message = format!("A word or an amount is expected after `is`, not {found}.");
            self.fault(Code::NotAWord, node.span, message)
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
        if let Some((bound, amount)) = led_by_bound(word) {
            let message = format!("`{word}` is an amount with its bound.");
            self.fault(Code::BadAmount, span, message).help(format!(
                "In place of `is: {word}` write `{bound}: {amount}`."
            ));
            return None;
        }
        if !is_amount(word) {
            let message = format!("`{word}` is not {}.", wanted.words());
            let example = wanted.example();
            let help = match word {
                "yes" | "no" => format!(
                    "In place of `is: {word}` write a limit: `at-most` or `at-least`, with an amount such as {example}."
                ),
                _ => format!("Write it as {example}."),
            };
            self.fault(Code::BadAmount, span, message).help(help);
            return None;
        }
        let stated = self.stated(word, span, Some(wanted))?;
        if stated.dimension != wanted {
            self.sorts_differ(span, stated.dimension, wanted);
            return None;
        }
        Some(Choice::Amount(stated.range.low, stated.unit))
    }

    fn has_word(&self, sort: Type, word: &str) -> bool {
        let Type::Word(fact) = sort else { return false };
        matches!(&self.vocabulary.fact(fact).answer, Answer::Word { words, .. } if words.iter().any(|known| known == word))
    }

    fn none(&mut self, value: &Value, span: Span) -> Option<Choice> {
        let Value::Fact(id) = value else {
            let help = match value {
                Value::Count(_) => "Where there may be none of them, write `is: 0`.",
                _ => "Use `count` to ask whether there are any.",
            };
            self.fault(Code::NeverNone, span, "A measure is never `none`.")
                .help(help);
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
        let path = self.vocabulary.fact_path(id);
        let is_listed = words.iter().any(|known| known == word);
        let words = words.iter().map(String::as_str);
        if open && !is_listed && words.len() > 0 {
            self.unlisted(word, words.clone(), &path, span);
        }
        if open || is_listed {
            return Some(Choice::Word(word.to_owned()));
        }
        let list = format!("Its answers are {}.", listed(words.clone()));
        let several = several(word).filter(|several| {
            several
                .iter()
                .all(|one| words.clone().any(|known| known == *one))
        });
        let denied = word.split_once(' ').filter(|(not, _)| *not == "not");
        let denied = denied.map(|(_, word)| word.trim());
        let denied = denied.filter(|word| words.clone().any(|known| known == *word));
        let list = match (several, denied) {
            (Some(several), _) => {
                format!("Several are a list: `is: [{}]`. {list}", several.join(", "))
            }
            (None, Some(word)) => format!("Write `{{not: {{fact: {path}, is: {word}}}}}`."),
            (None, None) if word.contains(" or ") || word.contains(" and ") => {
                format!("{list} Several are a list: `is: [one, other]`.")
            }
            (None, None) => list,
        };
        let help = meant_and(word, words, list);
        self.fault(
            Code::UnknownWord,
            span,
            format!("`{word}` is not an answer to `{path}`."),
        )
        .help(help);
        None
    }

    /// Reports a word that is not on the list of an open fact: a plan that uses another word does not meet it.
    fn unlisted<'w>(
        &mut self,
        word: &str,
        words: impl Iterator<Item = &'w str> + Clone,
        path: &str,
        span: Span,
    ) {
        let list = format!("Its words are {}.", listed(words.clone()));
        let other = "If none of them fits, add a fact of your own with its words, so that every applicant is asked.";
        let help = as_list_of(word, words.clone())
            .unwrap_or_else(|| format!("{} {other}", meant_and(word, words, list)));
        self.warning(
            Code::UnlistedWord,
            span,
            format!("`{word}` is not one of the listed words of `{path}`, so a plan that says it in another word is not caught."),
        )
        .help(help);
    }
}
