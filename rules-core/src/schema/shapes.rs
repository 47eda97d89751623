//! The ways to draw an outline.

use serde_json::{Map, Value, json};

use super::amounts::amount;
use super::parts::{any_of, choice, defined, keys, list_of, map, said, word};
use crate::plan::DRAWN_WAYS;
use crate::quantity::Dimension;
use crate::vocabulary::{KindId, OutlineId, Shape, Vocabulary};

/// The definitions that outlines use.
pub(super) fn define(definitions: &mut Map<String, Value>) {
    let length = amount(Some(Dimension::Length), true);
    let point = json!({"type": "array", "items": length, "minItems": 2, "maxItems": 2});
    let list = [
        (
            "length",
            said(
                "A length; a figure without a unit takes the plan's.",
                length,
            ),
        ),
        (
            "angle",
            said(
                "An angle in degrees, such as `4 deg`.",
                amount(Some(Dimension::Angle), false),
            ),
        ),
        (
            "point",
            said("How far east and how far north: `[8, 20]`.", point),
        ),
        (
            "path",
            said(
                "The points of a line, in their order.",
                list_of(defined("point"), 2),
            ),
        ),
        (
            "ring",
            said(
                "The corners, in the order in which one walks round; the first is not repeated.",
                list_of(defined("point"), 3),
            ),
        ),
        (
            "circle",
            said(
                "A circle by its middle and its radius.",
                drawn("circle", &["at", "radius"], &[]),
            ),
        ),
        (
            "oval",
            said(
                "Two half circles round two points, and what lies between.",
                drawn("oval", &["from", "to", "radius"], &[]),
            ),
        ),
        (
            "band",
            said(
                "A line with a width, rounded at its ends.",
                drawn("band", &["along", "width"], &[]),
            ),
        ),
        (
            "rectangle",
            said(
                "A rectangle by its lower left corner, before it is turned.",
                drawn("rectangle", &["at", "length", "width"], &["turned"]),
            ),
        ),
        (
            "rounded-rectangle",
            said(
                "A rectangle with round corners.",
                drawn(
                    "rounded-rectangle",
                    &["at", "length", "width", "corner-radius"],
                    &["turned"],
                ),
            ),
        ),
        (
            "l-shape",
            said(
                "A rectangle less a smaller one at the corner across from `at`.",
                drawn(
                    "l-shape",
                    &["at", "length", "width", "notch-length", "notch-width"],
                    &["turned"],
                ),
            ),
        ),
        (
            "kidney",
            said(
                "Two round ends about two points, and a hollow to the left of the way from the one to the other.",
                drawn("kidney", &["from", "to", "radius", "hollow"], &["back"]),
            ),
        ),
        (
            "curved",
            said(
                "Corners as one walks round; between two of them, how far the side stands out or in at its middle.",
                curved(),
            ),
        ),
    ];
    definitions.extend(list.map(|(name, schema)| (name.to_owned(), schema)));
}

fn curved() -> Value {
    let arc = |way| map(keys([(way, defined("length"))]), &[way]);
    let item = any_of(vec![defined("point"), arc("out"), arc("in")]);
    map(keys([("curved", list_of(item, 3))]), &["curved"])
}

fn drawn(way: &str, needed: &[&str], more: &[&str]) -> Value {
    let part = |name: &&str| {
        let of = match *name {
            "at" | "from" | "to" => "point",
            "along" => "path",
            "turned" => "angle",
            _ => "length",
        };
        ((*name).to_owned(), defined(of))
    };
    let parts = needed.iter().chain(more).map(part).collect();
    map(keys([(way, map(parts, needed))]), &[way])
}

/// How each shape is drawn, and how outlines of a kind are taken from each other.
pub(super) fn define_ways(definitions: &mut Map<String, Value>, vocabulary: &Vocabulary) {
    for (shape, name) in [
        (Shape::Point, "drawn-point"),
        (Shape::Line, "drawn-line"),
        (Shape::Area, "drawn-area"),
    ] {
        let mut ways = own_ways(shape);
        let parts = map(
            keys([("parts", list_of(any_of(ways.clone()), 1))]),
            &["parts"],
        );
        ways.push(said("Several pieces of one outline.", parts));
        ways.push(choice("unknown", "Nobody knows yet."));
        definitions.insert(name.to_owned(), any_of(ways));
    }
    for (id, kind) in vocabulary.kinds() {
        let names: Vec<_> = vocabulary.outline_names(id).collect();
        definitions.insert(format!("taken-{}", kind.name), any_of(taken_from(&names)));
    }
}

/// An outline of a kind, with its name in words.
pub(super) fn outline(vocabulary: &Vocabulary, kind: KindId, id: OutlineId) -> Value {
    let outline = vocabulary.outline(id);
    let drawn = match outline.shape {
        Shape::Point => "drawn-point",
        Shape::Line => "drawn-line",
        Shape::Area => "drawn-area",
    };
    let taken = format!("taken-{}", vocabulary.kind(kind).name);
    let none = outline.none.then(|| choice("none", "There is none."));
    let ways = [defined(drawn), defined(&taken)].into_iter().chain(none);
    said(&outline.said, any_of(ways.collect()))
}

fn own_ways(shape: Shape) -> Vec<Value> {
    let (by_points, ways): (&str, &[&str]) = match shape {
        Shape::Point => ("point", &["circle"]),
        Shape::Line => ("path", &[]),
        Shape::Area => ("ring", &DRAWN_WAYS),
    };
    let names = std::iter::once(&by_points).chain(ways);
    names.map(|name| defined(name)).collect()
}

/// An outline taken from another of the same thing.
fn taken_from(names: &[&str]) -> Vec<Value> {
    let name = || word(names.iter().copied());
    let corners = any_of(vec![
        choice(
            "round",
            "The same distance everywhere, so that the corners are rounded.",
        ),
        choice(
            "square",
            "With corners as sharp as those of the other outline.",
        ),
    ]);
    let same = keys([("same-as", name())]);
    let outward = keys([
        ("outward", defined("length")),
        ("from", name()),
        ("corners", corners),
    ]);
    let inward = keys([("inward", defined("length")), ("from", name())]);
    vec![
        said(
            "The same as another outline of this thing.",
            map(same, &["same-as"]),
        ),
        said(
            "Further out than another outline of this thing.",
            map(outward, &["outward", "from", "corners"]),
        ),
        said(
            "Further in than another outline of this thing.",
            map(inward, &["inward", "from"]),
        ),
    ]
}
