//! Judges a plan of a private swimming pool against an authority's rules.
//!
//! Text goes in, values come out: this library reads no file, prints nothing, knows no clock and does not panic.
//! In this order a module knows those before it, never those after it: `quantity`, `text`, `words`, `grammar`, `vocabulary`, the figures of
//! `plan`, `measure`, `plan`, `ruleset`, `check`, `report`, `shelf`, `drawing`, `edit`, `placement`.
#![cfg_attr(
    not(test),
    deny(
        clippy::unwrap_used,
        clippy::expect_used,
        clippy::panic,
        clippy::indexing_slicing,
        clippy::string_slice,
        clippy::unreachable,
        clippy::todo,
        clippy::unimplemented,
        clippy::print_stdout,
        clippy::print_stderr
    )
)]

mod answer;
pub mod asked;
pub mod cases;
pub mod check;
pub mod compare;
pub mod drawing;
pub mod edit;
mod fit;
mod follow;
mod grammar;
pub mod measure;
pub mod placement;
pub mod plan;
pub mod quantity;
pub mod report;
pub mod ruleset;
pub mod schema;
pub mod scope;
mod several;
pub mod shelf;
pub mod steps;
pub mod text;
pub mod vocabulary;
pub mod words;
pub mod work;

pub use answer::{
    Refusal, Refused, RulesRead, judge_by, judge_texts, plan_refused, read_rules, read_rules_in,
    refusal_to_json, steps_texts, steps_to_json, to_json,
};
pub use fit::fit;
pub use follow::{Begun, Followed, RuleNow, begin, follow};
pub use several::{RulesText, judge_together, judge_together_in, steps_together};
