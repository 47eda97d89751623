//! The whole table, and lookups in it by name, role or id.

use std::collections::BTreeMap;

use super::{Fact, FactId, Kind, KindId, Matter, Outline, OutlineId, Role};

/// The whole table: what the program knows and what a rule set added.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Vocabulary {
    pub(super) kinds: Vec<Kind>,
    pub(super) outlines: Vec<Outline>,
    pub(super) facts: Vec<Fact>,
    pub(super) kinds_by_name: BTreeMap<String, KindId>,
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

    /// The kind of that name.
    pub fn kind_named(&self, name: &str) -> Option<KindId> {
        self.kinds_by_name.get(name).copied()
    }

    /// The kind that people call by this name, singular or plural.
    pub(crate) fn kind_called(&self, name: &str) -> Option<KindId> {
        let name = name.trim().to_lowercase().replace([' ', '_'], "-");
        let single = name.strip_suffix('s').unwrap_or(&name);
        let called = |kind: &Kind| {
            kind.also
                .iter()
                .any(|word| *word == name || *word == single)
        };
        self.kinds()
            .find_map(|(id, kind)| called(kind).then_some(id))
    }

    /// The kinds whose facts are written without the kind in front.
    pub fn short_kinds(&self) -> impl Iterator<Item = KindId> + '_ {
        let roles = [Role::Answers, Role::Events].into_iter();
        roles.filter_map(|role| self.with_role(role))
    }

    /// What the table says of a kind.
    #[expect(
        clippy::indexing_slicing,
        reason = "an id is only ever made by the table that holds it"
    )]
    pub fn kind(&self, id: KindId) -> &Kind {
        &self.kinds[usize::from(id.0)]
    }

    /// The outline of that name.
    pub fn outline_named(&self, kind: KindId, name: &str) -> Option<OutlineId> {
        self.kind(kind)
            .outlines
            .iter()
            .copied()
            .find(|id| self.outline(*id).name == name)
    }

    /// What the table says of an outline.
    #[expect(
        clippy::indexing_slicing,
        reason = "an id is only ever made by the table that holds it"
    )]
    pub fn outline(&self, id: OutlineId) -> &Outline {
        &self.outlines[usize::from(id.0)]
    }

    /// Whether an outline lies within another of the same kind, however they are drawn.
    pub fn is_within(&self, one: OutlineId, other: OutlineId) -> bool {
        let mut around = self.outline(one).within.iter();
        around.any(|next| *next == other || self.is_within(*next, other))
    }

    /// The fact of that name.
    pub fn fact_named(&self, kind: KindId, name: &str) -> Option<FactId> {
        self.kind(kind)
            .facts
            .iter()
            .copied()
            .find(|id| self.fact(*id).name == name)
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

    /// The matter that a fact belongs to: its own, else its kind's.
    pub fn matter_of(&self, fact: FactId) -> Option<Matter> {
        let fact = self.fact(fact);
        fact.matter.or(self.kind(fact.kind).matter)
    }

    /// How many kinds, outlines and facts there are.
    pub fn counts(&self) -> [usize; 3] {
        [self.kinds.len(), self.outlines.len(), self.facts.len()]
    }
}
