//! The few kinds that the geometry of a plan treats specially.

use crate::vocabulary::{FactId, KindId, OutlineId, Role, Vocabulary};

/// The ids of those kinds in a vocabulary.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Special {
    pub(crate) lot: KindId,
    pub(crate) boundary: OutlineId,
    pub(crate) lot_line: KindId,
    pub(crate) line: OutlineId,
    pub(crate) pool: KindId,
    pub(crate) building: KindId,
    pub(crate) wall: OutlineId,
    pub(crate) side_wall: OutlineId,
    pub(crate) spot: KindId,
    pub(crate) contour: KindId,
    pub(crate) level_ground: Option<FactId>,
}

impl Special {
    /// Looks them up. One that the vocabulary lacks gets an id that no thing has.
    pub(crate) fn of(vocabulary: &Vocabulary) -> Special {
        let outline = |kind: Option<KindId>, name: &str| {
            kind.and_then(|kind| vocabulary.outline_named(kind, name))
                .unwrap_or(OutlineId(u16::MAX))
        };
        let kind = |role: Role| vocabulary.with_role(role);
        let here = |role: Role| kind(role).unwrap_or(KindId(u16::MAX));
        Special {
            lot: here(Role::Lot),
            boundary: outline(kind(Role::Lot), "boundary"),
            lot_line: here(Role::LotLine),
            line: outline(kind(Role::LotLine), LINE),
            pool: here(Role::Pool),
            building: here(Role::Building),
            wall: outline(kind(Role::Building), "wall"),
            side_wall: outline(kind(Role::Building), "side-wall"),
            spot: here(Role::Spot),
            contour: here(Role::Contour),
            level_ground: kind(Role::Lot)
                .and_then(|lot| vocabulary.fact_named(lot, "level-ground")),
        }
    }
}

/// Facts that say who owns a thing, also for kinds that a rule file adds, each with the word for "the pool's owner".
const OWNERSHIP: &[(&str, &str)] = &[("stands-on", "lot"), ("on", "own"), ("owner", "applicant")];

/// The fact that says who owns a thing of a kind, with its word for the pool's owner; `None` where the kind itself says it,
/// or no fact does.
pub(crate) fn ownership_fact(
    kind: KindId,
    vocabulary: &Vocabulary,
) -> Option<(FactId, &'static str)> {
    let rows = OWNERSHIP.iter().filter(|_| !vocabulary.kind(kind).owners);
    rows.filter_map(|(fact, word)| Some((vocabulary.fact_named(kind, fact)?, *word)))
        .next()
}

/// The facts that describe the noise of a machine, whatever its kind.
pub(crate) const POWER: &str = "sound-power";
pub(crate) const REFLECTING: &str = "reflecting-surfaces";
pub(crate) const RUNS: &str = "runs";

/// Whether a machine whose running times are `word` runs in that part of the day.
pub(crate) fn runs_during(word: &str, during: &str) -> bool {
    word == "always" || word.split("-and-").any(|part| part == during)
}

/// The fact that gives the widest ball that passes through a hole in a barrier.
pub(crate) const WIDTH: &str = "width";
/// The outline of a gate, a door, a window or a hole in a barrier.
pub(crate) const LINE: &str = "line";

/// The kind with a role, and its line.
pub(crate) fn line_of(role: Role, vocabulary: &Vocabulary) -> Option<(KindId, OutlineId)> {
    let kind = vocabulary.with_role(role)?;
    Some((kind, vocabulary.outline_named(kind, LINE)?))
}

/// The outlines that a person on foot has to go round.
pub(crate) fn in_the_way(vocabulary: &Vocabulary) -> impl Iterator<Item = OutlineId> + '_ {
    let outlines = vocabulary.kinds().flat_map(|(_, kind)| &kind.outlines);
    outlines
        .copied()
        .filter(|id| vocabulary.outline(*id).bars_the_way)
}
