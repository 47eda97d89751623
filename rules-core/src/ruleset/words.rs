//! What a rule file says, in words: short phrases that a report or a read-back puts into its sentences.
//!
//! A defined term is called by its name, everything else by what the vocabulary calls it.

mod days;
mod levels;
mod nouns;
mod places;
mod pools;
mod requirements;
mod steps;
mod values;
mod verbs;

pub use days::in_force_words;
pub use nouns::{
    in_quotes, kind_noun, listed, plural, spaced, term_words, without_article, without_stop,
};
pub use places::{
    each_words, narrowed_words, operand_words, outline_words, selection_words, zone_words,
};
pub use pools::{of_the_pool, whose_words};
pub use requirements::{
    along_words, asked, bounded_words, clause_of, if_none_words, kept_words, meets_words,
    requirement_words, rows_words, so_said, so_words, test_words, verb_after, very_word,
};
pub use steps::duty_sentence;
pub use values::{all_words, bound_words, bounds_words, stated_words, value_words};

#[cfg(test)]
mod words_tests;
