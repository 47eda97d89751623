//! Names of kinds, facts and terms as they stand in a sentence.

use crate::vocabulary::{KindId, Vocabulary};

/// `a gate` without its article: `gate`.
pub fn without_article(said: &str) -> &str {
    ["a ", "an ", "the ", "its ", "another "]
        .iter()
        .find_map(|article| said.strip_prefix(article))
        .unwrap_or(said)
}

/// What a kind is called, without an article: `lot line`.
pub fn kind_noun(kind: KindId, vocabulary: &Vocabulary) -> &str {
    without_article(&vocabulary.kind(kind).said)
}

pub(super) const PREPOSITIONS: [&str; 22] = [
    "to", "from", "by", "in", "at", "on", "of", "near", "with", "within", "under", "over",
    "beside", "behind", "before", "after", "between", "outside", "inside", "round", "around",
    "above",
];

/// What a term is called in a sentence: `the pool edge` for `pool-edge`; in quotes where that is no noun: `the “to street”`.
pub fn term_words(term: &str) -> String {
    format!("the {}", term_noun(term))
}

/// A term without an article.
pub(super) fn term_noun(term: &str) -> String {
    const NO_NOUNS: [&str; 6] = ["any", "all", "each", "every", "no", "not"];
    let first = term.split('-').next().unwrap_or_default();
    match PREPOSITIONS.contains(&first) || NO_NOUNS.contains(&first) {
        true => in_quotes(term),
        false => term.replace('-', " "),
    }
}

/// A term's name in quotes: `“needs permit”`.
pub fn in_quotes(term: &str) -> String {
    format!("“{}”", term.replace('-', " "))
}

/// `ask-the-council` as `ask the council`. A hyphen between two figures stays, as in a date.
pub fn spaced(class: &str) -> String {
    let parts: Vec<&str> = class.split('-').collect();
    let is_figure = |part: &str| part.starts_with(|c: char| c.is_ascii_digit());
    let joins = parts.iter().zip(parts.iter().skip(1));
    let joins = joins.map(|(one, next)| match is_figure(one) && is_figure(next) {
        true => "-",
        false => " ",
    });
    let rest = joins
        .zip(parts.iter().skip(1))
        .map(|(join, part)| format!("{join}{part}"));
    parts.first().copied().unwrap_or_default().to_owned() + &rest.collect::<String>()
}

/// Whether a term is called in the plural: `rear-lines`, `doors-to-pool`.
pub(super) fn is_plural(term: &str) -> bool {
    let words: Vec<&str> = term.split('-').collect();
    let mut heads = words.iter().zip(words.iter().skip(1));
    let head = heads.find(|(_, next)| PREPOSITIONS.contains(next));
    let head = head.map(|(head, _)| head).or(words.last());
    head.is_some_and(|head| head.ends_with('s') && !head.ends_with("ss"))
}

/// A text without the full stop at its end; a short form, as in `by 11 p.m.`, keeps its own.
pub fn without_stop(text: &str) -> &str {
    let Some(rest) = text.strip_suffix('.') else {
        return text;
    };
    let last = rest.rsplit(' ').next().unwrap_or_default();
    match last.contains('.') {
        true => text,
        false => rest,
    }
}

/// `a`, `a or b`, `a, b or c` (with the joining word that is given).
pub fn listed(items: &[String], joined_by: &str) -> String {
    match items {
        [] => "nothing".to_owned(),
        [one] => one.clone(),
        [first @ .., last] => format!("{} {joined_by} {last}", first.join(", ")),
    }
}

/// Several of them: `gates`, `stretches of the barrier`, `decks or patios`.
pub fn plural(noun: &str) -> String {
    const TAILS: [&str; 7] = [
        " of ", " with ", " in ", " that ", " from ", " inside ", " during ",
    ];
    let head_ends = TAILS.iter().filter_map(|tail| noun.find(tail)).min();
    let (head, tail) = head_ends
        .and_then(|at| noun.split_at_checked(at))
        .unwrap_or((noun, ""));
    let heads: Vec<String> = head.split(" or ").map(plural_word).collect();
    format!("{}{tail}", heads.join(" or "))
}

fn plural_word(word: &str) -> String {
    let vowel_before_y = ["ay", "ey", "oy", "uy"]
        .iter()
        .any(|end| word.ends_with(end));
    let hisses = ["ss", "us", "x", "ch", "sh"]
        .iter()
        .any(|end| word.ends_with(end));
    match word.strip_suffix('y') {
        // "Steps", "stairs" and "works" are already plural.
        _ if word.ends_with('s') && !hisses => word.to_owned(),
        Some(stem) if !vowel_before_y => format!("{stem}ies"),
        _ if hisses => format!("{word}es"),
        _ => format!("{word}s"),
    }
}
