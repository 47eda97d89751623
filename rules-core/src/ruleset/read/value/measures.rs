//! What a rule measures: which measure a key names, and distances, areas, lengths, barriers and sound.

use crate::faults::Code;
use crate::grammar::{self, Measure, PERIODS, measure_named, words};
use crate::quantity::Dimension;
use crate::ruleset::read::names::known::Known;
use crate::ruleset::read::names::parts;
use crate::ruleset::read::rule::bounds::as_list_of;
use crate::ruleset::read::value::{flipped, is_amount};
use crate::ruleset::read::{Reader, listed};
use crate::ruleset::types::{Type, type_of};
use crate::ruleset::{
    Area, Distance, Enclosure, Measured, Operand, Over, Part, Places, ShareOf, Sound, Value,
};
use crate::text::{Entry, Node, Span, in_short, meant_and};
use crate::vocabulary::Role;

/// In the order of their words.
const MEASURED: [Measured; 4] = [
    Measured::Level,
    Measured::InSpace,
    Measured::Plumb,
    Measured::Walking,
];

impl<'a> Reader<'a> {
    /// Reads a measure.
    pub(crate) fn measure(
        &mut self,
        measure: Measure,
        entry: &'a Entry,
        wanted: Option<Dimension>,
    ) -> Option<Value> {
        let node = &entry.value;
        match measure {
            Measure::Fact | Measure::Value => self.named(entry),
            Measure::Distance => self.distance(node).map(|it| Value::Distance(Box::new(it))),
            Measure::Area => self.area(node).map(|it| Value::Area(Box::new(it))),
            Measure::Length => self.length(node),
            Measure::Count => self.selection(node).map(Value::Count),
            Measure::Enclosure => self
                .enclosure(node)
                .map(|it| Value::Enclosure(Box::new(it))),
            Measure::Sound => self.sound(node).map(|it| Value::Sound(Box::new(it))),
            Measure::Level | Measure::GroundLevel => {
                let level = self.level_of(node, measure == Measure::GroundLevel);
                level.map(|it| Value::Level(Box::new(it)))
            }
            Measure::Fall => self.fall(node).map(|it| Value::Fall(Box::new(it))),
            Measure::Volume | Measure::Uplift => {
                let volume = self.volume(node, measure == Measure::Uplift);
                volume.map(|it| Value::Volume(Box::new(it)))
            }
            Measure::Height => self.height_over(node).map(|it| Value::Height(Box::new(it))),
            Measure::Margin => self.margin(node).map(|it| Value::Margin(Box::new(it))),
            Measure::Width => self.width(node).map(Value::Width),
            Measure::Table => {
                let table = self.value_table(node, wanted);
                table.map(|it| Value::Table(Box::new(it)))
            }
            Measure::Largest => self.out_of(entry, wanted, Value::Largest, Over::Largest),
            Measure::Smallest => self.out_of(entry, wanted, Value::Smallest, Over::Smallest),
            Measure::Sum => self.out_of(entry, wanted, Value::Sum, Over::Sum),
            Measure::Difference => self.several(entry, wanted).map(Value::Difference),
            Measure::Product => self.product(entry, wanted),
            Measure::Root => self.root(entry).map(|of| Value::Root(Box::new(of))),
        }
    }
    pub(crate) fn distance(&mut self, node: &'a Node) -> Option<Distance> {
        let entries = node.as_map().unwrap_or_default();
        if let Some(entry) = entries.iter().find(|entry| entry.key == "between") {
            let message = "A distance is not written with `between`.";
            self.fault(Code::WrongWord, entry.key_span, message)
                .help("Write its two ends: `{from: pool.water, to: lot-line}`.");
            return None;
        }
        self.each_inside(node);
        let [from, to, measured, farthest] = self.keys(node, &grammar::DISTANCE)?;
        let ends = [from, to];
        let places_of = ends.map(|end| end.map_or(node.span, |entry| entry.value.span));
        let [from, to] = ends.map(|end| self.written(end, Self::operand));
        let how = measured.map(|entry| self.word_of(entry, words(&grammar::MEASURED), MEASURED));
        let places = self.places(farthest, ends);
        let (from, to, places) = (from?, to?, places?);
        if places == Places::Nearest {
            self.warn_of_the_whole_lot((&from, &to), places_of);
            self.warn_of_same_ends((&from, &to), node.span);
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
    fn warn_of_the_whole_lot(&mut self, (from, to): (&Operand, &Operand), places: [Span; 2]) {
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
        let [first, second] = places;
        self.warning(
            Code::DistanceToTheLot,
            if of_lot(from) { first } else { second },
            "`lot.boundary` is the whole lot as an area: a pool on the lot is always 0 m from it.",
        )
        .help("Write `lot-line` for the distance to the lot's lines.");
    }

    fn warn_of_same_ends(&mut self, (from, to): (&Operand, &Operand), span: Span) {
        if from.parts == to.parts {
            let message = "Both ends are the same, and a thing is always 0 m from itself.";
            self.warning(Code::SameEnds, span, message)
                .help("Name what the distance is to. The distance of one thing to the others of its kind cannot be written so.");
        }
    }

    /// `farthest: yes`, or `farthest: from` for the farthest part of `from`.
    fn places(&mut self, farthest: Option<&'a Entry>, ends: [Option<&Entry>; 2]) -> Option<Places> {
        let Some(farthest) = farthest else {
            return Some(Places::Nearest);
        };
        match farthest.value.text() {
            Some("from") => Some(Places::FarthestOfFirst),
            Some("to") => {
                self.farthest_of_to(farthest.value.span, ends);
                None
            }
            _ => Some(match self.yes_no(&farthest.value)? {
                true => Places::Farthest,
                false => Places::Nearest,
            }),
        }
    }

    fn farthest_of_to(&mut self, span: Span, ends: [Option<&Entry>; 2]) {
        let [from, to] = ends.map(|end| end.map_or_else(String::new, |end| in_short(&end.value)));
        let message = "`farthest` takes `yes`, `no` or `from`.";
        self.fault(Code::UnknownWord, span, message)
            .help(format!("For the farthest part of `to`, turn the two round: `{{from: {to}, to: {from}, farthest: from}}`."));
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
        let list = as_list_of(word, known.clone())
            .unwrap_or_else(|| format!("The words here are {}.", listed(known.clone())));
        let help = meant_and(word, known, list);
        self.fault(
            Code::UnknownWord,
            span,
            format!("`{word}` is not one of the words that can stand here."),
        )
        .help(help);
    }

    pub(crate) fn area(&mut self, node: &'a Node) -> Option<Area> {
        self.each_inside(node);
        self.not_in(node);
        self.outline_alone(node)?;
        let [of, within, share] = self.keys(node, &grammar::AREA)?;
        let of = self.totalled(share.is_some(), of);
        let within = self.if_written(within, Self::zone);
        let share_of = self.if_written(share, Self::share_of);
        let of = of?;
        self.must_be_area(&of, node.span)?;
        let area = Area {
            of,
            within: within?.map(Box::new),
            share_of: share_of?,
        };
        if let Some(entry) = share {
            self.odd_whole(&area, entry);
            self.beyond_the_lot(&area, entry);
        }
        Some(area)
    }

    /// Asks whether another whole is meant where a share is one of the pool, and nothing of it is the pool's.
    fn odd_whole(&mut self, area: &Area, share: &Entry) {
        let Some(ShareOf::Outlines(whole)) = &area.share_of else {
            return;
        };
        let of_pool = |part: &Part| {
            let kind = self.vocabulary.outline(part.outline).kind;
            Some(kind) == self.pool()
        };
        let own = |of: &Operand| of.parts.iter().all(of_pool);
        if !own(whole) || area.of.parts.iter().all(of_pool) {
            return;
        }
        let written = in_short(&share.value);
        let message = format!(
            "This is a share of `{written}`, and not all that is measured belongs to the pool."
        );
        self.warning(Code::OddShare, share.value.span, message)
            .help("Is `share-of: lot.boundary` meant?");
    }

    /// Reports `not-in` in an area: the zone is turned round, not the key.
    fn not_in(&mut self, node: &Node) {
        let mut entries = node.as_map().unwrap_or_default().iter();
        let Some(entry) = entries.find(|entry| entry.key == "not-in") else {
            return;
        };
        let zone = in_short(&entry.value);
        self.fault(
            Code::WrongWord,
            entry.key_span,
            "`not-in` is not a key of an area.",
        )
        .because_of(entry.key_span)
        .help(format!("Write `in: {{not: {zone}}}`."));
    }

    /// Reports an outline that stands right after `area`.
    fn outline_alone(&mut self, node: &Node) -> Option<()> {
        let Some(name) = node.text() else {
            return Some(());
        };
        let (head, tail) = parts(name);
        let kind = self.vocabulary.kind_named(head);
        if kind
            .zip(tail)
            .is_none_or(|(kind, tail)| self.vocabulary.outline_named(kind, tail).is_none())
        {
            return Some(());
        }
        let message =
            format!("`{name}` stands right after `area`; of what the area is, is said after `of`.");
        self.fault(Code::NotAMap, node.span, message)
            .help(format!("Write `area: {{of: {{all: {name}}}}}`."));
        None
    }

    /// Asks whether what stands on other lots is meant in a share of the lot, as nothing clips it there.
    fn beyond_the_lot(&mut self, area: &Area, share: &Entry) {
        let lot = self.vocabulary.with_role(Role::Lot);
        let of_lot = |of: &Operand| {
            of.parts
                .iter()
                .any(|part| Some(self.vocabulary.outline(part.outline).kind) == lot)
        };
        let whole = matches!(&area.share_of, Some(ShareOf::Outlines(of)) if of_lot(of));
        let anybodys = |part: &&Part| {
            let all = part
                .which
                .selection()
                .is_some_and(|it| it.filter.is_none() && it.zone.is_none());
            let kind = self
                .vocabulary
                .kind(self.vocabulary.outline(part.outline).kind);
            all && !kind.owners && kind.role != Some(Role::Pool) && kind.role != Some(Role::Lot)
        };
        let Some(part) = area
            .of
            .parts
            .iter()
            .find(anybodys)
            .filter(|_| whole && area.within.is_none())
        else {
            return;
        };
        let path = self.vocabulary.outline_path(part.outline);
        let message = format!("Each `{path}` on the plan counts here, also on the lots beside.");
        self.warning(Code::OddShare, share.key_span, message).help(
            "If only what stands on the lot counts, add `in: lot.boundary` beside `share-of`.",
        );
    }

    fn share_of(&mut self, node: &'a Node) -> Option<ShareOf> {
        let by_value = match node.text() {
            Some(name) => self.names_a_value(name),
            None => node
                .as_map()
                .is_some_and(|map| map.iter().any(|entry| measure_named(&entry.key).is_some())),
        };
        if !by_value {
            let of = self.operand(node)?;
            return self.wholly(of, node.span, true).map(ShareOf::Outlines);
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
        if node.as_map().is_none() {
            let message = format!(
                "There is {} here, where an enclosure is expected.",
                node.describe()
            );
            self.fault(Code::NotAMap, node.span, message)
                .help(format!("Write `enclosure: {}`, and beside it how wide a gap may be, as in `at-most: 100 mm`.", grammar::ENCLOSURE.example));
            return None;
        }
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
