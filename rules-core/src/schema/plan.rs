//! A plan.

use serde_json::{Map, Value, json};

use super::amounts::amount;
use super::parts::{
    Keys, any_of, defined, defined_as, keys, list_of, map, meaning, or_nothing, said, short_name,
    text, word,
};
use super::{facts, shapes, things};
use crate::quantity::Dimension;
use crate::vocabulary::{Matter, Number, Vocabulary};

/// What plans are made of.
pub(super) fn definitions(vocabulary: &Vocabulary) -> Map<String, Value> {
    let mut definitions = Map::new();
    shapes::define(&mut definitions);
    shapes::define_ways(&mut definitions, vocabulary);
    facts::define(&mut definitions, vocabulary);
    things::define(&mut definitions, vocabulary);
    let more = [
        ("thing", things::any_thing(vocabulary)),
        ("inventory", things::inventory(vocabulary)),
        ("looked", things::looked()),
        ("corners", corners()),
        ("answered", answered()),
        ("source", source()),
        ("tape", tape()),
    ];
    definitions.extend(more.map(|(name, schema)| (name.to_owned(), schema)));
    definitions
}

/// The plan itself.
pub(super) fn top(vocabulary: &Vocabulary) -> Value {
    map(top_keys(vocabulary), &["plan", "title", "lot", "pool"])
}

/// The keys at the top of a plan.
pub(super) fn top_keys(vocabulary: &Vocabulary) -> Keys {
    let pool = defined("thing-pool");
    let pools = any_of(vec![pool.clone(), list_of(pool, 1)]);
    let each = json!({"type": "object", "additionalProperties": things::document_states()});
    let state = any_of(vec![
        things::document_states(),
        said(
            "For each thing by its id, where there is a document for each.",
            each,
        ),
    ]);
    let documents = json!({"type": "object", "additionalProperties": state});
    let mut top = keys([
        ("plan", said("A short name for this plan.", short_name())),
        ("title", said("What it is a plan of, in words.", text())),
        (
            "unit",
            said(
                "The unit of lengths that are written without one.",
                word(["m", "mm", "cm", "ft", "in", "yd"]),
            ),
        ),
        (
            "north",
            defined_as(
                "angle",
                "How far north is turned from the y axis, clockwise.",
            ),
        ),
        (
            "sources",
            said(
                "Where the places of things come from, and how good they are.",
                or_nothing(list_of(defined("source"), 0)),
            ),
        ),
        ("lot", defined("thing-lot")),
        ("pool", said("The pool, or a list of pools.", pools)),
        (
            "things",
            said(
                "All that stands, runs or grows on the lot and near it.",
                or_nothing(list_of(defined("thing"), 0)),
            ),
        ),
        ("inventory", or_nothing(defined("inventory"))),
        (
            "measured",
            said(
                "Distances read from a tape between two things.",
                or_nothing(list_of(defined("tape"), 0)),
            ),
        ),
        (
            "documents",
            said(
                "How the documents stand that the rules ask for.",
                or_nothing(documents),
            ),
        ),
        (
            "answered",
            said(
                "Matters that the rules may leave to others, and what somebody who knows has said of each.",
                or_nothing(defined("answered")),
            ),
        ),
    ]);
    for (_, kind) in vocabulary.kinds() {
        if kind.number == Number::One && kind.name != "lot" {
            let key = if kind.name == "events" {
                "dates"
            } else {
                &kind.name
            };
            let single = or_nothing(defined(&things::definition_of(kind)));
            top.insert(key.to_owned(), said(&kind.ask, single));
        }
    }
    top
}

/// What somebody who knows has said, under the name of its matter.
fn answered() -> Value {
    let keys = keys([
        ("says", said("What they said.", text())),
        ("by", said("Who said it.", text())),
        (
            "on",
            said("On which day.", amount(Some(Dimension::Date), false)),
        ),
    ]);
    let one = map(keys, &["by", "on"]);
    let all = Matter::ALL.iter();
    let each = all.map(|it| (it.id().to_owned(), said(it.ask(), one.clone())));
    map(each.collect(), &[])
}

fn corners() -> Value {
    let corner = map(
        keys([
            ("at", defined("point")),
            ("accuracy", defined("whereabouts")),
        ]),
        &["at"],
    );
    json!({
        "description": "The lot's corners, each with a name, in the order in which one walks round: `{a: [0, 0], b: [24, 0], …}`.",
        "type": "object",
        "propertyNames": short_name(),
        "minProperties": 3,
        "additionalProperties": any_of(vec![defined("point"), corner]),
    })
}

fn source() -> Value {
    let by = meaning([
        ("survey", "A surveyor's plan, by the marks in the ground."),
        ("plat", "The plan by which the land was divided."),
        ("deed", "The words of the deed."),
        (
            "map",
            "A town's or utility's map, or a picture from the air.",
        ),
        (
            "fence",
            "A fence, hedge or wall that is taken for the line.",
        ),
        ("guess", "Somebody's guess."),
        ("design", "What is to be built, as designed."),
        ("tape", "Measured with a tape."),
        (
            "designated",
            "Named by the owner where the rules leave it to the owner.",
        ),
    ]);
    let keys = keys([
        (
            "id",
            said(
                "A short name, by which things say that they are from this source.",
                short_name(),
            ),
        ),
        ("by", said("What it is.", by)),
        (
            "accuracy",
            defined_as("whereabouts", "How far off a place from it may be."),
        ),
        (
            "shift",
            defined_as("whereabouts", "How far all of it together may be shifted."),
        ),
    ]);
    map(keys, &["id", "by"])
}

fn tape() -> Value {
    let end = "A thing and one of its outlines, such as `house.wall`.";
    let keys = keys([
        ("from", said(end, text())),
        ("to", said(end, text())),
        (
            "is",
            defined_as("length", "What the tape said, such as `13.45 m ± 60 mm`."),
        ),
    ]);
    map(keys, &["from", "to", "is"])
}
