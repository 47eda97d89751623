//! Judges a plan of a private swimming pool against an authority's rules.
//!
//! Text goes in, values come out: this library reads no file, prints nothing, knows no clock and does not panic.
//!
//! ```
//! use rules_core::{NoOthers, Outcome, judge};
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
//! let report = judge(plan, rules, &NoOthers)?; // this rule file builds on no other
//! let [line, on_the_lot] = report.rules.as_slice() else {
//!     unreachable!("the rule of the file, and the one that is in every report")
//! };
//! assert_eq!((line.id.as_str(), line.outcome), ("line", Outcome::Pass));
//! assert_eq!(on_the_lot.outcome, Outcome::Pass);
//!
//! // All that is wrong with a text is said at once, each fault with its place.
//! let refused = judge(plan, "rules: none", &NoOthers).unwrap_err();
//! assert!(refused.show("plan.yaml", "rules.yaml").contains("in rules.yaml, line 1"));
//! # Ok::<(), rules_core::Refusal>(())
//! ```
//!
//! Rules that judge many plans are read once ([`Rules::read`]); several rule sets judge a plan together ([`judge_by_all`]).
//! A rule file that builds on others finds their texts through [`RuleTexts`]. A plan or a rule file that a program makes is
//! written with [`to_yaml`].
//!
//! With the feature `inside` all parts are open to the packages of this workspace; nothing of that is promised to others.
//!
//! Which part may use which stands in `docs/architecture.md`, and a test holds the parts to it.
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
#![cfg_attr(
    not(feature = "inside"),
    allow(unused_imports, reason = "parts offer some names to the tests alone")
)]
#![cfg_attr(
    not(any(feature = "program", feature = "inside")),
    allow(
        dead_code,
        reason = "the command and the page use more than the face; see `program`"
    )
)]

/// The parts of the library, declared together so that one feature can show them all.
#[path = ""]
mod parts {
    pub mod answer;
    pub mod asked;
    pub mod cases;
    pub mod check;
    pub mod compare;
    pub mod drag;
    pub mod drawing;
    pub mod edges;
    pub mod edit;
    pub mod face;
    pub mod faults;
    pub mod grammar;
    pub mod hints;
    pub mod measure;
    pub mod named;
    pub mod picture;
    pub mod placement;
    pub mod plan;
    pub mod quantity;
    pub mod report;
    pub mod ruleset;
    pub mod schema;
    pub mod scope;
    pub mod session;
    pub mod several;
    pub mod shelf;
    pub mod sides;
    pub mod steps;
    pub mod text;
    pub mod unknown_keys;
    pub mod vocabulary;
    pub mod words;
    pub mod work;
}

#[cfg(feature = "inside")]
pub use parts::*;
#[cfg(not(feature = "inside"))]
use parts::*;
#[cfg(feature = "program")]
pub mod program;

pub use answer::{Refusal, Refused, to_json};
pub use check::{Outcome, Verdict};
pub use face::{NoOthers, RuleTexts, Rules, judge, judge_by_all};
pub use faults::Code;
pub use report::{PartReport, Report, RuleReport};
pub use ruleset::{Provenance, Strength};
pub use text::{Fault, FaultRow, Faults, Help, write as to_yaml};

#[cfg(feature = "inside")]
pub use answer::{
    RulesRead, judge_by, judge_texts, plan_refused, read_rules, read_rules_in, refusal_to_json,
    steps_by, steps_texts, steps_to_json,
};
#[cfg(feature = "inside")]
pub use drag::{DragStart, DragUpdate, RuleNow, start_drag, update_drag};
#[cfg(feature = "inside")]
pub use several::{RulesText, judge_together_in, steps_together};
#[cfg(feature = "inside")]
pub use unknown_keys::hide_unknown_keys;

/// What was read and found can be handed to other threads.
const _: fn() = || {
    fn shared<T: Send + Sync + 'static>() {}
    shared::<Rules>();
    shared::<Report>();
    shared::<Refusal>();
    shared::<plan::Plan>();
};
