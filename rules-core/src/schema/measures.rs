//! Values and the outlines between which they are measured.

use serde_json::{Map, Value, json};

use super::amounts::amount;
use super::parts::{
    Keys, any_of, defined, defined_as, keys, list_of, map, meaning, one_key, one_or_more, put,
    said, some_key, text, told, word,
};

/// The keys that measure something, and what each means.
pub(super) const MEASURES: [(&str, &str, &str); 20] = [
    (
        "fact",
        "fact-name",
        "What is stated in the plan, such as `pool.depth`.",
    ),
    ("value", "fact-name", "A term that stands for a value."),
    ("distance", "distance", "The distance between two outlines."),
    (
        "area",
        "area",
        "The area of outlines, or their share of another area.",
    ),
    ("length", "length-of", "The length of outlines."),
    (
        "count",
        "counted",
        "How many there are; or, of a list of requirements, how many hold.",
    ),
    (
        "enclosure",
        "enclosure",
        "The widest gap through which the pool can be reached.",
    ),
    ("sound", "sound", "The sound level that arrives somewhere."),
    (
        "level",
        "level",
        "The level of outlines, in the datum of the plan's levels.",
    ),
    (
        "ground-level",
        "ground-level",
        "The level of the ground at outlines.",
    ),
    (
        "fall",
        "fall",
        "How much the way from one outline to another falls for each length.",
    ),
    (
        "volume",
        "volume",
        "What lies over an area between two levels.",
    ),
    (
        "uplift",
        "volume",
        "The mass of the water that would fill a volume: with as much it lifts what keeps it out.",
    ),
    (
        "height",
        "height",
        "The least height of outlines over the ground and all that is near them.",
    ),
    (
        "table",
        "table",
        "Rows, of which the first that applies counts.",
    ),
    ("largest-of", "several", "The largest of some values."),
    ("smallest-of", "several", "The smallest of some values."),
    ("sum", "several", "The sum of some values."),
    (
        "difference",
        "two-values",
        "The first value less the others.",
    ),
    (
        "product",
        "two-values",
        "Values multiplied with each other.",
    ),
];

/// What may be said of a value, and what each bound means.
pub(super) const BOUNDS: [(&str, &str); 5] = [
    ("at-least", "No less than this; just this passes."),
    ("at-most", "No more than this; just this passes."),
    ("more-than", "More than this; just this fails."),
    ("less-than", "Less than this; just this fails."),
    (
        "is",
        "A word, yes or no, an amount, `none`; or a list, of which it is one.",
    ),
];

/// The keys that measure something.
pub(super) fn measure_keys() -> Keys {
    MEASURES
        .map(|(key, name, means)| (key.to_owned(), defined_as(name, means)))
        .into_iter()
        .collect()
}

/// The bounds.
pub(super) fn bound_keys() -> Keys {
    let limit = |key: &str| if key == "is" { "answer" } else { "limit" };
    let bounds = BOUNDS.map(|(key, means)| (key.to_owned(), defined_as(limit(key), means)));
    bounds.into_iter().collect()
}

/// Where along a thing a value must keep its bounds.
pub(super) fn holds() -> (String, Value) {
    let words = meaning([
        (
            "anywhere",
            "It is enough that one place along the thing keeps it.",
        ),
        ("all-along", "Every place along the thing must keep it."),
    ]);
    let means = "Where along a thing the value must keep it, if it changes along the thing. Else the whole rule is judged at each place by itself.";
    ("holds".to_owned(), said(means, words))
}

/// The names of the bounds.
pub(super) fn bounds() -> impl Iterator<Item = &'static str> {
    BOUNDS.into_iter().map(|(key, _)| key)
}

/// The names of the measures.
pub(super) fn measures() -> impl Iterator<Item = &'static str> {
    MEASURES.into_iter().map(|(key, _, _)| key)
}

