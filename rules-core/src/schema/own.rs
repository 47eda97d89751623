//! The words that a rule file adds: questions, kinds, facts and outlines.

use serde_json::{Value, json};

use super::amounts::amount;
use super::parts::{
    Keys, any_of, defined, defined_as, keys, list_of, map, meaning, put, said, short_name, text,
    told, word, yes_no,
};
use super::scope::cited;

/// What a fact of a rule set's own can be.
fn answer_keys() -> Keys {
    let sort = meaning([
        ("yes-no", "Yes or no."),
        ("length", "Such as `3 m`."),
        ("area", "Such as `32 m2`."),
        ("volume", "Such as `45 m3`."),
        ("voltage", "Such as `15 kV`."),
        ("angle", "Such as `12 deg`."),
        ("sound", "Such as `45 dB(A)`."),
        ("flow", "Such as `2 l/s`."),
        ("power", "Such as `1 kW`."),
        ("mass", "Such as `40 kg`."),
        ("load", "Such as `220 kg/m2`."),
        ("days", "Such as `14 days` or `2 months`."),
        ("date", "Such as `2026-03-01`."),
        ("number", "Such as `4` or `40 %`."),
    ]);
    keys([
        ("id", said("A short name of its own.", short_name())),
        (
            "said",
            said("Its name in a sentence, without an article.", told()),
        ),
        ("ask", said("The question that asks for it.", told())),
        (
            "how",
            said("How it is measured or where it is found.", told()),
        ),
        (
            "answer",
            said(
                "What can be answered: a list of words, or one of these.",
                any_of(vec![sort, list_of(text(), 1)]),
            ),
        ),
        (
            "least",
            said("Less is not possible in this world.", amount(None, false)),
        ),
        (
            "most",
            said("More is not possible in this world.", amount(None, false)),
        ),
        (
            "open",
            said("Whether other words are possible too.", yes_no()),
        ),
        (
            "varies",
            said("Whether it may change along the thing.", yes_no()),
        ),
        ("none", said("Whether `none` is an answer.", yes_no())),
        (
            "matter",
            defined_as("matter", "The matter to which it belongs."),
        ),
    ])
}

/// A question that only the applicant can answer.
pub(super) fn question() -> Value {
    let mut all = answer_keys();
    all.insert("source".to_owned(), cited());
    map(all, &["id", "ask", "answer"])
}

/// A fact of a kind.
pub(super) fn own_fact() -> Value {
    map(answer_keys(), &["id", "said", "ask", "answer"])
}

/// A kind, or what is added to one.
pub(super) fn own_kind() -> Value {
    let outline = keys([
        ("id", said("A short name of its own.", short_name())),
        (
            "said",
            said("Its name in a sentence, with the article.", told()),
        ),
        ("shape", word(["point", "line", "area"])),
        ("none", said("Whether a thing may be without it.", yes_no())),
    ]);
    let keys = keys([
        (
            "id",
            said(
                "Its name in plans and rules; the name of a kind that is there already adds to that kind.",
                short_name(),
            ),
        ),
        (
            "said",
            said("Its name in a sentence, with the article.", told()),
        ),
        (
            "ask",
            said("The question that finds out whether there is any.", told()),
        ),
        (
            "number",
            said(
                "How many there can be.",
                word(["one", "at-most-one", "many"]),
            ),
        ),
        (
            "outlines",
            list_of(map(outline, &["id", "said", "shape"]), 0),
        ),
        ("facts", list_of(defined("own-fact"), 0)),
        (
            "matter",
            defined_as("matter", "The matter to which it belongs."),
        ),
    ]);
    // A kind that the program knows by itself needs no words of its own.
    let mut kind = map(keys, &["id"]);
    put(
        &mut kind,
        "anyOf",
        json!([{"required": ["outlines"]}, {"required": ["facts"]}, {"required": ["said", "ask"]}]),
    );
    kind
}
