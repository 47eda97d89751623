//! The program's own table, one fact to a row.
//!
//! Each limit is what is physically possible, not what is usual: a plan is refused only for what cannot be true.

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

use row::{KindRow, OutlineRow, What};

use super::{Answer, Fact, FactId, KindId, Lie, Outline, Phrase, Role, Vocabulary};

/// All groups, in the order of forms and reference pages.
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

/// Pairs of facts that are measured on a fence and, separately, on a gate in it. A rule on one does not cover the
/// other.
const OF_FENCE_AND_GATE: &[(&str, &str)] = &[
    ("height-outside", "height"),
    ("height-inside", "height"),
    ("gap-below", "gap-below"),
    ("opening", "opening"),
];

impl Vocabulary {
    /// Facts of a fence, each with the fact of a gate that a rule on fences does not cover.
    pub fn of_fence_and_gate(&self) -> impl Iterator<Item = (FactId, FactId)> + '_ {
        let fact = |role, name| self.fact_named(self.with_role(role)?, name);
        OF_FENCE_AND_GATE.iter().filter_map(move |(fence, gate)| {
            Some((fact(Role::Fence, fence)?, fact(Role::Gate, gate)?))
        })
    }

    /// The program's own table. A rule set adds to a copy of it.
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
        for outline in row.outlines {
            self.add_outline(outline.entry(kind));
        }
        for fact in row.facts {
            self.add_fact(fact.entry(kind));
        }
        let others = row.others.lie(kind, self);
        let entry = self.kind_mut(kind);
        (entry.role, entry.part, entry.others) = (row.role, row.part, others);
        entry.also = row.also;
        (entry.seen, entry.whom) = (row.seen, row.whom);
        (entry.owners, entry.of_a_pool, entry.opens) = (row.owners, row.of_a_pool, row.opens);
        entry.part_of = row.part_of;
        for outline in row.outlines {
            self.place(kind, outline);
        }
    }

    /// Sets where an outline lies, once the other outlines and the facts of its kind can be looked up by name.
    fn place(&mut self, kind: KindId, row: &OutlineRow) {
        let within = row.within.iter();
        let within = within
            .filter_map(|name| self.outline_named(kind, name))
            .collect();
        let (own, others) = (row.lie(kind, self), self.kind(kind).others);
        let Some(id) = self.outline_named(kind, row.name) else {
            return;
        };
        let outline = self.outline_mut(id);
        outline.within = within;
        outline.lie = Lie {
            extent: own.extent.or(others.extent),
            level: own.level.or(others.level),
            lowest: own.lowest || others.lowest,
            look: own.look.or(others.look),
        };
    }
}

impl OutlineRow {
    fn entry(&self, kind: KindId) -> Outline {
        Outline {
            none: self.none,
            beside: self.beside,
            bars_the_way: self.bars_the_way,
            solid: self.solid,
            ..Outline::new(kind, self.name, self.said, self.shape)
        }
    }

    fn lie(&self, kind: KindId, vocabulary: &Vocabulary) -> Lie {
        let fact = |name| vocabulary.fact_named(kind, name);
        let extent = self.extent;
        Lie {
            extent: extent.and_then(|(low, high)| Some((low.with(fact)?, high.with(fact)?))),
            level: self.level.and_then(|level| level.with(fact)),
            lowest: self.lowest,
            look: self.look,
        }
    }
}

impl row::FactRow {
    fn entry(&self, kind: KindId) -> Fact {
        Fact {
            kind,
            name: self.name.to_owned(),
            said: self.said.to_owned(),
            phrase: Phrase::of(self.said),
            answer: self.what.answer(),
            varies: self.what.varies,
            none: self.what.none,
            ask: self.ask.to_owned(),
            how: self.how.to_owned(),
            matter: self.what.matter,
            on_the_lot: self.what.on_the_lot.map(str::to_owned),
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