/// The definitions of values, outlines, selections and zones.
pub(super) fn define(definitions: &mut Map<String, Value>) {
    let values = [
        (
            "limit",
            any_of(vec![
                amount(None, false),
                defined("fact-name"),
                defined("measure"),
            ]),
        ),
        (
            "answer",
            one_or_more(json!({"type": ["string", "number", "boolean"]})),
        ),
        ("measure", measure()),
        ("two-values", list_of(defined("limit"), 2)),
        (
            "several",
            any_of(vec![
                list_of(defined("limit"), 2),
                chosen(
                    true,
                    &[("take", defined_as("limit", "What is taken of each."))],
                ),
            ]),
        ),
        ("distance", distance()),
        ("area", area()),
        (
            "length-of",
            map(
                keys([("of", defined("outlines")), ("in", defined("zone"))]),
                &["of"],
            ),
        ),
        (
            "counted",
            any_of(vec![defined("things"), list_of(defined("requirement"), 1)]),
        ),
        ("enclosure", enclosure()),
        ("sound", sound()),
        ("level", map(keys([("of", defined("outlines"))]), &["of"])),
        (
            "ground-level",
            map(keys([("at", defined("outlines"))]), &["at"]),
        ),
        ("fall", fall()),
        ("volume", volume()),
        ("height", height()),
        (
            "things",
            any_of(vec![defined("kind-name"), chosen(false, &[])]),
        ),
        ("outlines", outlines()),
        ("zone", zone()),
        ("table", table()),
    ];
    definitions.extend(values.map(|(name, schema)| (name.to_owned(), schema)));
}

/// A value that is measured or reckoned.
fn measure() -> Value {
    let mut measure = map(measure_keys(), &[]);
    put(&mut measure, "allOf", json!([one_key(measures())]));
    measure
}

/// The keys that choose things.
pub(super) fn choosing() -> Keys {
    keys([
        (
            "where",
            defined_as("requirement", "Only those of which this holds."),
        ),
        (
            "in",
            defined_as(
                "zone",
                "Only what lies in this zone, and only that part of it.",
            ),
        ),
        (
            "if-none",
            said(
                "What it means if there is none.",
                meaning([
                    ("passes", "Then this holds."),
                    ("fails", "Then this does not hold."),
                    ("refer", "Then it is for the authority."),
                ]),
            ),
        ),
    ])
}

fn chosen(taking: bool, more: &[(&str, Value)]) -> Value {
    let mut all = choosing();
    all.insert(
        "kind".to_owned(),
        defined_as("things", "Of what kind, or which term."),
    );
    all.extend(
        more.iter()
            .map(|(key, schema)| ((*key).to_owned(), schema.clone())),
    );
    map(all, if taking { &["kind", "take"] } else { &["kind"] })
}

/// The keys of outlines of chosen things.
pub(super) fn outline_keys() -> Keys {
    let mut all = choosing();
    all.extend(keys([
        (
            "kind",
            said(
                "Of what kind, or which term; with its outline after a dot.",
                any_of(vec![defined("outline-name"), defined("things")]),
            ),
        ),
        ("outline", said("Which outline of it.", text())),
        (
            "counted",
            said(
                "The share by which its area counts, such as `50 %`.",
                amount(Some(crate::quantity::Dimension::Number), false),
            ),
        ),
    ]));
    all
}

fn outlines() -> Value {
    any_of(vec![
        defined("outline-name"),
        list_of(defined("outlines"), 1),
        map(outline_keys(), &["kind"]),
        map(
            keys([(
                "all",
                defined_as(
                    "outlines",
                    "Those of all such things together, also where a rule is about one of them.",
                ),
            )]),
            &["all"],
        ),
        map(
            keys([(
                "each",
                defined_as("outlines", "Those of the one thing that the rule is about."),
            )]),
            &["each"],
        ),
    ])
}

fn distance() -> Value {
    let how = meaning([
        (
            "level",
            "On the level, as on a map; this is meant where nothing is said.",
        ),
        ("in-space", "The straight line, height included."),
        (
            "plumb",
            "Straight up and down, where one is above the other.",
        ),
        (
            "walking",
            "The way on foot, on the plan, round walls, fences and water; gates and doors count as closed.",
        ),
    ]);
    let keys = keys([
        ("from", defined("outlines")),
        ("to", defined("outlines")),
        ("measured", said("How it is measured.", how)),
        (
            "farthest",
            said(
                "`yes`: between the places farthest apart, not the nearest. `from`: from the farthest part of `from` to the nearest of `to`.",
                word(["yes", "no", "from"]),
            ),
        ),
    ]);
    map(keys, &["from", "to"])
}

