//! One world: an exact value for everything, and a finite set of things.

use std::collections::BTreeMap;

use rules_core::check::Level;
use rules_core::plan::Form;
use rules_core::vocabulary::{FactId, KindId, OutlineId};

/// An exact outline: every place within `spread` of one of its forms.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawn {
    /// Its forms.
    pub forms: Vec<Form>,
    /// How far it reaches beyond them, in nanometres.
    pub spread: i64,
}

/// The value of a fact in a world.
#[derive(Debug, Clone, PartialEq)]
pub enum Held {
    /// There is none.
    Nothing,
    /// An amount, the same everywhere along the thing.
    Amount(i128),
    /// It varies along the thing: its value at each piece. All varying facts of a thing share the same pieces.
    Along(Vec<i128>),
    /// A word.
    Word(String),
}

/// A thing in a world.
#[derive(Debug, Clone, PartialEq)]
pub struct Being {
    /// Its id.
    pub id: String,
    /// Its kind.
    pub kind: KindId,
    /// The id of the thing that it is part of.
    pub part_of: Option<String>,
    /// All its outlines.
    pub outlines: BTreeMap<OutlineId, Drawn>,
    /// All its facts.
    pub facts: BTreeMap<FactId, Held>,
    /// The papers for it, in the order of the rule set's documents: in hand, refused, or up to the authority.
    pub papers: Vec<Level>,
    /// If set, its second outline is not drawn but lies this far outside the first, with square corners.
    pub wider_by: Option<i64>,
}

impl Being {
    /// How many pieces it varies along; one if nothing varies.
    pub fn pieces(&self) -> usize {
        let along = self.facts.values().map(|held| match held {
            Held::Along(values) => values.len(),
            _ => 1,
        });
        along.max().unwrap_or(1)
    }
}

/// A world.
#[derive(Debug, Clone, PartialEq)]
pub struct World {
    /// All things, shown on a plan or not.
    pub things: Vec<Being>,
    /// The papers for the whole plan, in the order of the rule set's documents.
    pub papers: Vec<Level>,
}

impl World {
    /// All things of a kind, as places in the list.
    pub fn of_kind(&self, kind: KindId) -> impl Iterator<Item = usize> + '_ {
        self.things
            .iter()
            .enumerate()
            .filter(move |(_, thing)| thing.kind == kind)
            .map(|(index, _)| index)
    }

    /// Whether one thing is part of another, itself or by way of others.
    pub fn is_part(&self, part: usize, whole: usize) -> bool {
        let next = |thing: &&Being| self.named(thing.part_of.as_deref()?);
        let wholes = std::iter::successors(next(&&self.things[part]), next);
        wholes
            .into_iter()
            .any(|thing| thing.id == self.things[whole].id)
    }

    /// The thing with that id.
    pub fn named(&self, id: &str) -> Option<&Being> {
        self.things.iter().find(|thing| thing.id == id)
    }
}
