//! Words that people write for our bounds and requirements, and what to write instead.

use crate::grammar::BOUNDS;
use crate::text::{Content, Node, in_short};

/// "Over" and "under" exclude the limit itself.
const WRONG: [(&str, &str); 44] = [
    ("over", "more-than"),
    ("above", "more-than"),
    ("exceeds", "more-than"),
    ("after", "more-than"),
    (">", "more-than"),
    ("under", "less-than"),
    ("below", "less-than"),
    ("before", "less-than"),
    ("<", "less-than"),
    ("min", "at-least"),
    ("minimum", "at-least"),
    (">=", "at-least"),
    ("≥", "at-least"),
    ("max", "at-most"),
    ("maximum", "at-most"),
    ("up-to", "at-most"),
    ("<=", "at-most"),
    ("≤", "at-most"),
    ("equals", "is"),
    ("equal-to", "is"),
    ("equal", "is"),
    ("exactly", "is"),
    ("one-of", "is"),
    ("=", "is"),
    ("==", "is"),
    ("all", "all-of"),
    ("and", "all-of"),
    ("any", "any-of"),
    ("or", "any-of"),
    ("either", "any-of"),
    ("document", "have"),
    ("no", "not"),
    ("none-of", "not"),
    ("neither", "not"),
    ("must-not", "not"),
    ("forbid", "not"),
    ("since", "at-least"),
    ("until", "at-most"),
    ("question", "fact"),
    ("answer", "fact"),
    ("size", "area"),
    ("needs", "have"),
    ("need", "have"),
    ("paper", "have"),
];

/// Adjectives that compare, as in `no-deeper-than`.
const GREATER: [&str; 10] = [
    "greater", "more", "higher", "deeper", "longer", "larger", "taller", "wider", "farther",
    "later",
];
const SMALLER: [&str; 10] = [
    "less",
    "smaller",
    "fewer",
    "lower",
    "shallower",
    "shorter",
    "narrower",
    "nearer",
    "closer",
    "earlier",
];

/// The right word for one that is not ours.
pub(crate) fn right_word(word: &str) -> Option<&'static str> {
    let word = word.to_lowercase().replace(['_', ' '], "-");
    let known = WRONG.iter().find(|(wrong, _)| *wrong == word);
    known.map(|(_, right)| *right).or_else(|| compared(&word))
}

/// `deeper-than` is `more-than`, and `no-deeper-than` is `at-most`.
fn compared(word: &str) -> Option<&'static str> {
    let denied = ["no-", "not-", "never-"];
    let bare = denied.iter().find_map(|no| word.strip_prefix(no));
    let adjective = bare.unwrap_or(word).strip_suffix("-than")?;
    let greater = GREATER.contains(&adjective);
    let known = greater || SMALLER.contains(&adjective);
    let ours = bare.is_none() && matches!(adjective, "more" | "less");
    (known && !ours).then_some(match (greater, bare.is_some()) {
        (true, false) => "more-than",
        (true, true) => "at-most",
        (false, false) => "less-than",
        (false, true) => "at-least",
    })
}

/// The limits, each with the one that holds where it does not.
const TURNED: [(&str, &str); 4] = [
    ("at-least", "less-than"),
    ("less-than", "at-least"),
    ("at-most", "more-than"),
    ("more-than", "at-most"),
];

/// What must hold, of what may not: with its one limit turned round, or a `not` before it.
pub(crate) fn denied(node: &Node) -> String {
    let mut turned = node.clone();
    let mut keys: Vec<&mut String> = match &mut turned.content {
        Content::Map(entries) => entries.iter_mut().map(|entry| &mut entry.key).collect(),
        _ => Vec::new(),
    };
    keys.retain(|key| BOUNDS.iter().any(|bound| bound.name == **key));
    let other = |key: &str| TURNED.iter().find(|(own, _)| *own == key);
    match keys.as_mut_slice() {
        [key] if let Some((_, other)) = other(key) => {
            **key = (*other).to_owned();
            in_short(&turned)
        }
        _ => format!("{{not: {}}}", in_short(node)),
    }
}

/// A sentence with what to write for a word that is not ours.
pub(crate) fn what_to_write(word: &str) -> Option<String> {
    let other = match word {
        "setback" | "clearance" => {
            "It is a distance: write `distance: {from: pool.water, to: lot-line}`, and its limit beside it, as in `at-least: 3 m`."
        }
        "not-in" => "Write `not` round it, and `is`: `{not: {fact: …, is: […]}}`.",
        "is-not" | "not-is" | "isnt" | "!=" | "≠" | "different-from" => {
            "Write `not` round it: `{not: {fact: …, is: …}}`."
        }
        "none-of" | "neither" => "Write `not` with `any-of` in it: `not: {any-of: […]}`.",
        "between" | "range" | "from-to" => "Write both limits, `at-least` and `at-most`.",
        "within" => {
            "Write `at-most` for a distance; things within a distance are chosen by `in: {around: …, by: …}`."
        }
        word => return right_word(word).map(|right| format!("Write `{right}`.")),
    };
    Some(other.to_owned())
}
