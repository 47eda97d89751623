//! What the table is made of.

use std::collections::{BTreeMap, BTreeSet};

use super::{Height, Level, Look, Matter};
use crate::quantity::{Dimension, Interval, NO_HIGH, NO_LOW};

/// A kind of thing, as its place in the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct KindId(pub u16);
/// An outline of a kind, as its place in the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct OutlineId(pub u16);
/// A fact of a kind, as its place in the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct FactId(pub u16);

/// How the name of a fact begins that is so or is not.
pub(super) const WHETHER: &str = "whether ";
/// How the name of an outline begins that says nothing without its thing.
const ITS: &str = "its ";

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
    /// Whether it leads through a barrier or a wall: a gate, a door, a window or a stated gap.
    pub opens: bool,
    /// The part of a form in which it is asked for.
    pub part: Part,
    /// How its outlines lie unless they say otherwise, including those that a rule file adds.
    pub others: Lie,
}

impl Kind {
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

/// The part of a form in which a kind is asked for.
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

/// What an outline is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shape {
    /// A single place.
    Point,
    /// A line.
    Line,
    /// An area.
    Area,
}

/// An outline that a kind can have.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Outline {
    /// Whose it is.
    pub kind: KindId,
    /// Its name in files: `water`.
    pub name: String,
    /// Its name in sentences: `the water's edge`.
    pub said: String,
    /// Whether that says nothing without the thing, as `its top` does.
    pub its: bool,
    /// What is drawn.
    pub shape: Shape,
    /// Whether a thing may be without it (a pool without a deck), so that `none` is allowed.
    pub none: bool,
    /// Outlines of the same kind that contain it however they are drawn. Outside them it cannot be.
    pub within: Vec<OutlineId>,
    /// Whether it is not part of the thing itself (the area inside the barrier).
    pub beside: bool,
    /// Whether it blocks a person on foot. Gates, doors and windows count as closed.
    pub bars_the_way: bool,
    /// Whether it lets nothing through, not even a cord: the wall of a house.
    pub solid: bool,
    /// How high it lies, and how it is drawn.
    pub lie: Lie,
}

/// How high an outline lies, and how it is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Lie {
    /// Its lowest and its highest point above the ground; everything between belongs to the thing. `None` if only a
    /// `height` fact of its kind could tell.
    pub extent: Option<(Height<FactId>, Height<FactId>)>,
    /// The fact that states its level.
    pub level: Option<Level<FactId>>,
    /// Whether its level is that of its lowest point, as for a hole.
    pub lowest: bool,
    /// How it is drawn; `None` for the default of its shape.
    pub look: Option<Look>,
}

impl Outline {
    /// An outline that every thing of its kind has, with everything else left at its default.
    pub fn new(kind: KindId, name: &str, said: &str, shape: Shape) -> Self {
        Self {
            kind,
            name: name.to_owned(),
            said: said.to_owned(),
            its: said.starts_with(ITS),
            shape,
            none: false,
            within: Vec::new(),
            beside: false,
            bars_the_way: false,
            solid: false,
            lie: Lie::default(),
        }
    }
}

/// What a fact can be.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Answer {
    /// An amount. A figure beyond its limits cannot be meant.
    Amount {
        /// Of what.
        dimension: Dimension,
        /// The reader refuses less.
        least: Option<i128>,
        /// The reader refuses more.
        most: Option<i128>,
    },
    /// One of these words, or, if `open`, another word from a rule file or a plan.
    Word {
        /// The words.
        words: Vec<String>,
        /// Whether other words are possible.
        open: bool,
    },
    /// `yes` or `no`.
    YesNo,
}

impl Answer {
    /// What an amount can be if nobody states it. Only the limits of the table that no amount can pass count here: a
    /// depth is never below 0, and angles, shares and counts have an end. The other limits only catch slips; nobody has
    /// measured them.
    pub fn possible(&self) -> Interval {
        let Answer::Amount {
            dimension,
            least,
            most,
        } = self
        else {
            return Interval::any();
        };
        let ends = matches!(dimension, Dimension::Angle | Dimension::Number);
        Interval {
            low: least.filter(|least| *least >= 0).unwrap_or(NO_LOW),
            high: most.filter(|_| ends).unwrap_or(NO_HIGH),
        }
    }
}

/// How the name of a fact stands in a sentence.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Phrase {
    /// After `the`: `height of the latch`.
    Noun,
    /// As it is, and what follows `whether` is so or is not: `whether the gate closes by itself`.
    Whether,
    /// As it is: `who owns the fence`.
    Clause,
}

