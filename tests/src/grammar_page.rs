//! What a rule file may contain, map by map, made from the schema, which is made from the tables of the grammar.

use std::fmt::Write as _;

use serde_json::{Map, Value};

/// The maps, in the order in which a person writing rules meets them: titles, and names in the schema.
const MAPS: [(&str, &str); 31] = [
    ("The top of a rule file", "rule-set"),
    ("A rule", "rule"),
    ("A relief", "relief"),
    ("A time in force", "in-force"),
    ("A distance", "distance"),
    ("An area", "area"),
    ("A length", "length-of"),
    ("An enclosure", "enclosure"),
    ("A sound level", "sound"),
    ("A level", "level"),
    ("A level of the ground", "ground-level"),
    ("A fall", "fall"),
    ("A volume or an uplift", "volume"),
    ("A height", "height"),
    ("A table", "table"),
    ("A row of a table", "table/properties/rows/items"),
    ("Chosen things", "things/anyOf/1"),
    ("Chosen outlines", "outlines/anyOf/2"),
    ("Something of each of some things", "several/anyOf/1"),
    ("A document", "document"),
    ("A decision", "decision"),
    ("A step or a duty", "duty"),
    ("A caution", "caution"),
    ("A question", "question"),
    ("A kind of its own", "own-kind"),
    ("A fact of its own", "own-fact"),
    ("A scope", "scope"),
    ("A source", "source"),
    ("A source that is named", "citation/anyOf/1"),
    ("A calendar", "calendar"),
    ("A term with its sources", "term/anyOf/2/else/then"),
];

/// What the other names of the schema stand for.
const NAMED: [(&str, &str); 19] = [
    ("told", "a text, or one for each language"),
    ("limit", "an amount, a fact, a term or a measure"),
    ("answer", "a word or an amount, or a list of them"),
    ("measure", "a measure"),
    ("requirement", "a requirement"),
    ("things", "things"),
    ("outlines", "outlines"),
    ("zone", "a zone"),
    ("kind-name", "a kind or a term"),
    ("outline-name", "an outline"),
    ("fact-name", "a fact or a term"),
    ("day-name", "a day that a plan can state"),
    ("two-values", "a list of values"),
    (
        "several",
        "a list of values, or something of each of some things",
    ),
    ("counted", "things, or a list of requirements"),
    ("term", "whatever a term can stand for"),
    ("entry", "a rule, or an edit of one"),
    ("matter", "a matter"),
    ("span", "a time such as `14 days`"),
];

/// A table for each map of a rule file, from the schema.
pub(crate) fn maps(schema: &Value) -> String {
    let mut page = String::new();
    for (title, name) in MAPS {
        let map = defined(schema, name);
        let _ = write!(page, "\n### {title}\n\n{}", about(map));
        page += &rows(map.get("properties"), &needed(map), "Key");
    }
    page
}

fn defined<'s>(schema: &'s Value, name: &str) -> &'s Value {
    let found = schema.pointer(&format!("/$defs/{name}"));
    found.expect("a map of the grammar is in the schema")
}

/// The sentence and the example of a map.
fn about(map: &Value) -> String {
    let said = map.get("description").and_then(Value::as_str);
    let said = said.map_or_else(String::new, |said| format!("{said}\n\n"));
    let example = map.get("examples").and_then(|all| all.get(0));
    let example = example.map_or_else(String::new, |it| format!("For example: `{}`\n\n", flow(it)));
    said + &example
}

/// An example as YAML writes it on one line.
fn flow(example: &Value) -> String {
    match example {
        Value::Object(map) => {
            let each = map
                .iter()
                .map(|(key, value)| format!("{key}: {}", flow(value)));
            format!("{{{}}}", each.collect::<Vec<_>>().join(", "))
        }
        Value::Array(items) => {
            let items: Vec<_> = items.iter().map(flow).collect();
            format!("[{}]", items.join(", "))
        }
        Value::String(text) => text.clone(),
        other => other.to_string(),
    }
}

/// The tables for requirements: measures, bounds and combinations.
pub(crate) fn requirement(schema: &Value) -> String {
    let one = defined(schema, "one-requirement");
    let properties = one.get("properties");
    let mains = listed(one.pointer("/allOf/0/oneOf"));
    let measures = listed(defined(schema, "measure").pointer("/allOf/0/oneOf"));
    let bounds = listed(one.pointer("/allOf/1/then/anyOf"));
    let combining = mains
        .into_iter()
        .filter(|key| !measures.contains(key))
        .collect();
    let mut page = String::new();
    for (title, keys) in [
        ("Measure", measures),
        ("Bound", bounds),
        ("Combination", combining),
    ] {
        let some = properties.and_then(Value::as_object).expect("its keys");
        let some = keys
            .iter()
            .filter_map(|key| Some((key.clone(), some.get(key)?.clone())));
        let some: Map<String, Value> = some.collect();
        page += "\n";
        page += &rows(Some(&Value::from(some)), &keys, title);
    }
    page
}

