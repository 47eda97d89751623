//! A rule file.

use serde_json::{Map, Value, json};

use super::amounts::amount;
use super::measures::choosing;
use super::parts::{
    any_of, defined, defined_as, keys, list_of, map, meaning, one_or_more, or_nothing, put, said,
    short_name, text, told, word, yes_no,
};
use super::scope::cited;
use super::{measures, names, own, papers, requirement, scope};
use crate::quantity::Dimension;
use crate::vocabulary::Vocabulary;

/// What rule files are made of.
pub(super) fn definitions(vocabulary: &Vocabulary) -> Map<String, Value> {
    let mut definitions = Map::new();
    names::define(&mut definitions, vocabulary);
    measures::define(&mut definitions);
    requirement::define(&mut definitions, vocabulary);
    scope::define(&mut definitions);
    let more = [
        ("entry", entry()),
        ("rule", rule()),
        ("relief", relief()),
        ("in-force", in_force()),
        ("document", papers::document()),
        ("decision", papers::decision()),
        ("duty", papers::duty()),
        ("caution", papers::caution()),
        ("question", own::question()),
        ("own-kind", own::own_kind()),
        ("own-fact", own::own_fact()),
        ("span", amount(Some(Dimension::Days), false)),
    ];
    definitions.extend(more.map(|(name, schema)| (name.to_owned(), schema)));
    definitions
}

/// The rule file itself.
pub(super) fn top() -> Value {
    let list = |name: &str, means: &str| said(means, or_nothing(list_of(defined(name), 0)));
    let terms = json!({"type": "object", "propertyNames": short_name(), "additionalProperties": defined("term")});
    let mut all = scope::top_keys();
    all.extend(keys([
        (
            "ruleset",
            said(
                "The short name of this rule set, in small letters and hyphens.",
                short_name(),
            ),
        ),
        ("title", said("Its title.", told())),
        (
            "edition",
            said("Your name for this version, such as `2026-01`.", told()),
        ),
        (
            "authority",
            said("Who decides, and whom the applicant may ask.", told()),
        ),
        (
            "notice",
            said("What every report says beside its findings.", told()),
        ),
        ("in-force", defined("in-force")),
        (
            "earlier",
            said(
                "The edition before this one, which holds for plans that this one does not govern yet.",
                short_name(),
            ),
        ),
        (
            "builds-on",
            said(
                "The rule sets under this one, whose rules bind too.",
                one_or_more(short_name()),
            ),
        ),
        (
            "kinds",
            list(
                "own-kind",
                "Kinds of things, and facts of them, that the program does not know by itself.",
            ),
        ),
        (
            "questions",
            list("question", "What only the applicant can answer."),
        ),
        (
            "terms",
            said("What is named once and used by name.", or_nothing(terms)),
        ),
        (
            "rules",
            list(
                "entry",
                "The rules, and the edits of rules of files under this one.",
            ),
        ),
        (
            "documents",
            list("document", "What an application must hold."),
        ),
        (
            "decide",
            list("decision", "Questions of which the answer is a class."),
        ),
        ("do", list("duty", "What must be done, and when.")),
        ("cautions", list("caution", "Warnings for those who build.")),
        (
            "cases",
            json!({"description": "Small example plans with the outcomes that the rules must give.", "type": "array", "items": {"type": "object", "required": ["case", "title"]}, "minItems": 0}),
        ),
    ]));
    map(all, &["ruleset", "title", "edition", "authority"])
}

/// A rule, or an edit of one.
fn entry() -> Value {
    let told_by = |names: &[&str], then: Value, other: Value| json!({"if": {"required": names}, "then": then, "else": other});
    let reasons = || {
        [
            ("when", defined_as("requirement", "Only where this holds.")),
            ("clause", text()),
            ("note", text()),
        ]
    };
    let [when, clause, note] = reasons();
    let withdrawal = map(
        keys([
            (
                "withdraws",
                said("The rule that goes, or a part of it: `rule/part`.", text()),
            ),
            when,
            clause,
            note,
        ]),
        &["withdraws"],
    );
    let [_, clause, note] = reasons();
    let addition = map(
        keys([
            (
                "adds-to",
                said("The rule that gets one more relief.", text()),
            ),
            (
                "relief",
                any_of(vec![defined("relief"), list_of(defined("relief"), 1)]),
            ),
            clause,
            note,
        ]),
        &["adds-to", "relief"],
    );
    let [when, clause, note] = reasons();
    let part = map(
        keys([
            (
                "replaces",
                said("The part that changes: `rule/part`.", text()),
            ),
            ("with", json!({"type": "object"})),
            when,
            clause,
            note,
        ]),
        &["replaces", "with"],
    );
    let mut entry = told_by(
        &["withdraws"],
        withdrawal,
        told_by(
            &["adds-to"],
            addition,
            told_by(&["with"], part, defined("rule")),
        ),
    );
    put(&mut entry, "type", Value::from("object"));
    entry
}

