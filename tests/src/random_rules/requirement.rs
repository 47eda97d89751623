//! Random requirements and values.

use rules_core::quantity::Dimension;
use rules_core::vocabulary::{Answer, Fact, KindId, Number, Shape, Vocabulary};

use super::some_kind;
use crate::random_plans::Random;

/// Makes requirements for the things bound around them.
pub(super) struct Maker<'a> {
    pub random: &'a mut Random,
    vocabulary: &'a Vocabulary,
    /// The kinds that have one thing bound here.
    pub bound: Vec<KindId>,
}

impl<'a> Maker<'a> {
    pub fn new(random: &'a mut Random, vocabulary: &'a Vocabulary) -> Self {
        Self {
            random,
            vocabulary,
            bound: Vec::new(),
        }
    }

    fn one<'t, T>(&mut self, list: &'t [T]) -> Option<&'t T> {
        let last = i64::try_from(list.len())
            .ok()?
            .checked_sub(1)
            .filter(|last| *last >= 0)?;
        list.get(usize::try_from(self.random.within(0, last)).ok()?)
    }

    /// A condition on the plan, with nothing bound.
    pub fn condition(&mut self) -> String {
        let bound = std::mem::take(&mut self.bound);
        let condition = match self.random.within(0, 3) {
            0 => "{fact: asked, is: yes}".to_owned(),
            1 => format!("{{count: {}, at-least: 1}}", self.kind_name()),
            2 => format!("{{fact: pool.depth, {}}}", self.bound_on("m")),
            _ => self
                .fact_test()
                .unwrap_or_else(|| "{fact: asked, is: no}".to_owned()),
        };
        self.bound = bound;
        condition
    }

    fn kind_name(&mut self) -> String {
        let kind = some_kind(self.random, self.vocabulary);
        kind.map_or_else(
            || "gate".to_owned(),
            |kind| self.vocabulary.kind(kind).name.clone(),
        )
    }

    /// Any requirement, at most `deep` levels deep.
    pub fn requirement(&mut self, deep: i64) -> String {
        let simple = deep == 0 || self.random.once_in(2);
        if simple {
            self.leaf()
        } else {
            self.combined(deep - 1)
        }
    }

    fn leaf(&mut self) -> String {
        match self.random.within(0, 9) {
            0..=3 => self
                .fact_test()
                .unwrap_or_else(|| "{have: letter}".to_owned()),
            4..=6 => self.distance_test(),
            7 => self.area_test(),
            8 => format!("{{count: {}, {}}}", self.kind_name(), self.count_bound()),
            _ => self
                .random
                .pick(&[
                    "{have: letter}",
                    "{meets: holds}",
                    "refer",
                    "{length: {of: barrier-stretch.line}, at-least: 3 m}",
                ])
                .to_owned(),
        }
    }

    fn combined(&mut self, deep: i64) -> String {
        match self.random.within(0, 6) {
            0 => self.listed("all-of", deep),
            1 => self.listed("any-of", deep),
            2 => format!("{{not: {}}}", self.requirement(deep)),
            3 => self.nested(deep),
            4 => format!(
                "{{count: [{}, {}], {}}}",
                self.requirement(deep),
                self.requirement(deep),
                self.count_bound()
            ),
            5 => format!(
                "{{table: {{by: pool.depth, rows: [{{at-most: {}, then: {}}}, {{otherwise: {}}}]}}}}",
                self.length(),
                self.requirement(deep),
                self.requirement(deep)
            ),
            _ => format!("[{}, {}]", self.requirement(deep), self.requirement(deep)),
        }
    }

    fn listed(&mut self, key: &str, deep: i64) -> String {
        let members: Vec<_> = (0..self.random.within(1, 3))
            .map(|_| self.requirement(deep))
            .collect();
        format!("{{{key}: [{}]}}", members.join(", "))
    }

    fn nested(&mut self, deep: i64) -> String {
        let Some(kind) =
            some_kind(self.random, self.vocabulary).filter(|kind| !self.bound.contains(kind))
        else {
            return self.leaf();
        };
        self.bound.push(kind);
        let (if_none, require) = (
            self.random.pick(&["passes", "fails", "refer"]),
            self.requirement(deep),
        );
        let filter = self.own_fact(kind).filter(|_| self.random.once_in(2));
        self.bound.pop();
        let filter = filter.map_or_else(String::new, |filter| format!(", where: {filter}"));
        let name = &self.vocabulary.kind(kind).name;
        format!("{{each: {name}, if-none: {if_none}{filter}, require: {require}}}")
    }

    /// A test of a fact with one value here: of a bound thing, of the pool, or of a kind with at most one thing.
    fn fact_test(&mut self) -> Option<String> {
        let mut kinds = self.bound.clone();
        kinds.extend(self.bound.clone());
        let single = self
            .vocabulary
            .kinds()
            .filter(|(_, kind)| kind.number != Number::Many || kind.name == "pool");
        kinds.extend(single.map(|(id, _)| id));
        let kind = *self.one(&kinds)?;
        self.own_fact(kind)
    }

    /// A test of a fact of that kind.
    pub fn own_fact(&mut self, kind: KindId) -> Option<String> {
        let fact = *self.one(&self.vocabulary.kind(kind).facts)?;
        let (path, fact) = (self.vocabulary.fact_path(fact), self.vocabulary.fact(fact));
        let bound = self.bound_for(fact)?;
        Some(format!("{{fact: {path}, {bound}}}"))
    }

    fn bound_for(&mut self, fact: &Fact) -> Option<String> {
        if fact.none && self.random.once_in(8) {
            return Some("is: none".to_owned());
        }
        match &fact.answer {
            Answer::YesNo => Some(format!("is: {}", self.random.pick(&["yes", "no"]))),
            Answer::Word { words, open } => {
                let word = self
                    .one(words)
                    .cloned()
                    .or_else(|| open.then(|| "anything".to_owned()))?;
                Some(format!("is: \"{word}\""))
            }
            Answer::Amount {
                dimension: Dimension::Length,
                ..
            } => Some(self.bound_on("m")),
            Answer::Amount { dimension, .. } => Some(format!(
                "{}: {}",
                self.comparison(),
                self.amount(*dimension)
            )),
        }
    }

    fn comparison(&mut self) -> &'static str {
        self.random
            .pick(&["at-least", "at-most", "more-than", "less-than"])
    }

    fn bound_on(&mut self, sort: &str) -> String {
        if self.random.once_in(12) {
            let low = self.random.within(0, 2000);
            return format!(
                "at-least: {low} mm, at-most: {} mm",
                low + self.random.within(1, 2000)
            );
        }
        let limit = if sort == "m" {
            self.length_value()
        } else {
            self.random.within(0, 3).to_string()
        };
        format!("{}: {limit}", self.comparison())
    }

    fn count_bound(&mut self) -> String {
        format!(
            "{}: {}",
            self.random.pick(&["at-least", "at-most"]),
            self.random.within(0, 3)
        )
    }

    /// A limit that is a length: mostly an amount, sometimes calculated.
    fn length_value(&mut self) -> String {
        match self.random.within(0, 11) {
            0 => "pool.excavation-depth".to_owned(),
            1 => "small".to_owned(),
            2 => "much".to_owned(),
            3 => format!("{{difference: [pool.excavation-depth, {}]}}", self.length()),
            4 => format!("{{largest-of: [{}, pool.depth]}}", self.length()),
            5 => format!("{{sum: [{}, {}, small]}}", self.length(), self.length()),
            6 => format!("{{product: [75 %, {}]}}", self.length()),
            7 => format!(
                "{{table: {{by: pool.depth, rows: [{{less-than: 1 m, then: {}}}, {{otherwise: {}}}]}}}}",
                self.length(),
                self.length()
            ),
            _ => self.length(),
        }
    }

    /// A length, written in one of the ways people do.
    pub fn length(&mut self) -> String {
        let millimetres = self.random.within(10, 9000);
        match self.random.within(0, 3) {
            0 => format!("{millimetres} mm"),
            1 => format!("{}.{:03} m", millimetres / 1000, millimetres % 1000),
            2 => format!("{} in", millimetres / 25),
            _ => format!("{} ft {} in", millimetres / 305, self.random.within(0, 11)),
        }
    }

    fn amount(&mut self, dimension: Dimension) -> String {
        let figure = self.random.within(0, 60);
        match dimension {
            Dimension::Length => self.length(),
            Dimension::Area => format!("{figure} m2"),
            Dimension::Volume => format!("{figure} m3"),
            Dimension::Voltage => format!("{figure}00 V"),
            Dimension::Angle => format!("{figure} deg"),
            Dimension::Sound => format!("{figure} dB(A)"),
            Dimension::Flow => format!("{figure} l/s"),
            Dimension::Power => format!("{figure}0 W"),
            Dimension::Mass => format!("{figure}0 kg"),
            Dimension::Load => format!("{figure} kg/m2"),
            Dimension::Days => format!("{figure} days"),
            Dimension::Months => format!("{figure} months"),
            Dimension::Date => format!(
                "20{:02}-0{}-1{}",
                self.random.within(15, 30),
                self.random.within(1, 9),
                self.random.within(0, 9)
            ),
            Dimension::Number => figure.to_string(),
        }
    }

    fn distance_test(&mut self) -> String {
        let (from, to) = (self.pool_edge(), self.outline());
        let how = match self.random.within(0, 6) {
            0 => ", measured: in-space",
            1 => ", measured: plumb",
            2 => ", farthest: yes",
            3 => ", farthest: from",
            _ => "",
        };
        format!(
            "{{distance: {{from: {from}, to: {to}{how}}}, {}}}",
            self.bound_on("m")
        )
    }

    fn pool_edge(&mut self) -> &'static str {
        self.random.pick(&[
            "edge",
            "pool.water",
            "pool.coping",
            "pool.shell",
            "pool.excavation",
        ])
    }

    fn outline(&mut self) -> String {
        let kind = match self.bound.last() {
            Some(kind) if !self.random.once_in(3) => Some(*kind),
            _ => some_kind(self.random, self.vocabulary),
        };
        let outlines = kind
            .map(|kind| self.vocabulary.kind(kind).outlines.clone())
            .unwrap_or_default();
        match self.one(&outlines) {
            Some(outline) => self.vocabulary.outline_path(*outline),
            None => "lot-line.line".to_owned(),
        }
    }

    fn area_test(&mut self) -> String {
        let path = self.outline();
        let area = self
            .vocabulary
            .path(&path)
            .is_some_and(|named| match named {
                rules_core::vocabulary::Named::Outline(id) => {
                    self.vocabulary.outline(id).shape == Shape::Area
                }
                _ => false,
            });
        let of = if area && path.starts_with("pool.") {
            let which = if self.random.once_in(2) {
                "all"
            } else {
                "each"
            };
            format!("{{{which}: {path}}}")
        } else if area {
            path
        } else {
            "[building.wall, {all: pool.water}]".to_owned()
        };
        if self.random.once_in(2) {
            return format!(
                "{{area: {{of: {of}, share-of: lot.boundary}}, {}: {} %}}",
                self.comparison(),
                self.random.within(1, 60)
            );
        }
        let zone = if self.random.once_in(3) {
            format!(", in: {{around: pool.water, by: {}}}", self.length())
        } else {
            String::new()
        };
        format!(
            "{{area: {{of: {of}{zone}}}, {}: {} m2}}",
            self.comparison(),
            self.random.within(1, 90)
        )
    }
}