/// The keys named by a list of required sets.
fn listed(sets: Option<&Value>) -> Vec<String> {
    let sets = sets.and_then(Value::as_array).into_iter().flatten();
    let keys = sets.filter_map(|set| set.pointer("/required/0")?.as_str());
    keys.map(str::to_owned).collect()
}

fn needed(map: &Value) -> Vec<String> {
    let needed = map.get("required").and_then(Value::as_array);
    let needed = needed.into_iter().flatten().filter_map(Value::as_str);
    needed.map(str::to_owned).collect()
}

/// A table of keys, with the named ones first. For a map those are the required keys.
fn rows(properties: Option<&Value>, first: &[String], title: &str) -> String {
    let properties = properties.and_then(Value::as_object).expect("its keys");
    let must = |key: &String| title == "Key" && first.contains(key);
    let others = properties.keys().filter(|key| !first.contains(key));
    let mut page = format!("| {title} | What stands there | Meaning |\n|---|---|---|\n");
    for key in first.iter().chain(others) {
        let Some(after) = properties.get(key) else {
            continue;
        };
        let must = if must(key) { ", must be there" } else { "" };
        let _ = writeln!(
            page,
            "| `{key}`{must} | {} | {} |",
            stands(after),
            means(after)
        );
    }
    page
}

/// The meaning of a key and of each of its words.
fn means(schema: &Value) -> String {
    let said = |schema: &Value| {
        schema
            .get("description")
            .and_then(Value::as_str)
            .map(str::to_owned)
    };
    let ways = schema
        .get("anyOf")
        .and_then(Value::as_array)
        .into_iter()
        .flatten();
    let words =
        ways.filter_map(|way| Some(format!("`{}`: {}", way.get("const")?.as_str()?, said(way)?)));
    let all: Vec<_> = said(schema).into_iter().chain(words).collect();
    all.join("<br>")
}

/// What a schema allows, in words.
fn stands(schema: &Value) -> String {
    let text = |key: &str| schema.get(key).and_then(Value::as_str);
    if let Some(name) = text("$ref") {
        return named(name.rsplit('/').next().unwrap_or_default());
    }
    if let Some(word) = text("const") {
        return format!("`{word}`");
    }
    if let Some(words) = schema.get("enum").and_then(Value::as_array) {
        let words: Vec<_> = words.iter().filter_map(Value::as_str).collect();
        return match words.contains(&"true") {
            true => "`yes` or `no`".to_owned(),
            false => either(words.iter().map(|word| format!("`{word}`")).collect()),
        };
    }
    if let Some(ways) = schema.get("anyOf").and_then(Value::as_array) {
        return any(ways);
    }
    match text("type") {
        Some("array") => list(schema),
        Some("object") => map(schema),
        _ => plain(schema, text("pattern").unwrap_or_default()),
    }
}

fn named(name: &str) -> String {
    let known = NAMED.iter().find(|(known, _)| *known == name);
    let title = MAPS
        .iter()
        .find(|(_, map)| *map == name || map.starts_with(&format!("{name}/")));
    let title = title.map(|(title, _)| {
        let anchor = title.to_lowercase().replace(' ', "-");
        format!("[{}](#{anchor})", title.to_lowercase())
    });
    known
        .map(|(_, words)| (*words).to_owned())
        .or(title)
        .unwrap_or_else(|| name.to_owned())
}

/// Any of these, each once. That a place may be left empty goes without saying.
fn any(ways: &[Value]) -> String {
    if let [one, list] = ways
        && list.get("items") == Some(one)
    {
        return format!("{}; or a list of such", stands(one));
    }
    let null = |way: &&Value| way.get("type").and_then(Value::as_str) == Some("null");
    let mut words: Vec<String> = ways.iter().filter(|way| !null(way)).map(stands).collect();
    words.dedup();
    either(words)
}

fn either(mut words: Vec<String>) -> String {
    let last = words.pop().unwrap_or_default();
    match words.is_empty() {
        true => last,
        false => format!("{} or {last}", words.join(", ")),
    }
}

fn list(schema: &Value) -> String {
    let item = schema.get("items").map(stands).unwrap_or_default();
    match schema.get("maxItems") {
        Some(_) => format!("a list of two, each {item}"),
        None => format!("a list, each {item}"),
    }
}

fn map(schema: &Value) -> String {
    if let Some(keys) = schema.get("properties").and_then(Value::as_object) {
        let keys: Vec<_> = keys.keys().map(String::as_str).collect();
        return format!("`{{{}}}`", keys.join(", "));
    }
    match schema.get("additionalProperties") {
        Some(each) => format!("names, each with {}", stands(each)),
        None => "keys with values".to_owned(),
    }
}

fn plain(schema: &Value, pattern: &str) -> String {
    let example = schema.pointer("/examples/0").and_then(Value::as_str);
    match example {
        Some(example) => format!("such as `{example}`"),
        None if pattern.starts_with("^[a-z][a-z0-9-]*$") => "a short name".to_owned(),
        None if pattern.starts_with(r"^\s*[-+") => "an amount".to_owned(),
        None if schema.get("type") == Some(&Value::from("number")) => "an amount".to_owned(),
        None => "a text".to_owned(),
    }
}
