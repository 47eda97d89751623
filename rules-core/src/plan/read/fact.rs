//! What is stated of a fact.

use std::collections::BTreeSet;
use std::sync::Arc;

use super::super::{Amount, Possible, Words};
use super::context::{Context, guess};
use crate::faults::Code;
use crate::grammar::plan::POSSIBLE;
use crate::quantity::{
    Dimension, Interval, NO_HIGH, NO_LOW, Unit, Written, in_one_dimension, parse, show_exactly,
};
use crate::text::{Entry, Help, MapReader, Node, Span, is_one_slip_off, yes_no};
use crate::vocabulary::{Answer, Fact, FactId};

impl<'a> Context<'a> {
    /// What a fact can still be. `None` where nothing is known of it, or what is written is at fault.
    pub fn fact(&mut self, id: FactId, entry: &'a Entry) -> Option<Possible> {
        let vocabulary = self.vocabulary;
        let fact = vocabulary.fact(id);
        if entry.value.is_empty() {
            let message = format!("Nothing is written after `{}`.", fact.name);
            self.faults
                .add(Code::EmptyValue, entry.key_span, message)
                .help("Write `unknown` where nobody knows, or leave the line out.");
            return None;
        }
        let possible = self.possible(fact, &entry.value)?;
        let span = Some(entry.value.span);
        Some(Possible { span, ..possible })
    }

    fn possible(&mut self, fact: &'a Fact, node: &'a Node) -> Option<Possible> {
        if node.as_map().is_some() {
            return self.possible_map(fact, node);
        }
        match node.text() {
            Some("unknown") => None,
            Some("none") => self.none(fact, node),
            _ => self.known(fact, node),
        }
    }

    /// There is no plan without this.
    pub(super) fn never_none(&mut self, what: &str, span: Span) {
        let message = format!("`none` makes no sense for {what}: there always is one.");
        self.faults
            .add(Code::NoneNotPossible, span, message)
            .help("Write `unknown` where nobody knows.");
    }

    fn none(&mut self, fact: &Fact, node: &Node) -> Option<Possible> {
        if !fact.none {
            self.never_none(&fact.phrase(), node.span);
            return None;
        }
        let none = true;
        Some(Possible {
            none,
            ..Possible::default()
        })
    }

    fn known(&mut self, fact: &'a Fact, node: &'a Node) -> Option<Possible> {
        match &fact.answer {
            Answer::Amount { dimension, .. } => self.known_amount(fact, node, *dimension),
            Answer::Word { words, open } => self.known_word(fact, node, words, *open),
            Answer::YesNo => match yes_no(node) {
                Ok(yes) => Some(words_of([if yes { "yes" } else { "no" }])),
                Err(fault) => {
                    self.faults.list.push(fault);
                    None
                }
            },
        }
    }

    fn known_amount(
        &mut self,
        fact: &'a Fact,
        node: &'a Node,
        dimension: Dimension,
    ) -> Option<Possible> {
        if self.in_other_words(&fact.name, node, dimension) {
            return None;
        }
        let written = self.amount(&fact.name, node, dimension)?;
        let least = self.within_limits(fact, node, &written)?;
        Some(amount_of(Amount {
            least,
            most: None,
            drawn: written.drawn.map(|drawn| (drawn, drawn)),
            dimension: written.dimension,
            unit: Some(written.unit),
        }))
    }

    /// Reports a range or a rough amount that is written in other words than here. Returns whether it is one.
    fn in_other_words(&mut self, key: &str, node: &Node, of: Dimension) -> bool {
        let reads = |text: &str| parse(text, Some(of), self.unit).is_ok();
        let text = node.text().unwrap_or_default();
        let range = as_range(text).filter(|range| !reads(text) && reads(range));
        let rough = roughly(text).filter(|amount| reads(amount));
        let help = match (range, rough) {
            (Some(range), _) => format!("What lies somewhere between is written `{range}`."),
            (_, Some(amount)) => format!(
                "Write how far off it may be behind it, as in `{amount} ± 100 mm`, or between what it lies, as in `1.4 m .. 1.6 m`."
            ),
            _ => return false,
        };
        let message = format!("In `{key}`, `{text}` is not how an amount is written here.");
        self.faults
            .add(Code::BadAmount, node.span, message)
            .help(help);
        true
    }

