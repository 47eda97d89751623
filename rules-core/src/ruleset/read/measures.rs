//! What is measured on the plan: distances, areas, lengths, barriers, sound.

use super::Reader;
use super::names::parts;
use super::pools::has_all;
use super::terms::Known;
use super::values::{MEASURES, flipped, is_amount};
use crate::quantity::Dimension;
use crate::ruleset::types::{Type, type_of};
use crate::ruleset::{
    Area, Distance, Enclosure, Measured, Operand, Part, Places, ShareOf, Sound, Value,
};
use crate::text::{Entry, MapReader, Node, Span, closest};

/// From whom a barrier can separate.
const SEPARATED: [&str; 3] = ["street", "neighbour-lot", "dwelling"];
/// The parts of the day.
const PERIODS: [&str; 3] = ["day", "evening", "night"];
/// How a distance can be measured.
const MEASURED: [(&str, Measured); 4] = [
    ("level", Measured::Level),
    ("in-space", Measured::InSpace),
    ("plumb", Measured::Plumb),
    ("walking", Measured::Walking),
];

impl<'a> Reader<'a> {
    pub(super) fn distance(&mut self, node: &'a Node) -> Option<Distance> {
        let mut map = self.map(node, "a distance")?;
        let from = self.need_operand(&mut map, "from");
        let to = self.need_operand(&mut map, "to");
        let how = match map.take("measured") {
            Some(entry) => self.one_of(entry, &MEASURED),
            None => Some(Measured::Level),
        };
        let places = self.places(&mut map);
        self.finish(map);
        let (from, to) = (from?, to?);
        if places == Places::Nearest {
            self.warn_of_the_whole_lot((&from, &to), node.span);
        }
        Some(Distance {
            from,
            to,
            how: how?,
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
            "distance-to-the-lot",
            span,
            "`lot.boundary` is the whole lot as an area: a pool on the lot is always 0 m from it.",
        )
        .help("Write `lot-line` for the distance to the lot's lines.");
    }

    /// `farthest: yes`, or `farthest: from` for the farthest part of `from`.
    fn places(&mut self, map: &mut MapReader<'a>) -> Places {
        let entry = map.take("farthest");
        match entry {
            Some(entry) if entry.value.text() == Some("from") => Places::FarthestOfFirst,
            Some(entry) if self.yes_no(&entry.value) == Some(true) => Places::Farthest,
            _ => Places::Nearest,
        }
    }

    /// One of the words of a table.
    pub(super) fn one_of<T: Copy>(&mut self, entry: &'a Entry, table: &[(&str, T)]) -> Option<T> {
        let word = self.text(entry)?;
        if let Some((_, meaning)) = table.iter().find(|(known, _)| *known == word) {
            return Some(*meaning);
        }
        self.unknown_word(
            word,
            entry.value.span,
            table.iter().map(|(known, _)| *known),
        );
        None
    }

    pub(super) fn unknown_word<'w>(
        &mut self,
        word: &str,
        span: Span,
        known: impl Iterator<Item = &'w str> + Clone,
    ) {
        let guess = closest(word, known.clone()).map(|guess| format!("Did you mean `{guess}`? "));
        let list = format!("The words here are {}.", super::listed(known));
        self.fault(
            "unknown-word",
            span,
            format!("`{word}` is not one of the words that can stand here."),
        )
        .help(guess.unwrap_or_default() + &list);
    }

    pub(super) fn need_operand(
        &mut self,
        map: &mut MapReader<'a>,
        key: &'static str,
    ) -> Option<Operand> {
        let entry = self.need(map, key)?;
        self.operand(&entry.value)
    }

    pub(super) fn area(&mut self, node: &'a Node) -> Option<Area> {
        let mut map = self.map(node, "an area")?;
        let share = map.take("share-of");
        let of = self.totalled(share.is_some(), |reader| {
            let of = reader.need_operand(&mut map, "of")?;
            let beside_all = has_all(&of);
            Some((of, beside_all))
        });
        let within = map.take("in").map(|entry| self.zone(&entry.value));
        let share_of = share.map(|entry| self.share_of(&entry.value));
        self.finish(map);
        let of = of?;
        self.must_be_area(&of, node.span)?;
        Some(Area {
            of,
            within: flipped(within)?.map(Box::new),
            share_of: flipped(share_of)?,
        })
    }

    fn share_of(&mut self, node: &'a Node) -> Option<ShareOf> {
        let by_value = match node.text() {
            Some(name) => self.names_a_value(name),
            None => node.as_map().is_some_and(|map| {
                map.iter()
                    .any(|entry| MEASURES.contains(&entry.key.as_str()))
            }),
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

    pub(super) fn length(&mut self, node: &'a Node) -> Option<Value> {
        let mut map = self.map(node, "a length")?;
        let of = self.totalled(false, |reader| {
            let of = reader.need_operand(&mut map, "of")?;
            let beside_all = has_all(&of);
            Some((of, beside_all))
        });
        let within = map.take("in").map(|entry| self.zone(&entry.value));
        self.finish(map);
        Some(Value::Length {
            of: of?,
            within: flipped(within)?.map(Box::new),
        })
    }

    pub(super) fn enclosure(&mut self, node: &'a Node) -> Option<Enclosure> {
        let mut map = self.map(node, "an enclosure")?;
        let of = self.need_operand(&mut map, "of");
        let from = self
            .need(&mut map, "from")
            .map(|entry| self.known_words(&entry.value, &SEPARATED));
        let made_of = self
            .need(&mut map, "made-of")
            .and_then(|entry| self.barrier_operand(&entry.value));
        self.finish(map);
        Some(Enclosure {
            of: of?,
            from: from?,
            made_of: made_of?,
        })
    }

    fn known_words(&mut self, node: &'a Node, known: &[&str]) -> Vec<String> {
        let words = self.words(node);
        for &(word, span) in &words {
            if !known.contains(&word) {
                self.unknown_word(word, span, known.iter().copied());
            }
        }
        words.into_iter().map(|(word, _)| word.to_owned()).collect()
    }

    pub(super) fn sound(&mut self, node: &'a Node) -> Option<Sound> {
        let mut map = self.map(node, "a sound level")?;
        let from = self.need_operand(&mut map, "from");
        let at = self.need_operand(&mut map, "at");
        let periods = PERIODS.map(|word| (word, word));
        let during = self
            .need(&mut map, "during")
            .and_then(|entry| self.one_of(entry, &periods));
        self.finish(map);
        Some(Sound {
            from: from?,
            at: at?,
            during: during?.to_owned(),
        })
    }
}
