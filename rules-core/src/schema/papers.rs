//! Documents, decisions, duties and cautions of a rule file.

use serde_json::{Value, json};

use super::cases::OUTCOMES;
use super::measures::choosing;
use super::parts::{
    any_of, defined, defined_as, keys, map, one_or_more, put, said, short_name, text, word, yes_no,
};
/// One of the file's documents.
pub(super) fn document() -> Value {
    let on = keys([
        ("when", defined_as("requirement", "When this holds.")),
        (
            "rule",
            said("When this rule comes to one of the outcomes.", text()),
        ),
        ("outcome", one_or_more(word(OUTCOMES))),
    ]);
    let mut on = map(on, &[]);
    put(
        &mut on,
        "dependentRequired",
        json!({"rule": ["outcome"], "outcome": ["rule"]}),
    );
    let needed = any_of(vec![
        json!({"const": "always", "description": "For every application."}),
        on,
    ]);
    let mut all = choosing();
    all.remove("if-none");
    all.extend(keys([
        ("id", said("A short name of its own.", short_name())),
        ("title", said("What it is.", text())),
        ("from", said("Who supplies it.", text())),
        ("form", said("In what form.", text())),
        (
            "each",
            defined_as("things", "There is one for each of these."),
        ),
        ("needed", said("When it is needed.", one_or_more(needed))),
        (
            "discretion",
            said("Whether whoever gives it may refuse.", yes_no()),
        ),
    ]));
    map(all, &["id", "title"])
}

/// One of the file's decisions.
pub(super) fn decision() -> Value {
    let mut all = choosing();
    all.extend(keys([
        ("id", said("A short name of its own.", short_name())),
        ("title", text()),
        ("clause", text()),
        (
            "each",
            defined_as("things", "It is decided for each of these."),
        ),
        ("table", defined("table")),
    ]));
    map(all, &["id", "table"])
}

/// One of the file's duties.
pub(super) fn duty() -> Value {
    let events = || one_or_more(text());
    let span = |means: &str| defined_as("span", means);
    let keys = keys([
        ("id", said("A short name of its own.", short_name())),
        ("step", said("A short name of its own.", short_name())),
        ("what", said("What must be done.", text())),
        ("who", said("Who does it.", text())),
        ("when", defined_as("requirement", "Only where this holds.")),
        ("before", said("What it must be done before.", events())),
        ("after", said("What it comes after.", events())),
        ("by", span("How long before.")),
        ("within", span("How soon after.")),
        ("takes", span("How long it takes.")),
        ("every", span("How often it comes again.")),
    ]);
    let mut duty = map(keys, &[]);
    put(
        &mut duty,
        "anyOf",
        json!([{"required": ["id"]}, {"required": ["step"]}]),
    );
    duty
}

/// One of the file's cautions.
pub(super) fn caution() -> Value {
    let keys = keys([
        ("id", said("A short name of its own.", short_name())),
        ("says", said("What it says.", text())),
        ("when", defined_as("requirement", "Only where this holds.")),
    ]);
    map(keys, &["id", "says"])
}