    fn known_word(
        &mut self,
        fact: &Fact,
        node: &'a Node,
        words: &[String],
        open: bool,
    ) -> Option<Possible> {
        let text = self.scalar(&fact.name, node)?;
        let known = words.iter().map(String::as_str);
        let other_spelling =
            |word: &&str| plain(word) == plain(text) || is_one_slip_off(text, word);
        let own_name = self.vocabulary.kind(fact.kind).also.contains(&text);
        if words.iter().any(|word| word == text)
            || (open && !own_name && !known.clone().any(|word| other_spelling(&word)))
        {
            return Some(words_of([text]));
        }
        let message = format!("`{text}` is not a word for {}.", fact.phrase());
        let help = match known.clone().find(other_spelling) {
            Some(word) => Help::near(Some(word.to_owned()), ""),
            None => guess(text, known, "The words here are"),
        };
        self.faults
            .add(Code::UnknownWord, node.span, message)
            .help(help);
        None
    }

    /// `{from: 46 in, to: 50 in}` along the thing, or `{one-of: [a, b]}`.
    fn possible_map(&mut self, fact: &'a Fact, node: &'a Node) -> Option<Possible> {
        let mut map = MapReader::new(node, &fact.said, &mut self.faults)?;
        let [one_of, from, to] = map.keys(&POSSIBLE.keys, &mut self.faults);
        let misspelt = map.misspells(POSSIBLE.keys.iter().map(|key| key.name));
        map.finish(&mut self.faults);
        match (one_of, from, to) {
            (Some(one_of), None, None) => self.one_of(fact, &one_of.value),
            (None, Some(from), Some(to)) => self.along(fact, node, (&from.value, &to.value)),
            _ if misspelt => None,
            _ => {
                self.faults
                    .add(
                        Code::HalfARange,
                        node.span,
                        format!("There is only half of a range here for {}.", fact.phrase()),
                    )
                    .help("Write both `from` and `to`, or `one-of` with a list.");
                None
            }
        }
    }

    fn one_of(&mut self, fact: &'a Fact, node: &'a Node) -> Option<Possible> {
        let choices = node.as_list().filter(|choices| !choices.is_empty());
        let Some(choices) = choices else {
            self.faults
                .add(
                    Code::EmptyOneOf,
                    node.span,
                    "`one-of` needs a list with at least one entry.",
                )
                .help("Write what it may still be: `{one-of: [pool, outside]}`.");
            return None;
        };
        let read: Vec<_> = choices
            .iter()
            .map(|choice| self.choice(fact, choice))
            .collect();
        read.into_iter()
            .try_fold(Possible::default(), |all, one| Some(either(all, one?)))
    }

    fn choice(&mut self, fact: &'a Fact, node: &'a Node) -> Option<Possible> {
        match node.text() {
            Some("none") => self.none(fact, node),
            // What may also be unknown is unknown.
            Some("unknown") => None,
            _ => self.known(fact, node),
        }
    }

    fn along(
        &mut self,
        fact: &'a Fact,
        node: &'a Node,
        (from, to): (&'a Node, &'a Node),
    ) -> Option<Possible> {
        let Answer::Amount { dimension, .. } = fact.answer else {
            let message = format!(
                "`from` and `to` make no sense for {}: it is not an amount.",
                fact.phrase()
            );
            self.faults
                .add(Code::DoesNotVary, node.span, message)
                .help("Write `one-of` with a list.");
            return None;
        };
        if !fact.varies {
            let message = format!("The {} does not change along the thing.", fact.said);
            let help = "Write one amount; `1.2 m .. 1.4 m` where it lies somewhere between.";
            self.faults
                .add(Code::DoesNotVary, node.span, message)
                .help(help);
            return None;
        }
        let (least, most) = (
            self.end(fact, from, dimension),
            self.end(fact, to, dimension),
        );
        let ((least, low), (most, high)) = (least?, most?);
        if least.dimension != most.dimension {
            let message = format!("The {} goes from days to months.", fact.said);
            self.faults
                .add(Code::UnlikeAmounts, node.span, message)
                .help("Write both in days, or both in months.");
            return None;
        }
        if high.high < low.low {
            let message = format!("The {} goes from more to less.", fact.said);
            self.faults
                .add(Code::WrongWayRound, node.span, message)
                .help("Write the lesser amount after `from`.");
            return None;
        }
        Some(amount_of(Amount {
            least: low,
            most: Some(high),
            drawn: least.drawn.zip(most.drawn),
            dimension: least.dimension,
            unit: Some(least.unit),
        }))
    }

    fn end(&mut self, fact: &Fact, node: &'a Node, of: Dimension) -> Option<(Written, Interval)> {
        let written = self.amount(&fact.name, node, of)?;
        let range = self.within_limits(fact, node, &written)?;
        Some((written, range))
    }

