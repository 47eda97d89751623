//! The program's own table, one fact to a row.
//!
//! Each limit is what the world allows, never what is usual: a plan is refused only for what cannot be true.

mod barrier;
mod building;
mod edge;
mod ground;
mod people;
mod pool;
mod row;
mod services;
mod site;
mod water;

use row::{KindRow, What};

use super::{Answer, Fact, FactId, KindId, Outline, Vocabulary};

/// All groups, in the order in which forms and reference pages show them.
const GROUPS: [&[KindRow]; 9] = [
    site::KINDS,
    people::KINDS,
    pool::KINDS,
    barrier::KINDS,
    edge::KINDS,
    building::KINDS,
    services::KINDS,
    ground::KINDS,
    water::KINDS,
];

/// The outlines, by kind and name, that a thing may be without.
const MAY_LACK: &[(&str, &str)] = &[
    ("lot", "flag-handle"),
    ("pool", "coping"),
    ("pool", "deck"),
    ("pool", "excavation"),
    ("pool", "enclosed-area"),
    ("building", "foundation-at-grade"),
    ("building", "footing"),
    ("road", "right-of-way"),
    ("flood-area", "floodway"),
];

/// What is measured of a fence, and of a gate in it by itself: a rule on the one says nothing of the other.
const OF_FENCE_AND_GATE: &[(&str, &str)] = &[
    ("height-outside", "height"),
    ("height-inside", "height"),
    ("gap-below", "gap-below"),
    ("opening", "opening"),
];

impl Vocabulary {
    /// Facts of a fence, each with that of a gate which a rule on fences leaves out.
    pub fn of_fence_and_gate(&self) -> impl Iterator<Item = (FactId, FactId)> + '_ {
        let fact = |kind, name| self.fact_named(self.kind_named(kind)?, name);
        OF_FENCE_AND_GATE.iter().filter_map(move |(fence, gate)| {
            Some((fact("barrier-stretch", fence)?, fact("gate", gate)?))
        })
    }

    /// What the program itself knows of. A rule set adds to a copy of it.
    pub fn standard() -> Self {
        let mut vocabulary = Self::default();
        for kind in GROUPS.into_iter().flatten() {
            vocabulary.add_row(kind);
        }
        vocabulary
    }

    fn add_row(&mut self, row: &KindRow) {
        let kind = self.add_kind(row.name, row.said, row.number, row.ask);
        self.set_matter(kind, row.matter);
        for &(name, said, shape) in row.outlines {
            let none = MAY_LACK.contains(&(row.name, name));
            let (name, said) = (name.to_owned(), said.to_owned());
            self.add_outline(Outline {
                kind,
                name,
                said,
                shape,
                none,
            });
        }
        for fact in row.facts {
            self.add_fact(fact.entry(kind));
        }
    }
}

impl row::FactRow {
    fn entry(&self, kind: KindId) -> Fact {
        Fact {
            kind,
            name: self.name.to_owned(),
            said: self.said.to_owned(),
            answer: self.what.answer(),
            varies: self.what.varies,
            none: self.what.none,
            ask: self.ask.to_owned(),
            how: self.how.to_owned(),
            matter: self.what.matter,
        }
    }
}

impl What {
    fn answer(&self) -> Answer {
        match self.kind {
            row::Answered::Amount(dimension, least, most) => Answer::Amount {
                dimension,
                least,
                most,
            },
            row::Answered::Word(words, open) => Answer::Word {
                words: words.iter().map(|word| (*word).to_owned()).collect(),
                open,
            },
            row::Answered::YesNo => Answer::YesNo,
        }
    }
}