impl Phrase {
    /// How a name stands in a sentence that begins with these words.
    pub fn of(said: &str) -> Self {
        const CLAUSES: [&str; 6] = ["who ", "whose ", "what ", "how ", "which ", "the "];
        match said {
            _ if said.starts_with(WHETHER) => Self::Whether,
            _ if CLAUSES.iter().any(|start| said.starts_with(start)) => Self::Clause,
            _ => Self::Noun,
        }
    }
}

/// A fact that a kind can have.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fact {
    /// Whose it is.
    pub kind: KindId,
    /// Its name in files: `latch-height`.
    pub name: String,
    /// Its name in sentences: `height of the latch`.
    pub said: String,
    /// How its name stands in a sentence.
    pub phrase: Phrase,
    /// What it can be.
    pub answer: Answer,
    /// Whether it may vary along the thing, so that "from 46 to 50 in" makes sense.
    pub varies: bool,
    /// Whether `none` is a value (a gate without a latch).
    pub none: bool,
    /// The question that asks for it.
    pub ask: String,
    /// How it is measured in the field.
    pub how: String,
    /// The matter it belongs to, if it differs from its kind's.
    pub matter: Option<Matter>,
}

/// The whole table: what the program knows and what a rule set added.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Vocabulary {
    kinds: Vec<Kind>,
    outlines: Vec<Outline>,
    facts: Vec<Fact>,
    kinds_by_name: BTreeMap<String, KindId>,
}

impl Vocabulary {
    /// All kinds, in the order of the table.
    pub fn kinds(&self) -> impl Iterator<Item = (KindId, &Kind)> {
        (0..).map(KindId).zip(&self.kinds)
    }

    /// The kind that has this role.
    pub fn with_role(&self, role: Role) -> Option<KindId> {
        let mut kinds = self.kinds();
        kinds.find_map(|(id, kind)| (kind.role == Some(role)).then_some(id))
    }

    /// Whether an outline lies within another of the same kind, however they are drawn.
    pub fn is_within(&self, one: OutlineId, other: OutlineId) -> bool {
        let mut around = self.outline(one).within.iter();
        around.any(|next| *next == other || self.is_within(*next, other))
    }

