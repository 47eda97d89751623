//! The small pieces that all schemas are made of.

use serde_json::{Map, Value, json};

/// The keys of a map, each with the schema of what may follow it.
pub(super) type Keys = Map<String, Value>;

/// A map with these keys and no others; `required` ones must be there.
pub(super) fn map(keys: Keys, required: &[&str]) -> Value {
    let mut map = json!({"type": "object", "properties": keys, "additionalProperties": false});
    if !required.is_empty() {
        put(&mut map, "required", json!(required));
    }
    map
}

/// A map with this key alone.
pub(super) fn alone(key: &str, after: Value) -> Value {
    map(keys([(key, after)]), &[key])
}

/// Makes a map's keys from a list.
pub(super) fn keys<const N: usize>(list: [(&str, Value); N]) -> Keys {
    let named = list.into_iter().map(|(key, value)| (key.to_owned(), value));
    named.collect()
}

/// Sets a key of a schema.
pub(super) fn put(schema: &mut Value, key: &str, value: Value) {
    if let Some(map) = schema.as_object_mut() {
        map.insert(key.to_owned(), value);
    }
}

/// With a description for an editor to show.
pub(super) fn said(description: &str, mut schema: Value) -> Value {
    put(&mut schema, "description", Value::from(description));
    schema
}

/// The definition of that name.
pub(super) fn defined(name: &str) -> Value {
    json!({"$ref": format!("#/$defs/{name}")})
}

/// As [`defined`], with a description for an editor to show.
pub(super) fn defined_as(name: &str, description: &str) -> Value {
    said(description, defined(name))
}

/// Any of these.
pub(super) fn any_of(list: Vec<Value>) -> Value {
    json!({"anyOf": list})
}

/// A list of at least `least` items.
pub(super) fn list_of(items: Value, least: usize) -> Value {
    json!({"type": "array", "items": items, "minItems": least})
}

/// One item, or a list of one or more.
pub(super) fn one_or_more(item: Value) -> Value {
    any_of(vec![item.clone(), list_of(item, 1)])
}

/// This, or nothing after the key.
pub(super) fn or_nothing(schema: Value) -> Value {
    any_of(vec![schema, json!({"type": "null"})])
}

/// Text; a title such as `12` is a number to YAML.
pub(super) fn text() -> Value {
    json!({"type": ["string", "number"]})
}

/// A short name, such as every rule, thing and document has.
pub(super) fn short_name() -> Value {
    json!({"type": "string", "pattern": "^[a-z][a-z0-9-]*$"})
}

/// An id in a plan; one such as `12` is a number to YAML.
pub(super) fn plan_id() -> Value {
    json!({"type": ["string", "number"], "pattern": r"^[\p{Alphabetic}\p{N}]+([-./_][\p{Alphabetic}\p{N}]+)*$"})
}

/// Yes or no, which some YAML readers take for words and others for true and false.
pub(super) fn yes_no() -> Value {
    json!({"enum": [true, false, "yes", "no", "true", "false"]})
}

/// One of these words. YAML may take one that looks like a number, or like yes or no, for that.
pub(super) fn word<'w>(words: impl IntoIterator<Item = &'w str>) -> Value {
    let mut all = Vec::new();
    for word in words {
        all.push(Value::from(word));
        match word {
            "yes" => all.push(Value::from(true)),
            "no" => all.push(Value::from(false)),
            _ => all.extend(word.parse::<i64>().ok().map(Value::from)),
        }
    }
    json!({"enum": all})
}

/// One of these words, each with what it means.
pub(super) fn meaning(words: &[(&str, &str)]) -> Value {
    let all = words.iter();
    any_of(all.map(|(word, means)| choice(word, means)).collect())
}

/// One word with what it means.
pub(super) fn choice(word: &str, means: &str) -> Value {
    json!({"const": word, "description": means})
}

/// At least one of these keys is written.
pub(super) fn some_key<'k>(names: impl IntoIterator<Item = &'k str>) -> Value {
    any_of(each_required(names))
}

/// Exactly one of these keys is written.
pub(super) fn one_key<'k>(names: impl IntoIterator<Item = &'k str>) -> Value {
    json!({"oneOf": each_required(names)})
}

fn each_required<'k>(names: impl IntoIterator<Item = &'k str>) -> Vec<Value> {
    let required = names.into_iter().map(|name| json!({"required": [name]}));
    required.collect()
}
