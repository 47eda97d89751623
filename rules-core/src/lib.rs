//! Judges a plan of a private swimming pool against an authority's rules.
//!
//! Text goes in, values come out: this library reads no file, prints nothing, knows no clock and does not panic.
//!
//! ```
//! use rules_core::check::Outcome;
//! use rules_core::judge_texts;
//!
//! let plan = "
//! plan: mill-lane-4
//! title: Mill Lane 4
//! unit: m
//! sources: [{id: survey, by: survey, accuracy: 20 mm, shift: 0 mm}]
//! lot:
//!   source: survey
//!   corners: {a: [0, 0], b: [30, 0], c: [30, 40], d: [0, 40]}
//!   sides:
//!     - {id: street, from: a, to: b, faces: front, beyond: road}
//!     - {id: east, from: b, to: c, faces: side, beyond: neighbour-lot}
//!     - {id: rear, from: c, to: d, faces: rear, beyond: neighbour-lot}
//!     - {id: west, from: d, to: a, faces: side, beyond: neighbour-lot}
//! pool: {id: pool, source: survey, water: {rectangle: {at: [10, 30], length: 8 m, width: 4 m}}}
//! ";
//! let rules = "
//! ruleset: hazelbrook
//! title: Hazelbrook, private pools
//! edition: '2026'
//! authority: Hazelbrook building office
//! rules:
//!   - id: line
//!     title: Pool to lot line
//!     clause: Bylaw 12, s. 4
//!     each: lot-line
//!     require: {distance: {from: pool.water, to: lot-line}, at-least: 3 m}
//! ";
//! // No rule file here builds on another one.
//! let report = judge_texts(plan, rules, &|_| None)?;
//! let [line, on_the_lot] = report.rules.as_slice() else {
//!     unreachable!("the rule of the file, and the one that is in every report")
//! };
//! assert_eq!((line.id.as_str(), line.outcome), ("line", Outcome::Pass));
//! assert_eq!(on_the_lot.outcome, Outcome::Pass);
//!
//! // All that is wrong with a text is said at once, each fault with its place.
//! let refused = judge_texts(plan, "rules: none", &|_| None).unwrap_err();
//! assert!(refused.show("plan.yaml", "rules.yaml").contains("in rules.yaml, line 1"));
//! # Ok::<(), rules_core::Refusal>(())
//! ```
//!
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
pub mod session;
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

/// What was read and found can be handed to other threads.
#[cfg(test)]
const _: fn() = || {
    fn shared<T: Send + Sync>() {}
    shared::<ruleset::RuleSet>();
    shared::<plan::Plan>();
    shared::<report::Report>();
};
