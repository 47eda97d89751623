//! Values on their way out, as YAML or JSON.

use crate::faults::Code;
use serde::Serialize;
use serde_json::Value;

use super::looks::BLANKS;
use super::{Content, Fault, Node};

/// Writes a value as YAML in block style. What it writes, the reader reads.
///
/// ```
/// let text = rules_core::to_yaml(&serde_json::json!({"plan": "mill-lane-4", "unit": "m"}))?;
/// assert_eq!(text, "plan: mill-lane-4\nunit: m\n");
/// # Ok::<(), rules_core::Fault>(())
/// ```
///
/// # Errors
/// A value that YAML cannot say, or that would not read back (a line separator U+0085, U+2028 or U+2029 in a text),
/// gives a fault `not-writable`.
pub fn write(value: &impl Serialize) -> Result<String, Fault> {
    let text = serde_yaml::to_string(value).map_err(|error| not_writable(&error.to_string()))?;
    // The writer takes these for line breaks, as the older YAML 1.1 does, and would change the text.
    if text.contains(['\u{85}', '\u{2028}', '\u{2029}']) {
        return Err(not_writable(
            "it holds a line separator of another kind than a line feed",
        ));
    }
    // The reader would report such a line as a slip.
    let begins_blank = |line: &str| line.trim_start_matches([' ', '-', '?']).starts_with(BLANKS);
    if text.lines().any(begins_blank) {
        return Err(not_writable("a word begins with a blank that is no space"));
    }
    Ok(text)
}

fn not_writable(why: &str) -> Fault {
    Fault::new(
        Code::NotWritable,
        None,
        format!("This cannot be written as YAML: {why}."),
    )
}

/// The same tree for programs: plain numbers and `true`/`false` become such, all else text; nothing becomes null.
pub fn to_json(node: &Node) -> Value {
    match &node.content {
        Content::Empty => Value::Null,
        Content::Scalar { text, quoted: true } => Value::String(text.clone()),
        Content::Scalar {
            text,
            quoted: false,
        } => plain(text),
        Content::List(items) => items.iter().map(to_json).collect(),
        Content::Map(entries) => entries
            .iter()
            .map(|entry| (entry.key.clone(), to_json(&entry.value)))
            .collect(),
    }
}

fn plain(text: &str) -> Value {
    let as_json = serde_json::from_str(text).ok();
    let simple = as_json.filter(|value| matches!(value, Value::Number(_) | Value::Bool(_)));
    simple.unwrap_or_else(|| Value::String(text.to_owned()))
}
