//! The few kinds that the geometry of a plan treats in a way of their own.

use crate::vocabulary::{FactId, KindId, OutlineId, Vocabulary};

/// Where those kinds stand in a vocabulary.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Special {
    pub(crate) lot: KindId,
    pub(crate) boundary: OutlineId,
    pub(crate) lot_line: KindId,
    pub(crate) line: OutlineId,
    pub(crate) pool: KindId,
    pub(crate) side_wall: OutlineId,
    pub(crate) spot: KindId,
    pub(crate) contour: KindId,
    pub(crate) level_ground: Option<FactId>,
}

impl Special {
    /// Looks them up. A vocabulary that lacks one gets a place that no thing has.
    pub(crate) fn of(vocabulary: &Vocabulary) -> Special {
        let kind = |name: &str| vocabulary.kind_named(name);
        let outline = |kind: Option<KindId>, name: &str| {
            kind.and_then(|kind| vocabulary.outline_named(kind, name))
                .unwrap_or(OutlineId(u16::MAX))
        };
        let nowhere = KindId(u16::MAX);
        Special {
            lot: kind("lot").unwrap_or(nowhere),
            boundary: outline(kind("lot"), "boundary"),
            lot_line: kind("lot-line").unwrap_or(nowhere),
            line: outline(kind("lot-line"), "line"),
            pool: kind("pool").unwrap_or(nowhere),
            side_wall: outline(kind("building"), "side-wall"),
            spot: kind("ground-spot").unwrap_or(nowhere),
            contour: kind("contour").unwrap_or(nowhere),
            level_ground: kind("lot").and_then(|lot| vocabulary.fact_named(lot, "level-ground")),
        }
    }
}

/// Kinds of thing that are always the owner's own: once past a lot line, they stand on somebody else's land.
pub(crate) const OWNERS: &[&str] = &[
    "pool",
    "pool-wall-stretch",
    "excavation-zone",
    "diving-structure",
    "cover",
    "deck",
    "equipment",
    "screen-enclosure",
    "pool-enclosure",
    "mesh-fence",
];

/// The facts by which the noise of a machine is told, whatever its kind.
pub(crate) const POWER: &str = "sound-power";
pub(crate) const REFLECTING: &str = "reflecting-surfaces";
pub(crate) const RUNS: &str = "runs";

/// Whether a machine of which `word` is said runs in that part of the day.
pub(crate) fn runs_during(word: &str, during: &str) -> bool {
    word == "always" || word.split("-and-").any(|part| part == during)
}

/// What leads through a barrier or a wall: a gate, a door, a window or a gap that is stated.
pub(crate) const PASSAGES: &[&str] = &["gate", "wall-opening", "barrier-opening"];

/// What stands in the way of who walks, and which outline of it. Gates, doors and windows count as closed.
pub(crate) const IN_THE_WAY: &[(&str, &str)] = &[
    ("building", "wall"),
    ("barrier-stretch", "line"),
    ("gate", "line"),
    ("mesh-fence", "line"),
    ("screen-enclosure", "region"),
    ("pool-enclosure", "region"),
    ("retaining-wall", "line"),
    ("cliff", "line"),
    ("open-water", "region"),
    ("pool", "water"),
];
