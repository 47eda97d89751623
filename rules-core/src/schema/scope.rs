//! What a rule file says of itself: its scope, its sources, its calendar, and what an applicant wants to know first.

use serde_json::{Map, Value, json};

use super::amounts::amount;
use super::parts::{
    Keys, any_of, choice, defined, keys, list_of, map, one_or_more, or_nothing, said, short_name,
    text, told, word,
};
use crate::quantity::{Dimension, Weekday};
use crate::ruleset::{Grade, Sort};
use crate::vocabulary::Matter;

/// A text for people: as it stands, or one for each language.
pub(super) fn told_text() -> Value {
    let languages = json!({
        "type": "object",
        "minProperties": 1,
        "propertyNames": {"pattern": "^[a-z]{2,3}(-[A-Z]{2})?$"},
        "additionalProperties": text(),
    });
    any_of(vec![text(), languages])
}

/// The definitions of this page.
pub(super) fn define(definitions: &mut Map<String, Value>) {
    let list = [
        ("told", told_text()),
        ("matter", matter()),
        ("scope", scope()),
        ("source", source()),
        ("citation", citation()),
        ("calendar", calendar()),
    ];
    definitions.extend(list.map(|(name, schema)| (name.to_owned(), schema)));
}

/// The keys at the top of a rule file that are told here.
pub(super) fn top_keys() -> Keys {
    let sources = json!({
        "type": "object",
        "propertyNames": short_name(),
        "additionalProperties": defined("source"),
    });
    keys([
        ("place", said("The place whose rules they are.", told())),
        ("country", said("The country of that place.", told())),
        (
            "sort",
            said(
                "What sort of rule set it is.",
                word(Sort::ALL.map(|(word, _)| word)),
            ),
        ),
        (
            "finding-the-authority",
            said(
                "How one finds out which authority serves an address.",
                told(),
            ),
        ),
        ("costs", said("What the permit costs.", told())),
        ("lasts", said("How long the permit lasts.", told())),
        (
            "belongs-with",
            said(
                "Rule sets that belong with this one.",
                one_or_more(short_name()),
            ),
        ),
        (
            "language",
            said(
                "The language of texts that are written in one only, such as `nb`; English if not said.",
                json!({"type": "string", "pattern": "^[a-z]{2,3}(-[A-Z]{2})?$"}),
            ),
        ),
        ("scope", defined("scope")),
        (
            "sources",
            said(
                "Where its values were read, each under a short name.",
                or_nothing(sources),
            ),
        ),
        ("calendar", defined("calendar")),
    ])
}

/// The sources that something names.
pub(super) fn cited() -> Value {
    said("Where it was read.", one_or_more(defined("citation")))
}

fn matter() -> Value {
    let all = Matter::ALL.iter();
    any_of(all.map(|it| choice(it.id(), it.said())).collect())
}

fn scope() -> Value {
    let left_out = keys([
        ("matter", defined("matter")),
        ("ask", said("Who knows it.", told())),
        ("why", said("Why it is left out.", told())),
    ]);
    let keys = keys([
        (
            "holds",
            said(
                "The matters on which these rules bind.",
                one_or_more(defined("matter")),
            ),
        ),
        (
            "leaves-out",
            said(
                "The matters that they leave to others.",
                list_of(map(left_out, &["matter", "ask"]), 0),
            ),
        ),
        (
            "on-top",
            said("What always comes on top of them.", list_of(told(), 0)),
        ),
    ]);
    said(
        "Which matters these rules hold, and which they leave to others: each matter once.",
        map(keys, &[]),
    )
}

fn source() -> Value {
    let day = || amount(Some(Dimension::Date), false);
    let grades = Grade::ALL.map(|(word, grade)| choice(word, means(grade)));
    let keys = keys([
        ("title", said("What it is called.", told())),
        ("at", said("Its address.", text())),
        (
            "grade",
            said("How good a witness it is.", any_of(grades.to_vec())),
        ),
        ("read", said("The day on which it was read.", day())),
        (
            "again",
            said("The day after which it must be read again.", day()),
        ),
        ("note", told()),
    ]);
    map(keys, &["title", "grade"])
}

fn means(grade: Grade) -> &'static str {
    match grade {
        Grade::Law => "The law itself, where the state publishes it.",
        Grade::Authority => "A page of the authority that applies it.",
        Grade::Copy => "A copy of the law's text by somebody else.",
        Grade::Restatement => "The law in somebody else's words.",
        Grade::Trade => "What the trade says.",
        Grade::Memory => "Nobody looked it up.",
    }
}

fn citation() -> Value {
    let keys = keys([
        ("id", said("The source.", short_name())),
        ("clause", said("The place in it.", told())),
        (
            "value",
            said(
                "The value that stands there, where it is not all of the rule.",
                told(),
            ),
        ),
    ]);
    any_of(vec![short_name(), map(keys, &["id"])])
}

fn calendar() -> Value {
    let weekday = || word(Weekday::ALL.map(|(word, _)| word));
    let moved = Weekday::ALL.map(|(from, _)| (from, weekday()));
    let holiday = json!({
        "type": "string",
        "pattern": r"^\s*(\d{4}-\d{2}-\d{2}|\d{2}-\d{2}|easter\s*([+-]?\d+)?|[a-z]+\s+from\s+\d{2}-\d{2})\s*$",
        "examples": ["12-25", "easter+1", "monday from 09-01", "2026-05-15"],
    });
    let keys = keys([
        (
            "name",
            said(
                "What the holidays are called, such as `the public holidays of Norway`.",
                told(),
            ),
        ),
        (
            "weekend",
            said(
                "The days of the week on which nobody works.",
                one_or_more(weekday()),
            ),
        ),
        ("holidays", said("The holidays.", list_of(holiday, 0))),
        (
            "moved",
            said(
                "Where a holiday on a fixed day falls on the first of these, the second is free as well.",
                map(keys(moved), &[]),
            ),
        ),
    ]);
    said(
        "By which calendar working days are counted.",
        map(keys, &[]),
    )
}
