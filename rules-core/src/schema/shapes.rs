//! The ways to draw an outline.

use serde_json::{Map, Value};

use super::parts::{alone, any_of, choice, defined, list_of, said, word};
use super::syntax::{self, of};
use crate::grammar::{DRAWN, DRAWN_OF, DRAWN_WAYS, INWARD, OUTWARD, SAME};
use crate::vocabulary::{KindId, OutlineId, Shape, Vocabulary};

/// The ways to draw outlines of each shape, and to take an outline from another of the same kind.
pub(super) fn define(definitions: &mut Map<String, Value>, vocabulary: &Vocabulary) {
    syntax::define(definitions, &DRAWN_OF);
    for (way, means, after) in DRAWN {
        definitions.insert(way.to_owned(), said(means, alone(way, of(&after))));
    }
    for (shape, name) in [
        (Shape::Point, "drawn-point"),
        (Shape::Line, "drawn-line"),
        (Shape::Area, "drawn-area"),
    ] {
        let mut ways = own_ways(shape);
        let parts = alone("parts", list_of(any_of(ways.clone()), 1));
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
    let mut ways = [
        syntax::map(&SAME),
        syntax::map(&OUTWARD),
        syntax::map(&INWARD),
    ];
    for way in &mut ways {
        for key in ["same-as", "from"] {
            if let Some(outline) = way.pointer_mut(&format!("/properties/{key}")) {
                *outline = word(names.iter().copied());
            }
        }
    }
    ways.to_vec()
}