fn area() -> Value {
    let keys = keys([
        ("of", defined("outlines")),
        ("in", defined("zone")),
        (
            "share-of",
            said(
                "The area of which a share is meant.",
                any_of(vec![defined("outlines"), defined("limit")]),
            ),
        ),
    ]);
    map(keys, &["of"])
}

fn enclosure() -> Value {
    let from = word(["street", "neighbour-lot", "dwelling"]);
    let keys = keys([
        ("of", defined("outlines")),
        (
            "from",
            said("From whom it must be closed off.", one_or_more(from)),
        ),
        ("made-of", defined_as("outlines", "What closes it off.")),
    ]);
    map(keys, &["of", "from", "made-of"])
}

fn sound() -> Value {
    let keys = keys([
        ("from", defined_as("outlines", "What makes the sound.")),
        ("at", defined_as("outlines", "Where it arrives.")),
        ("during", word(["day", "evening", "night"])),
    ]);
    map(keys, &["from", "at", "during"])
}

fn fall() -> Value {
    let keys = keys([
        ("from", defined("outlines")),
        ("to", defined("outlines")),
        (
            "run",
            defined_as(
                "limit",
                "How far it runs; the distance where nothing is said.",
            ),
        ),
    ]);
    map(keys, &["from", "to"])
}

fn volume() -> Value {
    let level = || {
        any_of(vec![
            json!({"const": "ground", "description": "The ground as it is."}),
            defined("limit"),
        ])
    };
    let keys = keys([
        ("over", defined("outlines")),
        ("in", defined("zone")),
        ("from", said("From this level up.", level())),
        ("to", said("Up to this level.", level())),
    ]);
    map(keys, &["over", "from", "to"])
}

fn height() -> Value {
    let keys = keys([
        ("of", defined("outlines")),
        (
            "over",
            defined_as(
                "outlines",
                "What somebody may stand on, besides the ground.",
            ),
        ),
        ("within", defined_as("limit", "How near to it.")),
    ]);
    map(keys, &["of", "within"])
}

/// The zones that are not simply an outline.
pub(super) fn zone_maps() -> Vec<Value> {
    let pair = json!({"type": "array", "items": defined("outlines"), "minItems": 2, "maxItems": 2});
    let corner = map(
        keys([
            ("of", pair.clone()),
            (
                "legs",
                defined_as("limit", "How far along each of the two lines."),
            ),
        ]),
        &["of", "legs"],
    );
    vec![
        said(
            "All within a distance of an outline.",
            map(
                keys([("around", defined("outlines")), ("by", defined("limit"))]),
                &["around", "by"],
            ),
        ),
        said(
            "What lies between two lines.",
            map(keys([("between", pair)]), &["between"]),
        ),
        said(
            "The triangle at a corner, as for a sight triangle.",
            map(keys([("corner", corner)]), &["corner"]),
        ),
        said(
            "The inside of an outline.",
            map(keys([("inside", defined("outlines"))]), &["inside"]),
        ),
        said(
            "All but a zone.",
            map(keys([("not", defined("zone"))]), &["not"]),
        ),
    ]
}

fn zone() -> Value {
    let mut ways = vec![defined("outlines")];
    ways.extend(zone_maps());
    any_of(ways)
}

fn table() -> Value {
    let keys = keys([
        ("by", defined_as("limit", "What the rows go by.")),
        ("rows", list_of(row(), 1)),
    ]);
    map(keys, &["rows"])
}

fn row() -> Value {
    let gives = || {
        any_of(vec![
            json!({"const": "refer", "description": "This is for the authority."}),
            defined("limit"),
            defined("requirement"),
            json!({"type": ["string", "boolean"], "description": "The name of a class."}),
            told(),
        ])
    };
    let mut all = bound_keys();
    all.extend(keys([
        (
            "id",
            said("A name by which another file can change this row.", text()),
        ),
        (
            "when",
            defined_as("requirement", "The row applies when this holds."),
        ),
        (
            "otherwise",
            said(
                "The last row: it applies where none before it does.",
                gives(),
            ),
        ),
        ("then", said("What the row gives.", gives())),
    ]));
    let mut row = map(all, &[]);
    put(
        &mut row,
        "allOf",
        json!([
            some_key(bounds().chain(["when", "otherwise"])),
            some_key(["then", "otherwise"]),
        ]),
    );
    row
}
