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
        }
    }
}

/// How high an outline of a thing lies over the ground.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Height {
    /// On the ground.
    Ground,
    /// As high as this fact says.
    At(FactId),
    /// As deep below the ground as this fact says.
    Below(FactId),
    /// Everywhere from the ground down to the depth that this fact says.
    DownTo(FactId),
}

/// The pool's own outlines count as on the ground: rules measure over the water of a pool in the ground.
/// Where an outline's height is not told by its kind's fact `height`: kind, outline (none: all others), fact.
const HEIGHTS: &[(&str, Option<&str>, &str)] = &[
    ("barrier-stretch", Some("top"), "height-outside"),
    ("gate", Some("latch"), "latch-height"),
    ("building", Some("roof"), "eaves-height"),
    ("pool-wall-stretch", None, "height-above-finished-grade"),
];
/// The same for what lies below the ground.
const DEPTHS: &[(&str, &str, &str)] = &[
    ("building", "footing", "footing-depth"),
    ("buried-service", "path", "depth"),
];
/// The same for what reaches from the ground down.
const HOLES: &[(&str, &str, &str)] = &[
    ("pool", "excavation", "excavation-depth"),
    ("excavation-zone", "region", "depth"),
];
/// Kinds whose `height` says how far it is from their foot to their top, while their outlines lie on the ground.
const ON_THE_GROUND: &[&str] = &["slope", "cliff", "retaining-wall"];

/// How high an outline lies over the ground.
pub(crate) fn height_of(vocabulary: &Vocabulary, outline: OutlineId) -> Height {
    let (own, name) = (
        vocabulary.outline(outline).kind,
        &vocabulary.outline(outline).name,
    );
    let kind = &vocabulary.kind(own).name;
    let named = |rows: &[(&str, &str, &'static str)]| {
        let row = rows.iter().find(|row| row.0 == kind && row.1 == name)?;
        vocabulary.fact_named(own, row.2)
    };
    if let Some(fact) = named(HOLES) {
        return Height::DownTo(fact);
    }
    if let Some(fact) = named(DEPTHS) {
        return Height::Below(fact);
    }
    if ON_THE_GROUND.contains(&kind.as_str()) {
        return Height::Ground;
    }
    let row = HEIGHTS
        .iter()
        .find(|row| row.0 == kind && row.1.is_none_or(|outline| outline == name));
    let fact = vocabulary.fact_named(own, row.map_or("height", |row| row.2));
    fact.map_or(Height::Ground, Height::At)
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
