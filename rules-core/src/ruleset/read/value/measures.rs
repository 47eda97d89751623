//! What is measured on the plan: distances, areas, lengths, barriers, sound.

use crate::faults::Code;
use crate::grammar::{self, PERIODS, measure_named, words};
use crate::quantity::Dimension;
use crate::ruleset::read::Reader;
use crate::ruleset::read::names::parts;
use crate::ruleset::read::names::terms::Known;
use crate::ruleset::read::value::{flipped, is_amount};
use crate::ruleset::types::{Type, type_of};
use crate::ruleset::{
    Area, Distance, Enclosure, Measured, Operand, Part, Places, ShareOf, Sound, Value,
};
use crate::text::{Entry, Node, Span, meant_and};

/// In the order of their words.
const MEASURED: [Measured; 4] = [
    Measured::Level,
    Measured::InSpace,
    Measured::Plumb,
    Measured::Walking,
];

impl<'a> Reader<'a> {
    pub(crate) fn distance(&mut self, node: &'a Node) -> Option<Distance> {
        let [from, to, measured, farthest] = self.keys(node, &grammar::DISTANCE)?;
        let [from, to] = [from, to].map(|end| self.written(end, Self::operand));
        let how = measured.map(|entry| self.word_of(entry, words(&grammar::MEASURED), MEASURED));
        let places = self.places(farthest);
        let (from, to) = (from?, to?);
        if places == Places::Nearest {
            self.warn_of_the_whole_lot((&from, &to), node.span);
        }
        Some(Distance {
            from,
            to,
            how: flipped(how)?.unwrap_or(Measured::Level),
            places,
        })
    }

    /// Asks whether the lot's lines are meant where a pool's distance to the lot's whole area is taken: it is 0 for every
    /// pool on the lot.
    fn warn_of_the_whole_lot(&mut self, (from, to): (&Operand, &Operand), span: Span) {
        let vocabulary = &self.vocabulary;
        let kind = |part: &Part| vocabulary.outline(part.outline).kind;
        let pool = vocabulary.kind_named("pool");
        let lot = vocabulary.kind_named("lot");
        let area = lot.and_then(|lot| vocabulary.outline_named(lot, "boundary"));
        let of_pool = |end: &Operand| end.parts.iter().any(|part| Some(kind(part)) == pool);
        let of_lot = |end: &Operand| end.parts.iter().any(|part| Some(part.outline) == area);
        if !(of_pool(from) && of_lot(to) || of_lot(from) && of_pool(to)) {
            return;
        }
        self.warning(
            Code::DistanceToTheLot,
            span,
            "`lot.boundary` is the whole lot as an area: a pool on the lot is always 0 m from it.",
        )
        .help("Write `lot-line` for the distance to the lot's lines.");
    }

    /// `farthest: yes`, or `farthest: from` for the farthest part of `from`.
    fn places(&mut self, farthest: Option<&'a Entry>) -> Places {
        match farthest {
            Some(entry) if entry.value.text() == Some("from") => Places::FarthestOfFirst,
            Some(entry) if self.yes_no(&entry.value) == Some(true) => Places::Farthest,
            _ => Places::Nearest,
        }
    }

    /// One of some words of the grammar: what stands at its place among the meanings.
    pub(crate) fn word_of<T: Copy, const N: usize>(
        &mut self,
        entry: &'a Entry,
        words: [&str; N],
        meanings: [T; N],
    ) -> Option<T> {
        let word = self.text(entry)?;
        let known = words
            .iter()
            .zip(meanings)
            .find(|(known, _)| **known == word);
        if known.is_none() {
            self.unknown_word(word, entry.value.span, words.into_iter());
        }
        known.map(|(_, meaning)| meaning)
    }

    pub(crate) fn unknown_word<'w>(
        &mut self,
        word: &str,
        span: Span,
        known: impl Iterator<Item = &'w str> + Clone,
    ) {
        let list = format!(
            "The words here are {}.",
            crate::ruleset::read::listed(known.clone())
        );
        let help = meant_and(word, known, list);
        self.fault(
            Code::UnknownWord,
            span,
            format!("`{word}` is not one of the words that can stand here."),
        )
        .help(help);
    }

    pub(crate) fn area(&mut self, node: &'a Node) -> Option<Area> {
        let [of, within, share] = self.keys(node, &grammar::AREA)?;
        let of = self.totalled(share.is_some(), of);
        let within = self.if_written(within, Self::zone);
        let share_of = self.if_written(share, Self::share_of);
        let of = of?;
        self.must_be_area(&of, node.span)?;
        Some(Area {
            of,
            within: within?.map(Box::new),
            share_of: share_of?,
        })
    }

    fn share_of(&mut self, node: &'a Node) -> Option<ShareOf> {
        let by_value = match node.text() {
            Some(name) => self.names_a_value(name),
            None => node
                .as_map()
                .is_some_and(|map| map.iter().any(|entry| measure_named(&entry.key).is_some())),
        };
        if !by_value {
            return self.operand(node).map(ShareOf::Outlines);
        }
        let value = self.value(node, Some(Dimension::Area))?;
        let sort = type_of(&value, &self.vocabulary).and_then(Type::dimension)?;
        if sort != Dimension::Area {
            self.sorts_differ(node.span, sort, Dimension::Area);
            return None;
        }
        Some(ShareOf::Value(value))
    }

    /// Whether a name stands for a value rather than for something drawn.
    fn names_a_value(&mut self, name: &'a str) -> bool {
        let (head, Some(tail)) = parts(name) else {
            return is_amount(name)
                || matches!(
                    self.term(name, Span::default()),
                    Some(Some(Known::Value(..)))
                );
        };
        let kind = self.vocabulary.kind_named(head);
        is_amount(name) || kind.is_some_and(|kind| self.vocabulary.fact_named(kind, tail).is_some())
    }

    pub(crate) fn length(&mut self, node: &'a Node) -> Option<Value> {
        let [of, within] = self.keys(node, &grammar::LENGTH)?;
        let of = self.totalled(false, of);
        let within = self.if_written(within, Self::zone);
        Some(Value::Length {
            of: of?,
            within: within?.map(Box::new),
        })
    }

    pub(crate) fn enclosure(&mut self, node: &'a Node) -> Option<Enclosure> {
        let [of, from, made_of] = self.keys(node, &grammar::ENCLOSURE)?;
        let of = self.written(of, Self::operand);
        let from = from.map(|entry| self.known_words(&entry.value, &grammar::SEPARATED));
        let made_of = self.written(made_of, Self::barrier_operand);
        Some(Enclosure {
            of: of?,
            from: from?,
            made_of: made_of?,
        })
    }

    /// Words of which each must be one of these.
    pub(crate) fn known_words(&mut self, node: &'a Node, known: &[&str]) -> Vec<String> {
        let words = self.words(node);
        for &(word, span) in &words {
            if !known.contains(&word) {
                self.unknown_word(word, span, known.iter().copied());
            }
        }
        words.into_iter().map(|(word, _)| word.to_owned()).collect()
    }

    pub(crate) fn sound(&mut self, node: &'a Node) -> Option<Sound> {
        let [from, at, during] = self.keys(node, &grammar::SOUND)?;
        let [from, at] = [from, at].map(|end| self.written(end, Self::operand));
        let during = during.and_then(|entry| self.word_of(entry, PERIODS, PERIODS));
        Some(Sound {
            from: from?,
            at: at?,
            during: during?.to_owned(),
        })
    }
}
