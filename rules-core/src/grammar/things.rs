//! The things, outlines and zones that a rule uses.

use super::Syntax::{self, Amount, AnyOf, List, Map, Meanings, Named, Pair, Text};
use super::{Key, Keys, keys, may, need};
use crate::quantity::Dimension;

pub(super) const LIMIT: Syntax = Named("limit");
pub(super) const OUTLINES: Syntax = Named("outlines");
pub(super) const REQUIREMENT: Syntax = Named("requirement");
pub(super) const ZONE: Syntax = Named("zone");
pub(super) const THINGS: Syntax = Named("things");

/// The outcome if there are no such things.
pub(crate) const IF_NONE: [(&str, &str); 3] = [
    ("passes", "Then this holds."),
    ("fails", "Then this does not hold."),
    ("refer", "Then it is for the authority."),
];

// The keys that choose among things.
pub(super) const WHERE: Key = may("where", REQUIREMENT).says("Only those for which this holds.");
pub(super) const IN: Key = may("in", ZONE).says(
    "Only those of which any outline lies in this zone. A distance is taken from the part in it.",
);
pub(super) const PART_OF: Key = may("part-of", Named("kind-name")).says(
    "Only those that are part of the one of this kind that is meant, such as the building that the rule judges.",
);
pub(super) const IF_NONE_KEY: Key =
    may("if-none", Meanings(&IF_NONE)).says("What it means if there is none.");
pub(crate) const CHOOSING: [Key; 4] = [PART_OF, WHERE, IN, IF_NONE_KEY];

pub(super) const KIND: Key = need("kind", THINGS).says("The kind, or a term.");

pub(crate) const CHOSEN: Keys<5> = keys([KIND, PART_OF, WHERE, IN, IF_NONE_KEY])
    .called("a choice of things")
    .example("{kind: gate, where: {fact: gate.width, more-than: 1 m}, if-none: passes}");

pub(crate) const CHOSEN_OUTLINES: Keys<7> = keys([
    need("kind", AnyOf(&[Named("outline-name"), THINGS]))
        .says("The kind, or a term; with its outline after a dot."),
    PART_OF,
    WHERE,
    IN,
    IF_NONE_KEY,
    may("outline", Text).says("Which outline of it."),
    may("counted", Amount(Some(Dimension::Number)))
        .says("The share by which its area counts, such as `50 %`."),
])
.called("an outline of some things")
.example("{kind: building, outline: footprint, counted: 50 %}");

pub(crate) const ALL_OUTLINES: Keys<1> = keys([need("all", OUTLINES)
    .says("Those of all such things together, even if the rule is about one of them.")])
.called("outlines")
.example("{all: pool.water}");

pub(crate) const EACH_OUTLINE: Keys<1> =
    keys([need("each", OUTLINES).says("Those of the one thing that the rule is about.")])
        .called("outlines")
        .example("{each: pool.water}");

pub(crate) const AROUND: Keys<2> = keys([need("around", OUTLINES), need("by", LIMIT)])
    .called("a zone")
    .says("Everything within a distance of an outline.")
    .example("{around: pool.water, by: 3 m}");
pub(crate) const BETWEEN: Keys<1> = keys([need("between", Pair(&OUTLINES))])
    .called("a zone")
    .says("What lies between two lines.")
    .example("{between: [pool.water, lot-line]}");
pub(crate) const CORNER: Keys<1> = keys([need("corner", Map(&CORNER_OF))])
    .called("a zone")
    .says("The triangle at a corner, as for a sight triangle.")
    .example("{corner: {of: [front, side], legs: 6 m}}");
pub(crate) const INSIDE: Keys<1> = keys([need("inside", OUTLINES)])
    .called("a zone")
    .says("The inside of an outline.")
    .example("{inside: lot.boundary}");
pub(crate) const NOT_IN: Keys<1> = keys([need("not", ZONE)])
    .called("a zone")
    .says("Everything but a zone.")
    .example("{not: {inside: building.footprint}}");

pub(crate) const CORNER_OF: Keys<2> = keys([
    need("of", Pair(&OUTLINES)),
    need("legs", LIMIT).says("How far along each of the two lines."),
])
.called("a corner")
.example("{of: [front, side], legs: 6 m}");

/// The zones that are not simply an outline.
pub(crate) const ZONE_MAP: Syntax = AnyOf(&[
    Map(&AROUND),
    Map(&BETWEEN),
    Map(&CORNER),
    Map(&INSIDE),
    Map(&NOT_IN),
]);

/// Things, outlines and zones, under the names that other tables use.
pub(crate) const PLACES: [(&str, Syntax); 3] = [
    ("things", AnyOf(&[Named("kind-name"), Map(&CHOSEN)])),
    (
        "outlines",
        AnyOf(&[
            Named("outline-name"),
            List(&OUTLINES, 1),
            Map(&CHOSEN_OUTLINES),
            Map(&ALL_OUTLINES),
            Map(&EACH_OUTLINE),
        ]),
    ),
    (
        "zone",
        AnyOf(&[
            OUTLINES,
            Map(&AROUND),
            Map(&BETWEEN),
            Map(&CORNER),
            Map(&INSIDE),
            Map(&NOT_IN),
        ]),
    ),
];
