//! What a rule set needs to know about a plan, and nothing else, in the order in which a person would answer. Each
//! question comes with the rules that ask it and with how to find the answer.
//!
//! It is built from the vocabulary and the rules, so that a form needs no list of its own.

mod model;
mod reads;
mod unasked;

#[cfg(test)]
mod asked_tests;

pub use model::*;
pub use unasked::unasked;

use std::collections::BTreeSet;

use crate::quantity::{Dimension, Unit, show_exactly};
use crate::ruleset::RuleSet;
use crate::vocabulary::{Answer, Fact, FactId, Kind, KindId, Number, OutlineId, Role, Shape};
use reads::{Reader, Reads};

/// What a rule set needs to know.
pub fn asked(rules: &RuleSet) -> Asked {
    let asker = Asker {
        rules,
        reads: reads::of(rules),
    };
    let vocabulary = &rules.vocabulary;
    let kinds = asker.reads.kinds.keys().copied();
    Asked {
        kinds: kinds
            .filter(|kind| !vocabulary.kind(*kind).is_short())
            .map(|kind| asker.kind(kind))
            .collect(),
        questions: asker.facts_of(vocabulary.with_role(Role::Answers)),
        dates: asker.facts_of(vocabulary.with_role(Role::Events)),
        documents: asker.documents(),
    }
}

struct Asker<'r> {
    rules: &'r RuleSet,
    reads: Reads,
}

impl Asker<'_> {
    fn kind(&self, id: KindId) -> AskedKind {
        let kind = self.rules.vocabulary.kind(id);
        let outlines = self.outlines_of(kind);
        AskedKind {
            id: kind.name.clone(),
            said: kind.said.clone(),
            ask: kind.ask.clone(),
            number: match kind.number {
                Number::One => "one",
                Number::AtMostOne => "one-or-none",
                Number::Many => "many",
            },
            part: kind.part.name(),
            seen: kind.seen,
            whom: kind.whom,
            of_a_pool: kind.of_a_pool,
            drawn_as: outlines.first().map(|outline| outline.shape),
            facts: self.facts_of(Some(id)),
            why: self.why(self.reads.kinds.get(&id)),
            outlines,
        }
    }

    fn outlines_of(&self, kind: &Kind) -> Vec<AskedOutline> {
        let read = kind
            .outlines
            .iter()
            .filter(|id| self.reads.outlines.contains_key(*id));
        read.map(|id| self.outline(*id)).collect()
    }

    fn outline(&self, id: OutlineId) -> AskedOutline {
        let outline = self.rules.vocabulary.outline(id);
        AskedOutline {
            id: outline.name.clone(),
            said: outline.said.clone(),
            shape: match outline.shape {
                Shape::Point => "point",
                Shape::Line => "line",
                Shape::Area => "area",
            },
            may_be_none: outline.none,
            why: self.why(self.reads.outlines.get(&id)),
        }
    }

    fn facts_of(&self, kind: Option<KindId>) -> Vec<AskedFact> {
        let facts = kind.map(|kind| self.rules.vocabulary.kind(kind).facts.iter());
        let read = facts.into_iter().flatten();
        let read = read.filter(|id| self.reads.facts.contains_key(*id));
        read.map(|id| self.fact(*id)).collect()
    }

    fn fact(&self, id: FactId) -> AskedFact {
        let fact = self.rules.vocabulary.fact(id);
        let (dimension, words, open) = match &fact.answer {
            Answer::Amount { dimension, .. } => (Some(*dimension), Vec::new(), false),
            Answer::Word { words, open } => (None, words.clone(), *open),
            Answer::YesNo => (None, Vec::new(), false),
        };
        let [least, most] = limits(fact);
        AskedFact {
            id: fact.name.clone(),
            said: fact.said.clone(),
            ask: fact.ask.clone(),
            how: fact.how.clone(),
            answer: match (&fact.answer, dimension) {
                (_, Some(dimension)) => answer(dimension),
                (Answer::YesNo, _) => "yes-no",
                _ => "choice",
            },
            words: words.iter().map(|word| choice(word)).collect(),
            other_words: open,
            unit: dimension.map(|dimension| Unit::usual(dimension).symbol()),
            units: dimension.map(units).unwrap_or_default(),
            may_be_none: fact.none,
            varies: fact.varies,
            least,
            most,
            why: self.why(self.reads.facts.get(&id)),
        }
    }

    fn documents(&self) -> Vec<AskedDocument> {
        let read = self.reads.papers.iter();
        let named = read.filter_map(|(index, who)| Some((self.rules.documents.get(*index)?, who)));
        named
            .map(|(document, who)| AskedDocument {
                id: document.id.clone(),
                title: document.title.clone(),
                from: document.from.clone(),
                form: document.form.clone(),
                discretion: document.discretion,
                why: self.why(Some(who)),
            })
            .collect()
    }

    fn why(&self, who: Option<&BTreeSet<Reader>>) -> Vec<Because> {
        let readers = who.into_iter().flatten();
        let named = readers.filter_map(|reader| self.reads.readers.get(*reader));
        named
            .map(|(rule, title)| Because {
                rule: rule.clone(),
                title: title.clone(),
            })
            .collect()
    }
}

/// The word for an amount of this dimension.
fn answer(dimension: Dimension) -> &'static str {
    match dimension {
        Dimension::Length => "length",
        Dimension::Area => "area",
        Dimension::Volume => "volume",
        Dimension::Mass => "mass",
        Dimension::Voltage => "voltage",
        Dimension::Angle => "angle",
        Dimension::Sound => "sound",
        Dimension::Flow => "flow",
        Dimension::Power => "power",
        Dimension::Load => "load",
        Dimension::Days | Dimension::Months => "time",
        Dimension::Date => "date",
        Dimension::Number => "number",
    }
}

/// The units to write it in. A span may be written in days or in months, whichever the vocabulary uses.
fn units(dimension: Dimension) -> Vec<&'static str> {
    let spans = [Dimension::Days, Dimension::Months];
    let fits =
        |of: Dimension| of == dimension || (spans.contains(&of) && spans.contains(&dimension));
    let all = Unit::ALL.iter().filter(|unit| fits(unit.dimension()));
    all.map(|unit| unit.symbol()).collect()
}

/// The least and the greatest possible amount, printed in the usual unit.
fn limits(fact: &Fact) -> [Option<String>; 2] {
    let Answer::Amount {
        dimension,
        least,
        most,
    } = fact.answer
    else {
        return [None, None];
    };
    [least, most].map(|amount| amount.map(|amount| show_exactly(amount, Unit::usual(dimension))))
}

fn choice(word: &str) -> Choice {
    Choice {
        word: word.to_owned(),
        said: word.replace('-', " "),
    }
}
