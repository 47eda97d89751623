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

/// What a fact is in a world.
#[derive(Debug, Clone, PartialEq)]
pub enum Held {
    /// There is none.
    Nothing,
    /// An amount, the same everywhere along the thing.
    Amount(i128),
    /// It changes along the thing: what it is at each of its pieces. All facts of a thing that change along it have the
    /// same pieces.
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
    /// All its outlines.
    pub outlines: BTreeMap<OutlineId, Drawn>,
    /// All its facts.
    pub facts: BTreeMap<FactId, Held>,
    /// The papers for it, in the order of the rule set's documents: in hand, refused, or the authority's to give.
    pub papers: Vec<Level>,
    /// Its second outline is not drawn but lies this far outside its first, with square corners.
    pub wider_by: Option<i64>,
}

impl Being {
    /// How many pieces it has along which something changes; one where nothing does.
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
    /// All things that there are, shown on a plan or not.
    pub things: Vec<Being>,
    /// The papers for the whole plan, in the order of the rule set's documents.
    pub papers: Vec<Level>,
}

impl World {
    /// The places of all things of a kind.
    pub fn of_kind(&self, kind: KindId) -> impl Iterator<Item = usize> + '_ {
        self.things
            .iter()
            .enumerate()
            .filter(move |(_, thing)| thing.kind == kind)
            .map(|(index, _)| index)
    }

    /// The thing with that id.
    pub fn named(&self, id: &str) -> Option<&Being> {
        self.things.iter().find(|thing| thing.id == id)
    }
}
