//! Adds kinds, outlines and facts to the table: those of the program, and those of a rule file.

use std::collections::BTreeSet;

use super::{
    Fact, FactId, Height, Kind, KindId, Lie, Matter, Number, Outline, OutlineId, Role, Vocabulary,
};

impl Vocabulary {
    /// Adds a kind without outlines or facts. If there is one of that name already, returns that one.
    pub fn add_kind(&mut self, name: &str, said: &str, number: Number, ask: &str) -> KindId {
        if let Some(id) = self.kind_named(name) {
            return id;
        }
        let id = KindId(next(self.kinds.len()));
        self.kinds.push(Kind::new(name, said, number, ask));
        self.kinds_by_name.insert(name.to_owned(), id);
        id
    }

    /// Gives a kind its role.
    pub fn set_role(&mut self, kind: KindId, role: Role) {
        self.kind_mut(kind).role = Some(role);
    }

    /// Sets the matter that a kind belongs to.
    pub fn set_matter(&mut self, kind: KindId, matter: Option<Matter>) {
        self.kind_mut(kind).matter = matter;
    }

    /// Makes a kind like another: whose it is, of what it is part, whether it leads through a wall, and which part of a form asks for it.
    pub(crate) fn kind_like(&mut self, kind: KindId, other: KindId) {
        let other = self.kind(other).clone();
        let own = self.kind_mut(kind);
        (own.owners, own.of_a_pool, own.opens) = (other.owners, other.of_a_pool, other.opens);
        (own.part, own.part_of) = (other.part, other.part_of);
    }

    /// Adds an outline to its kind.
    pub fn add_outline(&mut self, outline: Outline) -> OutlineId {
        let id = OutlineId(next(self.outlines.len()));
        self.kind_mut(outline.kind).outlines.push(id);
        self.outlines.push(outline);
        id
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

    /// Adds a fact to its kind.
    pub fn add_fact(&mut self, fact: Fact) -> FactId {
        let id = FactId(next(self.facts.len()));
        self.kind_mut(fact.kind).facts.push(id);
        self.facts.push(fact);
        id
    }

    /// Replaces a fact by the same fact in other words.
    #[expect(
        clippy::indexing_slicing,
        reason = "an id is only ever made by the table that holds it"
    )]
    pub fn reword_fact(&mut self, id: FactId, fact: Fact) {
        self.facts[usize::from(id.0)] = fact;
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
}

/// The next place in a list of the table. A rule set cannot fill it, because the reader refuses files that large long
/// before.
fn next(length: usize) -> u16 {
    u16::try_from(length).unwrap_or(u16::MAX)
}