    /// What is left of a stated range within what can be; a figure that is too far off to be meant is a fault.
    fn within_limits(&mut self, fact: &Fact, node: &Node, written: &Written) -> Option<Interval> {
        let [limits, possible] = limits(fact, written.dimension);
        let drawn = written.drawn.is_none_or(|drawn| limits.contains(drawn));
        let meant = drawn && written.range.meet(limits).is_some();
        let left = written.range.meet(possible).filter(|_| meant);
        if left.is_none() {
            let text = node.text().unwrap_or_default();
            let message = format!("`{text}` cannot be {}.", fact.phrase());
            self.faults
                .add(Code::BeyondLimits, node.span, message)
                .help(between(limits, written));
        }
        left
    }
}

/// What can be meant, and what can be; limits in days say nothing of months.
fn limits(fact: &Fact, dimension: Dimension) -> [Interval; 2] {
    match fact.answer {
        Answer::Amount {
            dimension: of,
            least,
            most,
        } if of == dimension => {
            let meant = Interval {
                low: least.unwrap_or(NO_LOW),
                high: most.unwrap_or(NO_HIGH),
            };
            [meant, fact.answer.possible()]
        }
        _ => [Interval::any(); 2],
    }
}

fn between(limits: Interval, written: &Written) -> String {
    let shown = |amount| show_exactly(amount, written.unit);
    format!(
        "It lies between {} and {}; look at the figure and its unit again.",
        shown(limits.low),
        shown(limits.high)
    )
}

fn amount_of(amount: Amount) -> Possible {
    let amount = Some(amount);
    Possible {
        amount,
        ..Possible::default()
    }
}

/// One of these words.
pub(super) fn words_of<'w>(words: impl IntoIterator<Item = &'w str>) -> Possible {
    let words: BTreeSet<_> = words.into_iter().map(str::to_owned).collect();
    let words = Some(Arc::new(Words::OneOf(words)));
    Possible {
        words,
        ..Possible::default()
    }
}

/// What is possible if one or the other is.
fn either(all: Possible, one: Possible) -> Possible {
    let amount = match (all.amount, one.amount) {
        (Some(a), Some(b)) => Some(either_amount(a, b)),
        (a, b) => a.or(b),
    };
    let words = match (all.words.as_deref(), one.words.as_deref()) {
        (Some(Words::OneOf(a)), Some(Words::OneOf(b))) => Some(Arc::new(Words::OneOf(a | b))),
        _ => all.words.or(one.words),
    };
    let amount = amount.map(|amount| Amount {
        drawn: amount.drawn.filter(|_| !all.none && !one.none),
        ..amount
    });
    Possible {
        none: all.none || one.none,
        amount,
        words,
        span: None,
    }
}

/// All between two amounts: in days where one is in days and the other in months.
fn either_amount(one: Amount, other: Amount) -> Amount {
    let (least, dimension) =
        match in_one_dimension((one.least, one.dimension), (other.least, other.dimension)) {
            Some((a, b, dimension)) => (a.hull(b), dimension),
            None => (Interval::any(), one.dimension),
        };
    let own = |unit: &Unit| unit.dimension() == dimension;
    Amount {
        least,
        most: None,
        drawn: None,
        dimension,
        unit: one.unit.filter(own).or(other.unit.filter(own)),
    }
}

/// A range that is written as `1.5-1.8 m` or `1.5 to 1.8 m`, as it is written here.
fn as_range(text: &str) -> Option<String> {
    let around = [" to ", " and ", "-", "–"];
    let (from, to) = around.iter().find_map(|mark| text.split_once(mark))?;
    let from = from.trim().trim_start_matches("between ");
    let figure = |text: &str| text.starts_with(|c: char| c.is_ascii_digit());
    let to = to.trim();
    if !figure(from) || !figure(to) {
        return None;
    }
    let unit = to
        .trim_start_matches(|c: char| c.is_ascii_digit() || c == '.')
        .trim();
    let bare = from.chars().all(|c| c.is_ascii_digit() || c == '.');
    Some(match bare && !unit.is_empty() {
        true => format!("{from} {unit} .. {to}"),
        false => format!("{from} .. {to}"),
    })
}

/// The amount of a text that says it is a rough one.
fn roughly(text: &str) -> Option<&str> {
    const ROUGH: [&str; 7] = [
        "about ",
        "approx. ",
        "approx ",
        "approximately ",
        "ca. ",
        "around ",
        "~",
    ];
    ROUGH
        .iter()
        .find_map(|word| text.strip_prefix(word))
        .map(str::trim)
}

/// A word without what people spell in different ways.
fn plain(word: &str) -> String {
    word.trim().to_lowercase().replace(['_', ' '], "-")
}
