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
const OWNERS: &[&str] = &[
    "pool",
    "pool-wall-stretch",
    "excavation-zone",
    "diving-structure",
    "ladder",
    "cover",
    "deck",
    "driveway",
    "equipment",
    "receptacle",
    "light",
    "disconnect",
    "junction-box",
    "screen-enclosure",
    "pool-enclosure",
    "mesh-fence",
    "temporary-fence",
    "gate",
    "barrier-opening",
    "raised-ground",
    "retaining-wall",
];

/// Kinds of thing that belong to one pool: where a plan has several, a rule about one pool speaks of its own only.
const PARTS_OF_A_POOL: &[&str] = &[
    "pool-wall-stretch",
    "excavation-zone",
    "ladder",
    "cover",
    "pool-alarm",
    "diving-structure",
];

/// Whether a thing of this kind belongs to one pool.
pub(crate) fn is_part_of_a_pool(kind: KindId, vocabulary: &Vocabulary) -> bool {
    PARTS_OF_A_POOL.contains(&vocabulary.kind(kind).name.as_str())
}

/// Facts that say whose a thing of any other kind is, also of a kind that a rule file adds: the owner's, where it is this word.
const WHOSE: &[(&str, &str)] = &[("stands-on", "lot"), ("on", "own"), ("owner", "applicant")];

/// The fact that says whose a thing of a kind is, and the word by which it is the owner's; `None` where the kind says it, or
/// nothing does.
pub(crate) fn says_whose(kind: KindId, vocabulary: &Vocabulary) -> Option<(FactId, &'static str)> {
    let rows = WHOSE.iter().filter(|_| !is_the_owners(kind, vocabulary));
    rows.filter_map(|(fact, word)| Some((vocabulary.fact_named(kind, fact)?, *word)))
        .next()
}

/// Whether all things of a kind are the owner's.
pub(crate) fn is_the_owners(kind: KindId, vocabulary: &Vocabulary) -> bool {
    OWNERS.contains(&vocabulary.kind(kind).name.as_str())
}

/// Outlines that lie within another of the same thing, however it is drawn: kind, outline, the one around it. Where the one
/// around it is not, they are not either.
const WITHIN: &[(&str, &str, &str)] = &[
    ("lot", "flag-handle", "boundary"),
    ("pool", "water", "coping"),
    ("pool", "water", "inside-face"),
    ("pool", "inside-face", "shell"),
    ("pool", "shell", "with-attached"),
    ("pool", "coping", "with-attached"),
    ("building", "front-wall", "wall"),
    ("building", "rear-wall", "wall"),
    ("building", "side-wall", "wall"),
    ("building", "principal-elevation", "wall"),
    ("foothold", "top", "region"),
    ("gate", "line", "swing"),
    ("tree", "stem", "root-zone"),
    ("road", "edge", "right-of-way"),
    ("road", "centreline", "right-of-way"),
    ("flood-area", "floodway", "region"),
    ("lifting-machine", "stand", "sweep"),
];

/// Outlines that are no part of the thing itself: kind, outline.
const BESIDE: &[(&str, &str)] = &[("pool", "enclosed-area")];

/// Whether an outline lies within another of the same kind, however they are drawn.
pub(crate) fn is_within(one: OutlineId, other: OutlineId, vocabulary: &Vocabulary) -> bool {
    let (one, around) = (vocabulary.outline(one), vocabulary.outline(other));
    let kind = &vocabulary.kind(one.kind).name;
    let rows = WITHIN
        .iter()
        .filter(|row| row.0 == kind && row.1 == one.name);
    let mut next = rows.filter_map(|row| vocabulary.outline_named(one.kind, row.2));
    one.kind == around.kind && next.any(|next| next == other || is_within(next, other, vocabulary))
}

/// Whether an outline is no part of its thing.
pub(crate) fn is_beside(outline: OutlineId, vocabulary: &Vocabulary) -> bool {
    let outline = vocabulary.outline(outline);
    let kind = vocabulary.kind(outline.kind).name.as_str();
    BESIDE.contains(&(kind, outline.name.as_str()))
}

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

/// A hole in a barrier: its kind, its outline, and the fact that says how wide a ball passes.
pub(crate) const OPENING: (&str, &str, &str) = ("barrier-opening", "line", "width");

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
