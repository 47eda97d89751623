//! A kind of thing: how many there can be, what it is for the program, and where a form asks for it.

use super::{FactId, Lie, Matter, OutlineId};

/// A kind of thing, as its place in the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct KindId(pub u16);

/// How many of a kind a plan can have.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Number {
    /// Exactly one, always there (the lot, the applicant, the works).
    One,
    /// One or none. A rule can name it without `each` (a cover, an alarm).
    AtMostOne,
    /// Any number. A rule uses `each`, or speaks of them all together.
    Many,
}

/// A kind of thing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Kind {
    /// Its name in files, in kebab-case: `septic-part`.
    pub name: String,
    /// Other names people use for it, in the singular.
    pub also: &'static [&'static str],
    /// Its name in sentences, with the article: `a septic tank or field`.
    pub said: String,
    /// How many there can be.
    pub number: Number,
    /// Its outlines, in the order of the table.
    pub outlines: Vec<OutlineId>,
    /// Its facts, in the order of the table.
    pub facts: Vec<FactId>,
    /// The question that finds out whether there is any: `Is there a septic tank or field within 30 m?`
    pub ask: String,
    /// The matter it belongs to; `None` for a kind that rules on many matters use.
    pub matter: Option<Matter>,
    /// Its special role in the program, if it has one.
    pub role: Option<Role>,
    /// Whether things of this kind always belong to the applicant. Beyond a lot line they stand on somebody else's
    /// land.
    pub owners: bool,
    /// Whether each belongs to one pool. On a plan with several pools, a rule about one pool then uses only that pool's
    /// own.
    pub of_a_pool: bool,
    /// The kind of which each is mostly a part: a gate is part of a fence.
    pub part_of: Option<&'static str>,
    /// Whether it leads through a barrier or a wall: a gate, a door, a window or a stated gap.
    pub opens: bool,
    /// The part of a form that asks for it.
    pub part: Part,
    /// Whether somebody who walks round the place sees it. What lies in the ground or in a register, nobody can rule out
    /// by looking.
    pub seen: bool,
    /// Who knows whether there is any, if looking does not tell (common practice, no source); empty where nobody in
    /// particular does.
    pub whom: &'static str,
    /// How its outlines lie unless they say otherwise, including those that a rule file adds.
    pub others: Lie,
}

impl Kind {
    /// A kind with defaults for everything else.
    pub fn new(name: &str, said: &str, number: Number, ask: &str) -> Self {
        Self {
            name: name.to_owned(),
            also: &[],
            said: said.to_owned(),
            number,
            outlines: Vec::new(),
            facts: Vec::new(),
            ask: ask.to_owned(),
            matter: None,
            role: None,
            owners: false,
            of_a_pool: false,
            part_of: None,
            opens: false,
            part: Part::default(),
            seen: false,
            whom: "",
            others: Lie::default(),
        }
    }

    /// Its key in a plan, for a kind of which there is exactly one.
    pub fn plan_key(&self) -> &str {
        match self.role {
            Some(Role::Events) => "dates",
            _ => &self.name,
        }
    }

    /// Whether a plan lists it under `things`. The pool and the sides of the lot have places of their own.
    pub fn is_listed(&self) -> bool {
        let own_place = matches!(self.role, Some(Role::Pool | Role::LotLine));
        self.number != Number::One && !own_place
    }

    /// Whether its facts are written without the kind in front: the dates, and the answers to a rule set's own
    /// questions.
    pub fn is_short(&self) -> bool {
        matches!(self.role, Some(Role::Answers | Role::Events))
    }
}

/// The part of a form that asks for a kind.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Part {
    /// Where the lot is, who applies, and for what.
    Where,
    /// The lot and its sides.
    Lot,
    /// The pool.
    Pool,
    /// The road.
    Road,
    /// Everything else on the lot or near it.
    #[default]
    Site,
    /// The barrier.
    Barrier,
    /// The rule set's own questions.
    Questions,
}

impl Part {
    /// Its name for programs.
    pub fn name(self) -> &'static str {
        match self {
            Part::Where => "where",
            Part::Lot => "lot",
            Part::Pool => "pool",
            Part::Road => "road",
            Part::Site => "site",
            Part::Barrier => "barrier",
            Part::Questions => "questions",
        }
    }
}

/// The special role of a kind in the program.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Role {
    /// The lot, which every plan has.
    Lot,
    /// A side of the lot.
    LotLine,
    /// What is to be built.
    Pool,
    /// A building, which may be a dwelling.
    Building,
    /// A door or window that people can come out of.
    WallOpening,
    /// A run of the barrier.
    Fence,
    /// A gate in a run of the barrier.
    Gate,
    /// A hole in the barrier.
    BarrierOpening,
    /// A wire that hangs between supports.
    Wire,
    /// A place where the level of the ground is known.
    Spot,
    /// A line along which the ground is at one level.
    Contour,
    /// The answers to a rule set's own questions.
    Answers,
    /// The dates of events.
    Events,
}
