//! The ways to draw an outline.

use super::Syntax::{self, Alone, AnyOf, List, Map, Meanings, Named, Says};
use super::{Keys, keys, may, need};
use crate::quantity::Dimension;

const ANGLE: Syntax = Named("angle");
const LENGTH: Syntax = Named("length");
const POINT: Syntax = Named("point");

pub(crate) const CIRCLE: Keys<2> = keys("a circle", [need("at", POINT), need("radius", LENGTH)]);

pub(crate) const RECTANGLE: Keys<4> = keys(
    "a rectangle",
    [
        need("at", POINT),
        need("length", LENGTH),
        need("width", LENGTH),
        may("turned", ANGLE),
    ],
);

pub(crate) const ROUNDED_RECTANGLE: Keys<5> = keys(
    "a rounded rectangle",
    [
        need("at", POINT),
        need("length", LENGTH),
        need("width", LENGTH),
        may("turned", ANGLE),
        need("corner-radius", LENGTH),
    ],
);

pub(crate) const L_SHAPE: Keys<6> = keys(
    "an L",
    [
        need("at", POINT),
        need("length", LENGTH),
        need("width", LENGTH),
        need("notch-length", LENGTH),
        need("notch-width", LENGTH),
        may("turned", ANGLE),
    ],
);

pub(crate) const OVAL: Keys<3> = keys(
    "an oval",
    [
        need("from", POINT),
        need("to", POINT),
        need("radius", LENGTH),
    ],
);

pub(crate) const KIDNEY: Keys<5> = keys(
    "a kidney",
    [
        need("from", POINT),
        need("to", POINT),
        need("radius", LENGTH),
        need("hollow", LENGTH),
        may("back", LENGTH),
    ],
);

/// How far a side stands out or in: just one of the two.
pub(crate) const ARC: Keys<2> = keys("an arc", [may("out", LENGTH), may("in", LENGTH)]);

pub(crate) const BAND: Keys<2> = keys(
    "a band",
    [need("along", Named("path")), need("width", LENGTH)],
);

/// The ways to draw an outline by itself, other than by its points.
pub(crate) const DRAWN: [(&str, Syntax); 8] = [
    (
        "circle",
        Says(
            "A circle by its middle and its radius.",
            &Alone("circle", &Map(&CIRCLE)),
        ),
    ),
    (
        "rectangle",
        Says(
            "A rectangle by its lower left corner, before it is turned.",
            &Alone("rectangle", &Map(&RECTANGLE)),
        ),
    ),
    (
        "rounded-rectangle",
        Says(
            "A rectangle with round corners.",
            &Alone("rounded-rectangle", &Map(&ROUNDED_RECTANGLE)),
        ),
    ),
    (
        "l-shape",
        Says(
            "A rectangle less a smaller one at the corner across from `at`.",
            &Alone("l-shape", &Map(&L_SHAPE)),
        ),
    ),
    (
        "oval",
        Says(
            "Two half circles round two points, and what lies between.",
            &Alone("oval", &Map(&OVAL)),
        ),
    ),
    (
        "kidney",
        Says(
            "Two round ends about two points, and a hollow to the left of the way from the one to the other.",
            &Alone("kidney", &Map(&KIDNEY)),
        ),
    ),
    (
        "curved",
        Says(
            "Corners as one walks round; between two of them, how far the side stands out or in at its middle.",
            &Alone(
                "curved",
                &List(
                    &AnyOf(&[POINT, Alone("out", &LENGTH), Alone("in", &LENGTH)]),
                    3,
                ),
            ),
        ),
    ),
    (
        "band",
        Says(
            "A line with a width, rounded at its ends.",
            &Alone("band", &Map(&BAND)),
        ),
    ),
];

/// Their words.
pub(crate) const DRAWN_WAYS: [&str; 8] = {
    let [a, b, c, d, e, f, g, h] = DRAWN;
    [a.0, b.0, c.0, d.0, e.0, f.0, g.0, h.0]
};

/// What outlines are made of, by the names under which other tables speak of it.
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
            "The corners, in the order in which one walks round; the first is not repeated.",
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

/// An outline of the same thing, of which another is made.
const OUTLINE: Syntax = Named("outline");

pub(crate) const SAME: Keys<1> = keys("an outline", [need("same-as", OUTLINE)]);

pub(crate) const OUTWARD: Keys<3> = keys(
    "an outline",
    [
        need("outward", LENGTH),
        need("from", OUTLINE),
        need("corners", Meanings(&CORNERS)),
    ],
);

pub(crate) const INWARD: Keys<2> = keys(
    "an outline",
    [need("inward", LENGTH), need("from", OUTLINE)],
);

/// The ways to make an outline of another one, each with what it gives.
pub(crate) const MADE: [Syntax; 3] = [
    Says("The same as another outline of this thing.", &Map(&SAME)),
    Says(
        "Further out than another outline of this thing.",
        &Map(&OUTWARD),
    ),
    Says(
        "Further in than another outline of this thing.",
        &Map(&INWARD),
    ),
];
