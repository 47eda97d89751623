//! What the command, the page and the writer of the schemas take besides the face.
//!
//! It is compiled only to find dead code: with the parts hidden and this list shown, the compiler names whatever neither
//! the face nor a program needs. A test holds the list to what the programs name.

pub use crate::answer::{
    judge_by, judge_texts, plan_refused, read_rules, read_rules_in, refusal_to_json, steps_by,
    steps_to_json,
};
pub use crate::asked::{asked, unasked};
pub use crate::cases::{Shown, Tried, shown, tried_to_text, try_node, unexercised};
pub use crate::check::Verdict;
pub use crate::compare::{compare, compare_plan, summary};
pub use crate::drag::{DragStart, DragUpdate, RuleNow, start_drag, update_drag};
pub use crate::drawing::{Drawing, Element, Inner, Options};
pub use crate::edges::{edges, edges_to_text, made_to_text};
pub use crate::edit::{Add, Change, Changed, Wrong, change, handles};
pub use crate::faults::GROUPS;
pub use crate::hints::{About, Entry, Hints, Offer, end_of_section, entries, hints, section_of};
pub use crate::picture::picture;
pub use crate::placement::{
    Class, NotPlaced, Offer as OfferedPlace, Placement, Region, RuleName, RuleThere, TurnReport,
    Wait, Way, Wishes, place_by_and_by, place_texts, place_to_geojson, place_to_json, place_to_svg,
};
pub use crate::quantity::{Rounding, Unit, show};
pub use crate::report::{
    AnsweredMatter, AskReport, CautionReport, Counts, DecisionReport, DocumentReport, DutyReport,
    EditionReport, EditionRule, HeldMatter, MissingReport, OnTop, OpenMatter, RangeReport,
    ReadingReport, Report, RuleSetHead, ScopeReport, VerdictWords, text,
};
pub use crate::ruleset::say::{Line, ReadBack, Said, read_back};
pub use crate::ruleset::{FORMAT, RuleSet, is_language};
pub use crate::schema::{cases, plan, rule_set};
pub use crate::session::{
    Outline, Rules, Session, at, blank, figure, lot_size, opened, path_of, shown as figure_shown,
};
pub use crate::several::{judge_together_in, steps_together};
pub use crate::shelf::{Shelf, listed, sources_listed};
pub use crate::sides::proposed_sides;
pub use crate::steps::{Step, day};
pub use crate::text::{
    Content, Fault, FaultRow, Faults, MAX_BYTES, Node, Visible, closest, exact_name,
    longer_than_read, plain_json, read, read_bytes, to_json_text, to_yaml_text,
};
pub use crate::unknown_keys::hide_unknown_keys;

/// A function with the same name as one above.
pub mod others {
    pub use crate::compare::to_json;
}
