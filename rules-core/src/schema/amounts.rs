//! Amounts with their units.

use serde_json::{Value, json};

use super::parts::any_of;
use crate::quantity::{Dimension, Unit};

/// How an amount begins: perhaps the words of a range, perhaps a sign, then a figure.
const BEGINS: &str = r"^\s*(at least |at most )?[-+−]?\s*\.?\d";

/// An amount of a dimension; `None` means any dimension. With `bare`, a figure without a unit takes the file's unit.
pub(super) fn amount(dimension: Option<Dimension>, bare: bool) -> Value {
    match dimension {
        Some(Dimension::Date) => {
            json!({"type": "string", "pattern": r"^\s*\d{4}-\d{2}-\d{2}", "examples": ["2026-03-01"]})
        }
        Some(Dimension::Number) => plain_number(),
        Some(dimension) => with_unit(dimension, bare),
        None => any_of(vec![
            json!({"type": "string", "pattern": r"^\s*[-+−]?\s*\.?\d"}),
            json!({"type": "number"}),
        ]),
    }
}

fn plain_number() -> Value {
    any_of(vec![
        json!({"type": "number"}),
        json!({"type": "string", "pattern": format!(r"{BEGINS}([^a-zA-Z]*|.*\d\s*percent\s*)$"), "examples": ["40 %"]}),
    ])
}

fn with_unit(dimension: Dimension, bare: bool) -> Value {
    let units = spellings(dimension).join("|");
    let behind = format!(r"(.*[^a-zA-Z])?({units})\s*$");
    let ends = if bare {
        format!("({behind}|[^a-zA-Z]*$)")
    } else {
        behind
    };
    let example = dimension.example().split('`').nth(1).unwrap_or_default();
    let written = json!({
        "type": "string",
        "pattern": format!("{BEGINS}{ends}"),
        "examples": [example],
    });
    if bare {
        any_of(vec![written, json!({"type": "number"})])
    } else {
        written
    }
}

/// All spellings of the units of a dimension. Days and months stand in for each other.
fn spellings(dimension: Dimension) -> Vec<String> {
    let spans = [Dimension::Days, Dimension::Months];
    let fits = |of: Dimension| of == dimension || spans.contains(&of) && spans.contains(&dimension);
    let units = Unit::ALL.iter().filter(|unit| fits(unit.dimension()));
    let names = units.flat_map(|unit| unit.names());
    let mut spellings: Vec<_> = names.map(pattern).collect();
    // The typographic marks of feet and inches.
    if dimension == Dimension::Length {
        spellings.extend(["[′’]", "[″”]"].map(str::to_owned));
    }
    spellings.sort();
    spellings.dedup();
    spellings
}

/// A spelling as a pattern, ignoring case where the reader ignores it.
fn pattern(name: &str) -> String {
    let loosely = Unit::find(&name.to_uppercase()) == Unit::find(name);
    let one = |c: char| match c {
        ' ' => r"\s+".to_owned(),
        c if loosely && c.is_ascii_alphabetic() => {
            format!("[{}{}]", c.to_ascii_lowercase(), c.to_ascii_uppercase())
        }
        c if c.is_alphanumeric() => c.to_string(),
        '(' | ')' | '/' => format!(r"\{c}"),
        c => c.to_string(),
    };
    name.chars().map(one).collect()
}

/// The name of a dimension in definitions.
pub(super) fn name_of(dimension: Dimension) -> &'static str {
    match dimension {
        Dimension::Length => "length",
        Dimension::Area => "area",
        Dimension::Volume => "volume",
        Dimension::Voltage => "voltage",
        Dimension::Angle => "angle",
        Dimension::Sound => "sound",
        Dimension::Flow => "flow",
        Dimension::Power => "power",
        Dimension::Mass => "mass",
        Dimension::Load => "load",
        Dimension::Days | Dimension::Months => "days",
        Dimension::Date => "date",
        Dimension::Number => "number",
    }
}
