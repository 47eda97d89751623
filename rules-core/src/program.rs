//! What the command, the page and the writer of the schemas take besides the face.
//!
//! It is compiled only to find dead code: with the parts hidden and this list shown, the compiler names whatever neither
//! the face nor a program needs. A test holds the list to what the programs name.

pub use crate::answer::{
    judge_by, judge_texts, plan_refused, read_rules, read_rules_in, refusal_to_json, steps_texts,
    steps_to_json,
};
pub use crate::asked::{asked, unasked};
pub use crate::cases::{
    Shown, Tried, edges, edges_to_text, shown, tried_to_text, try_node, unexercised,
};
pub use crate::check::Verdict;
pub use crate::compare::{compare, compare_plan, summary};
pub use crate::drag::{DragStart, DragUpdate, start_drag, update_drag};
pub use crate::drawing::{Drawing, Options};
pub use crate::edit::{Add, Change, Changed, Wrong, change, handles};
pub use crate::faults::GROUPS;
pub use crate::placement::{Class, NotPlaced, Placement, Wishes, place_texts, place_to_json};
pub use crate::report::{Report, text};
pub use crate::ruleset::say::{Line, ReadBack, Said, read_back};
pub use crate::ruleset::{RuleSet, is_language};
pub use crate::schema::{cases, plan, rule_set};
pub use crate::session::{
    Outline, Rules, Session, blank, figure, lot_size, opened, shown as figure_shown,
};
pub use crate::several::{judge_together_in, steps_together};
pub use crate::shelf::{Shelf, listed, sources_listed};
pub use crate::sides::proposed_sides;
pub use crate::steps::day;
pub use crate::text::{
    Content, Fault, FaultRow, Faults, MAX_BYTES, Node, Visible, closest, exact_name,
    longer_than_read, plain_json, read, read_bytes, to_json_text, to_yaml_text,
};
pub use crate::unknown_keys::hide_unknown_keys;

/// What shares its name with a function above.
pub mod others {
    pub use crate::compare::to_json;
}
