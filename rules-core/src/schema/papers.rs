//! Documents, decisions, duties and cautions of a rule file.

use serde_json::{Value, json};

use super::cases::OUTCOMES;
use super::measures::choosing;
use super::parts::{
    any_of, defined, defined_as, keys, map, one_or_more, put, said, short_name, text, told, word,
    yes_no,
};
use super::scope::cited;

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
        ("title", said("What it is.", told())),
        ("from", said("Who supplies it.", told())),
        ("form", said("In what form.", told())),
        (
            "each",
            defined_as("things", "There is one for each of these."),
        ),
        ("needed", said("When it is needed.", one_or_more(needed))),
        (
            "one-for-all",
            said(
                "Whether one is enough where a rule asks for it beside each of some things.",
                yes_no(),
            ),
        ),
        (
            "discretion",
            said("Whether whoever gives it may refuse.", yes_no()),
        ),
        ("source", cited()),
    ]));
    map(all, &["id", "title"])
}

/// One of the file's decisions.
pub(super) fn decision() -> Value {
    let mut all = choosing();
    all.extend(keys([
        ("id", said("A short name of its own.", short_name())),
        ("title", told()),
        ("clause", told()),
        (
            "each",
            defined_as("things", "It is decided for each of these."),
        ),
        ("table", defined("table")),
        ("source", cited()),
    ]));
    map(all, &["id", "table"])
}

/// One of the file's duties.
pub(super) fn duty() -> Value {
    let events = || one_or_more(text());
    let span = |means: &str| defined_as("span", means);
    let working = |means: &str| said(means, any_of(vec![defined("span"), working_days()]));
    let keys = keys([
        ("id", said("A short name of its own.", short_name())),
        ("step", said("A short name of its own.", short_name())),
        ("what", said("What must be done.", told())),
        ("who", said("Who does it.", told())),
        ("when", defined_as("requirement", "Only where this holds.")),
        ("before", said("What it must be done before.", events())),
        ("after", said("What it comes after.", events())),
        ("by", working("How long before.")),
        ("within", working("How soon after.")),
        ("takes", working("How long it takes.")),
        ("every", span("How often it comes again.")),
        ("source", cited()),
    ]);
    let mut duty = map(keys, &[]);
    put(
        &mut duty,
        "anyOf",
        json!([{"required": ["id"]}, {"required": ["step"]}]),
    );
    duty
}

/// A number of working days, which only steps are counted in.
fn working_days() -> Value {
    json!({"type": "string", "pattern": r"^\s*\d+\s*working days?\s*$", "examples": ["3 working days"]})
}

/// One of the file's cautions.
pub(super) fn caution() -> Value {
    let keys = keys([
        ("id", said("A short name of its own.", short_name())),
        ("says", said("What it says.", told())),
        ("when", defined_as("requirement", "Only where this holds.")),
    ]);
    map(keys, &["id", "says"])
}