    /// The kinds whose facts are written without the kind in front.
    pub fn short_kinds(&self) -> impl Iterator<Item = KindId> + '_ {
        let roles = [Role::Answers, Role::Events].into_iter();
        roles.filter_map(|role| self.with_role(role))
    }

    /// The kind of that name.
    pub fn kind_named(&self, name: &str) -> Option<KindId> {
        self.kinds_by_name.get(name).copied()
    }

    /// The outline of that name.
    pub fn outline_named(&self, kind: KindId, name: &str) -> Option<OutlineId> {
        self.kind(kind)
            .outlines
            .iter()
            .copied()
            .find(|id| self.outline(*id).name == name)
    }

    /// The fact of that name.
    pub fn fact_named(&self, kind: KindId, name: &str) -> Option<FactId> {
        self.kind(kind)
            .facts
            .iter()
            .copied()
            .find(|id| self.fact(*id).name == name)
    }

    /// What the table says of a kind.
    #[expect(
        clippy::indexing_slicing,
        reason = "an id is only ever made by the table that holds it"
    )]
    pub fn kind(&self, id: KindId) -> &Kind {
        &self.kinds[usize::from(id.0)]
    }

    /// What the table says of an outline.
    #[expect(
        clippy::indexing_slicing,
        reason = "an id is only ever made by the table that holds it"
    )]
    pub fn outline(&self, id: OutlineId) -> &Outline {
        &self.outlines[usize::from(id.0)]
    }

    /// What the table says of a fact.
    #[expect(
        clippy::indexing_slicing,
        reason = "an id is only ever made by the table that holds it"
    )]
    pub fn fact(&self, id: FactId) -> &Fact {
        &self.facts[usize::from(id.0)]
    }

    /// `gate.latch-height`.
    pub fn fact_path(&self, id: FactId) -> String {
        let fact = self.fact(id);
        format!("{}.{}", self.kind(fact.kind).name, fact.name)
    }

    /// `pool.water`.
    pub fn outline_path(&self, id: OutlineId) -> String {
        let outline = self.outline(id);
        format!("{}.{}", self.kind(outline.kind).name, outline.name)
    }

    /// Adds a kind without outlines or facts. If there is one of that name already, returns that one.
    pub fn add_kind(&mut self, name: &str, said: &str, number: Number, ask: &str) -> KindId {
        if let Some(id) = self.kind_named(name) {
            return id;
        }
        let id = KindId(next(self.kinds.len()));
        self.kinds.push(Kind {
            name: name.to_owned(),
            said: said.to_owned(),
            number,
            outlines: Vec::new(),
            facts: Vec::new(),
            ask: ask.to_owned(),
            matter: None,
            role: None,
            owners: false,
            of_a_pool: false,
            opens: false,
            part: Part::default(),
            others: Lie::default(),
        });
        self.kinds_by_name.insert(name.to_owned(), id);
        id
    }

    /// Gives a kind its role.
    pub fn set_role(&mut self, kind: KindId, role: Role) {
        self.kind_mut(kind).role = Some(role);
    }

    /// Makes a kind like another: whose it is, whether it leads through a wall, and which part of a form asks for it.
    pub(crate) fn kind_like(&mut self, kind: KindId, other: KindId) {
        let other = self.kind(other).clone();
        let own = self.kind_mut(kind);
        (own.owners, own.of_a_pool, own.opens) = (other.owners, other.of_a_pool, other.opens);
        own.part = other.part;
    }

    /// Makes an outline like another: its heights (by facts of the same names), its look, and whether it blocks the
    /// way. Returns the facts that its own kind lacks; if there are any, nothing changes.
    pub(crate) fn outline_like(&mut self, outline: OutlineId, other: OutlineId) -> Vec<String> {
        let (kind, other) = (self.outline(outline).kind, self.outline(other).clone());
        let name = |fact: FactId| self.fact(fact).name.as_str();
        let lie = other.lie;
        let heights = lie.extent.into_iter().flat_map(|(low, high)| [low, high]);
        let told = heights.flat_map(Height::facts);
        let lacking: BTreeSet<&str> = told
            .chain(lie.level.map(|level| level.fact))
            .map(name)
            .filter(|name| self.fact_named(kind, name).is_none())
            .collect();
        if !lacking.is_empty() {
            return lacking.into_iter().map(str::to_owned).collect();
        }
        let own = |fact: FactId| self.fact_named(kind, name(fact));
        let extent = lie.extent;
        let lie = Lie {
            extent: extent.and_then(|(low, high)| Some((low.with(own)?, high.with(own)?))),
            level: lie.level.and_then(|level| level.with(own)),
            ..lie
        };
        let entry = self.outline_mut(outline);
        (entry.bars_the_way, entry.solid) = (other.bars_the_way, other.solid);
        entry.lie = lie;
        Vec::new()
    }

    /// Sets the matter that a kind belongs to.
    pub fn set_matter(&mut self, kind: KindId, matter: Option<Matter>) {
        self.kind_mut(kind).matter = matter;
    }

    #[expect(
        clippy::indexing_slicing,
        reason = "an id is only ever made by the table that holds it"
    )]
    pub(super) fn kind_mut(&mut self, id: KindId) -> &mut Kind {
        &mut self.kinds[usize::from(id.0)]
    }

    #[expect(
        clippy::indexing_slicing,
        reason = "an id is only ever made by the table that holds it"
    )]
    pub(super) fn outline_mut(&mut self, id: OutlineId) -> &mut Outline {
        &mut self.outlines[usize::from(id.0)]
    }

    /// The matter that a fact belongs to: its own, else its kind's.
    pub fn matter_of(&self, fact: FactId) -> Option<Matter> {
        let fact = self.fact(fact);
        fact.matter.or(self.kind(fact.kind).matter)
    }

    /// How many kinds, outlines and facts there are.
    pub fn counts(&self) -> [usize; 3] {
        [self.kinds.len(), self.outlines.len(), self.facts.len()]
    }

    /// Replaces a fact by the same fact in other words.
    #[expect(
        clippy::indexing_slicing,
        reason = "an id is only ever made by the table that holds it"
    )]
    pub fn reword_fact(&mut self, id: FactId, fact: Fact) {
        self.facts[usize::from(id.0)] = fact;
    }

    /// Adds an outline to its kind.
    pub fn add_outline(&mut self, outline: Outline) -> OutlineId {
        let id = OutlineId(next(self.outlines.len()));
        self.kind_mut(outline.kind).outlines.push(id);
        self.outlines.push(outline);
        id
    }

    /// Adds a fact to its kind.
    pub fn add_fact(&mut self, fact: Fact) -> FactId {
        let id = FactId(next(self.facts.len()));
        self.kind_mut(fact.kind).facts.push(id);
        self.facts.push(fact);
        id
    }
}

/// The next place in a list of the table. A rule set cannot fill it, because the reader refuses files that large long
/// before.
fn next(length: usize) -> u16 {
    u16::try_from(length).unwrap_or(u16::MAX)
}
