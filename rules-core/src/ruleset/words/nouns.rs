//! Names of kinds, facts and terms as they stand in a sentence.

use crate::vocabulary::{KindId, Vocabulary};

/// `a gate` without its article: `gate`.
pub fn without_article(said: &str) -> &str {
    ["a ", "an ", "the ", "its "]
        .iter()
        .find_map(|article| said.strip_prefix(article))
        .unwrap_or(said)
}

/// What a kind is called, without an article: `lot line`.
pub fn kind_noun(kind: KindId, vocabulary: &Vocabulary) -> &str {
    without_article(&vocabulary.kind(kind).said)
}

/// What a term is called in a sentence: `the pool edge` for `pool-edge`.
pub fn term_words(term: &str) -> String {
    format!("the {}", term.replace('-', " "))
}

/// Whether a term is called in the plural: `rear-lines`.
pub(super) fn is_plural(term: &str) -> bool {
    term.ends_with('s') && !term.ends_with("ss")
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
    let hisses = ["s", "x", "ch", "sh"].iter().any(|end| word.ends_with(end));
    match word.strip_suffix('y') {
        Some(stem) if !vowel_before_y => format!("{stem}ies"),
        _ if hisses => format!("{word}es"),
        _ => format!("{word}s"),
    }
}
