//! A rule file.

use serde_json::{Map, Value, json};

use super::amounts::amount;
use super::cases::OUTCOMES;
use super::measures::choosing;
use super::parts::{
    any_of, defined, defined_as, keys, list_of, map, meaning, one_or_more, or_nothing, put, said,
    short_name, some_key, text, word, yes_no,
};
use super::{measures, names, requirement};
use crate::quantity::Dimension;
use crate::vocabulary::Vocabulary;

/// What rule files are made of.
pub(super) fn definitions(vocabulary: &Vocabulary) -> Map<String, Value> {
    let mut definitions = Map::new();
    names::define(&mut definitions, vocabulary);
    measures::define(&mut definitions);
    requirement::define(&mut definitions, vocabulary);
    let more = [
        ("entry", entry()),
        ("rule", rule()),
        ("relief", relief()),
        ("in-force", in_force()),
        ("document", document()),
        ("decision", decision()),
        ("duty", duty()),
        ("caution", caution()),
        ("question", question()),
        ("own-kind", own_kind()),
        ("own-fact", own_fact()),
        ("span", amount(Some(Dimension::Days), false)),
    ];
    definitions.extend(more.map(|(name, schema)| (name.to_owned(), schema)));
    definitions
}

/// The rule file itself.
pub(super) fn top() -> Value {
    let list = |name: &str, means: &str| said(means, or_nothing(list_of(defined(name), 0)));
    let terms = json!({"type": "object", "propertyNames": short_name(), "additionalProperties": defined("term")});
    let keys = keys([
        (
            "ruleset",
            said(
                "The short name of this rule set, in small letters and hyphens.",
                short_name(),
            ),
        ),
        ("title", said("Its title.", text())),
        (
            "edition",
            said("Your name for this version, such as `2026-01`.", text()),
        ),
        (
            "authority",
            said("Who decides, and whom the applicant may ask.", text()),
        ),
        (
            "notice",
            said("What every report says beside its findings.", text()),
        ),
        ("in-force", defined("in-force")),
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
            json!({"description": "Small example plans with the outcomes that the rules must give.", "type": "array", "items": {"type": "object", "required": ["case", "title"]}}),
        ),
    ]);
    map(keys, &["ruleset", "title", "edition", "authority"])
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
        ("title", said("What it is about, in a few words.", text())),
        (
            "clause",
            said("Where it stands in the authority's text.", text()),
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
            said("What the applicant can do where it fails.", text()),
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
        ("note", text()),
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
    ]);
    said("When it is in force.", map(keys, &["by"]))
}

fn document() -> Value {
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
    let keys = keys([
        ("id", said("A short name of its own.", short_name())),
        ("title", said("What it is.", text())),
        ("from", said("Who supplies it.", text())),
        ("form", said("In what form.", text())),
        ("needed", said("When it is needed.", one_or_more(needed))),
        (
            "discretion",
            said("Whether whoever gives it may refuse.", yes_no()),
        ),
    ]);
    map(keys, &["id", "title"])
}

fn decision() -> Value {
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

fn duty() -> Value {
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

fn caution() -> Value {
    let keys = keys([
        ("id", said("A short name of its own.", short_name())),
        ("says", said("What it says.", text())),
        ("when", defined_as("requirement", "Only where this holds.")),
    ]);
    map(keys, &["id", "says"])
}

/// What a fact of a rule set's own can be.
fn answer_keys() -> super::parts::Keys {
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
        ("load", "Such as `220 kg/m2`."),
        ("days", "Such as `14 days` or `2 months`."),
        ("date", "Such as `2026-03-01`."),
        ("number", "Such as `4` or `40 %`."),
    ]);
    keys([
        ("id", said("A short name of its own.", short_name())),
        (
            "said",
            said("Its name in a sentence, without an article.", text()),
        ),
        ("ask", said("The question that asks for it.", text())),
        (
            "how",
            said("How it is measured or where it is found.", text()),
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
    ])
}

fn question() -> Value {
    map(answer_keys(), &["id", "ask", "answer"])
}

fn own_fact() -> Value {
    map(answer_keys(), &["id", "said", "ask", "answer"])
}

fn own_kind() -> Value {
    let outline = keys([
        ("id", said("A short name of its own.", short_name())),
        (
            "said",
            said("Its name in a sentence, with the article.", text()),
        ),
        ("shape", word(["point", "line", "area"])),
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
            said("Its name in a sentence, with the article.", text()),
        ),
        (
            "ask",
            said("The question that finds out whether there is any.", text()),
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
    ]);
    // A kind that the program knows by itself needs no words of its own.
    let mut kind = map(keys, &["id"]);
    put(
        &mut kind,
        "anyOf",
        json!([some_key(["outlines", "facts"]), {"required": ["said", "ask"]}]),
    );
    kind
}