fn rule() -> Value {
    let mut all = choosing();
    all.extend(keys([
        ("id", said("A short name of its own.", short_name())),
        ("title", said("What it is about, in a few words.", told())),
        (
            "clause",
            said("Where it stands in the authority's text.", told()),
        ),
        (
            "when",
            defined_as("requirement", "It applies when this holds of the plan."),
        ),
        (
            "unless",
            defined_as(
                "requirement",
                "It does not apply when this holds of the plan.",
            ),
        ),
        (
            "each",
            defined_as("things", "It is judged for each of these."),
        ),
        ("require", defined_as("requirement", "What must hold.")),
        (
            "should",
            defined_as(
                "requirement",
                "What ought to hold: reported, but it binds nobody.",
            ),
        ),
        (
            "strength",
            said("Whether it binds.", word(["must", "should"])),
        ),
        (
            "relief",
            said(
                "Exceptions: ways in which it is met although what it requires does not hold.",
                list_of(defined("relief"), 0),
            ),
        ),
        (
            "remedy",
            said("What the applicant can do where it fails.", told()),
        ),
        (
            "documents",
            said("Documents that it calls for.", one_or_more(text())),
        ),
        (
            "provenance",
            said(
                "How well its values are known.",
                meaning([
                    ("confirmed", "Somebody compared them with the text."),
                    ("from-memory", "Nobody has yet."),
                    ("contradicted", "Sources differ."),
                ]),
            ),
        ),
        ("source", cited()),
        (
            "again",
            said(
                "The day after which it must be compared with its sources again.",
                amount(Some(Dimension::Date), false),
            ),
        ),
        ("note", told()),
        ("in-force", defined("in-force")),
        (
            "replaces",
            said(
                "The rule of a file under this one in whose place it comes.",
                text(),
            ),
        ),
        (
            "tightens",
            said(
                "The rule of a file under this one than which it is stricter.",
                text(),
            ),
        ),
        (
            "changes",
            said(
                "How a file above this one may change it.",
                meaning([
                    ("minimum", "It may be made stricter only."),
                    ("default", "It may be changed in any way."),
                    ("ceiling", "It may be made laxer only."),
                ]),
            ),
        ),
    ]));
    let mut rule = map(all, &["id", "title", "clause"]);
    put(
        &mut rule,
        "oneOf",
        json!([{"required": ["require"]}, {"required": ["should"]}]),
    );
    put(
        &mut rule,
        "dependentRequired",
        json!({"where": ["each"], "in": ["each"], "if-none": ["each"]}),
    );
    rule
}

fn relief() -> Value {
    let keys = keys([
        ("id", said("A short name of its own.", short_name())),
        (
            "when",
            defined_as("requirement", "It is open when this holds."),
        ),
        (
            "unless",
            defined_as("requirement", "It is not open when this holds."),
        ),
        (
            "require",
            defined_as("requirement", "What must hold instead."),
        ),
        (
            "leave",
            said("Whether the authority is free to say no.", yes_no()),
        ),
    ]);
    map(keys, &["id", "require"])
}

fn in_force() -> Value {
    let day = || amount(Some(Dimension::Date), false);
    let keys = keys([
        ("from", said("The first day.", day())),
        ("to", said("The last day.", day())),
        (
            "by",
            defined_as("day-name", "Which day of the application decides."),
        ),
        (
            "or-when",
            defined_as("requirement", "Also where this holds, whatever the day."),
        ),
        (
            "unless",
            defined_as("requirement", "Not where this holds, whatever the day."),
        ),
    ]);
    said("When it is in force.", map(keys, &["by"]))
}
