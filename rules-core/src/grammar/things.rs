//! The things, outlines and zones of which a rule speaks.

use super::Syntax::{self, Amount, AnyOf, List, Map, Meanings, Named, Pair, Text};
use super::{Key, Keys, keys, may, need};
use crate::quantity::Dimension;

pub(super) const LIMIT: Syntax = Named("limit");
pub(super) const OUTLINES: Syntax = Named("outlines");
pub(super) const REQUIREMENT: Syntax = Named("requirement");
pub(super) const ZONE: Syntax = Named("zone");
pub(super) const THINGS: Syntax = Named("things");

/// What it means if there is none of some things.
pub(crate) const IF_NONE: [(&str, &str); 3] = [
    ("passes", "Then this holds."),
    ("fails", "Then this does not hold."),
    ("refer", "Then it is for the authority."),
];

// The keys that choose among things.
pub(super) const WHERE: Key = may("where", REQUIREMENT).says("Only those of which this holds.");
pub(super) const IN: Key =
    may("in", ZONE).says("Only what lies in this zone, and only that part of it.");
pub(super) const IF_NONE_KEY: Key =
    may("if-none", Meanings(&IF_NONE)).says("What it means if there is none.");
pub(crate) const CHOOSING: [Key; 3] = [WHERE, IN, IF_NONE_KEY];

pub(super) const KIND: Key = need("kind", THINGS).says("Of what kind, or which term.");

pub(crate) const CHOSEN: Keys<4> = keys("a choice of things", [KIND, WHERE, IN, IF_NONE_KEY]);

pub(crate) const CHOSEN_OUTLINES: Keys<6> = keys(
    "an outline of some things",
    [
        need("kind", AnyOf(&[Named("outline-name"), THINGS]))
            .says("Of what kind, or which term; with its outline after a dot."),
        WHERE,
        IN,
        IF_NONE_KEY,
        may("outline", Text).says("Which outline of it."),
        may("counted", Amount(Some(Dimension::Number)))
            .says("The share by which its area counts, such as `50 %`."),
    ],
);

pub(crate) const ALL_OUTLINES: Keys<1> = keys(
    "outlines",
    [need("all", OUTLINES)
        .says("Those of all such things together, also where a rule is about one of them.")],
);

pub(crate) const EACH_OUTLINE: Keys<1> = keys(
    "outlines",
    [need("each", OUTLINES).says("Those of the one thing that the rule is about.")],
);

pub(crate) const AROUND: Keys<2> = keys("a zone", [need("around", OUTLINES), need("by", LIMIT)])
    .says("All within a distance of an outline.");
pub(crate) const BETWEEN: Keys<1> =
    keys("a zone", [need("between", Pair(&OUTLINES))]).says("What lies between two lines.");
pub(crate) const CORNER: Keys<1> = keys("a zone", [need("corner", Map(&CORNER_OF))])
    .says("The triangle at a corner, as for a sight triangle.");
pub(crate) const INSIDE: Keys<1> =
    keys("a zone", [need("inside", OUTLINES)]).says("The inside of an outline.");
pub(crate) const NOT_IN: Keys<1> = keys("a zone", [need("not", ZONE)]).says("All but a zone.");

pub(crate) const CORNER_OF: Keys<2> = keys(
    "a corner",
    [
        need("of", Pair(&OUTLINES)),
        need("legs", LIMIT).says("How far along each of the two lines."),
    ],
);

/// The zones that are not simply an outline.
pub(crate) const ZONE_MAP: Syntax = AnyOf(&[
    Map(&AROUND),
    Map(&BETWEEN),
    Map(&CORNER),
    Map(&INSIDE),
    Map(&NOT_IN),
]);

/// Things, outlines and zones, by the names under which other tables speak of them.
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
