//! The ways to draw an outline.

use super::Syntax::{self, Alone, AnyOf, List, Map, Meanings, Named, Says};
use super::{Key, Keys, keys, may, need};
use crate::quantity::Dimension;

const ANGLE: Syntax = Named("angle");
const LENGTH: Syntax = Named("length");
const POINT: Syntax = Named("point");

// Keys that several ways have.
const AT: Key = need("at", POINT);
const FROM: Key = need("from", POINT);
const TO: Key = need("to", POINT);
const LONG: Key = need("length", LENGTH);
const WIDE: Key = need("width", LENGTH);
const RADIUS: Key = need("radius", LENGTH);
const TURNED: Key = may("turned", ANGLE);

pub(crate) const CIRCLE: Keys<2> = keys([AT, RADIUS])
    .called("a circle")
    .example("{at: [4, 4], radius: 1.5 m}");
pub(crate) const RECTANGLE: Keys<4> = keys([AT, LONG, WIDE, TURNED])
    .called("a rectangle")
    .example("{at: [2, 3], length: 8 m, width: 4 m, turned: 15 deg}");
pub(crate) const ROUNDED: Keys<5> = keys([AT, LONG, WIDE, TURNED, need("corner-radius", LENGTH)])
    .called("a rounded rectangle")
    .example("{at: [2, 3], length: 8 m, width: 4 m, corner-radius: 500 mm}");
pub(crate) const L_SHAPE: Keys<6> = keys([
    AT,
    LONG,
    WIDE,
    need("notch-length", LENGTH),
    need("notch-width", LENGTH),
    TURNED,
])
.called("an L")
.example("{at: [2, 3], length: 8 m, width: 5 m, notch-length: 3 m, notch-width: 2 m}");
pub(crate) const OVAL: Keys<3> = keys([FROM, TO, RADIUS])
    .called("an oval")
    .example("{from: [2, 3], to: [6, 3], radius: 1.5 m}");
pub(crate) const KIDNEY: Keys<5> = keys([
    FROM,
    TO,
    RADIUS,
    need("hollow", LENGTH),
    may("back", LENGTH),
])
.called("a kidney")
.example("{from: [2, 3], to: [6, 3], radius: 1.5 m, hollow: 600 mm}");
pub(crate) const BAND: Keys<2> = keys([need("along", Named("path")), WIDE])
    .called("a band")
    .example("{along: [[0, 0], [4, 0]], width: 300 mm}");
/// How far a side bulges out or in: one of the two, not both.
pub(crate) const ARC: Keys<2> = keys([may("out", LENGTH), may("in", LENGTH)]).called("an arc");
const CURVED: Syntax = List(
    &AnyOf(&[POINT, Alone("out", &LENGTH), Alone("in", &LENGTH)]),
    3,
);

/// A way to draw an outline by itself: its key, what it draws, and what stands after the key.
type Way = (&'static str, &'static str, Syntax);

/// The ways to draw an outline by itself, besides listing its points.
pub(crate) const DRAWN: [Way; 8] = [
    (
        "circle",
        "A circle by its centre and its radius.",
        Map(&CIRCLE),
    ),
    (
        "rectangle",
        "A rectangle by its lower left corner, before it is turned.",
        Map(&RECTANGLE),
    ),
    (
        "rounded-rectangle",
        "A rectangle with round corners.",
        Map(&ROUNDED),
    ),
    (
        "l-shape",
        "A rectangle less a smaller one at the corner across from `at`.",
        Map(&L_SHAPE),
    ),
    (
        "oval",
        "Two half circles round two points, and the area between.",
        Map(&OVAL),
    ),
    (
        "kidney",
        "Two round ends about two points, and a hollow on the left as you go from one to the other.",
        Map(&KIDNEY),
    ),
    (
        "curved",
        "Corners in order round the shape; between two of them, how far the side bulges out or in at its middle.",
        CURVED,
    ),
    (
        "band",
        "A line with a width, rounded at its ends.",
        Map(&BAND),
    ),
];

/// Their words.
pub(crate) const DRAWN_WAYS: [&str; 8] = {
    let [a, b, c, d, e, f, g, h] = DRAWN;
    [a.0, b.0, c.0, d.0, e.0, f.0, g.0, h.0]
};

/// The parts of outlines, under the names that other tables use.
pub(crate) const DRAWN_OF: [(&str, Syntax); 5] = [
    (
        "length",
        Says(
            "A length; a figure without a unit takes the plan's.",
            &Syntax::Length,
        ),
    ),
    (
        "angle",
        Says(
            "An angle in degrees, such as `4 deg`.",
            &Syntax::Amount(Some(Dimension::Angle)),
        ),
    ),
    (
        "point",
        Says(
            "How far east and how far north: `[8, 20]`.",
            &Syntax::Pair(&Syntax::Length),
        ),
    ),
    (
        "path",
        Says("The points of a line, in their order.", &List(&POINT, 2)),
    ),
    (
        "ring",
        Says(
            "The corners in order round the shape; the first is not repeated.",
            &List(&POINT, 3),
        ),
    ),
];

/// How corners are moved outward.
pub(crate) const CORNERS: [(&str, &str); 2] = [
    (
        "round",
        "The same distance everywhere, so that the corners are rounded.",
    ),
    (
        "square",
        "With corners as sharp as those of the other outline.",
    ),
];

/// An outline of the same thing from which another is made.
const OUTLINE: Syntax = Named("outline");

pub(crate) const SAME: Keys<1> = keys([need("same-as", OUTLINE)])
    .called("an outline")
    .says("The same as another outline of this thing.");
pub(crate) const OUTWARD: Keys<3> = keys([
    need("outward", LENGTH),
    need("from", OUTLINE),
    need("corners", Meanings(&CORNERS)),
])
.called("an outline")
.says("Further out than another outline of this thing.");
pub(crate) const INWARD: Keys<2> = keys([need("inward", LENGTH), need("from", OUTLINE)])
    .called("an outline")
    .says("Further in than another outline of this thing.");
