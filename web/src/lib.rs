//! What the page calls, and what it keeps: the plan in somebody's hands, its rules, and what the browser stores.
//!
//! What comes out is JSON, until the page's views are written in Rust as well. A text that cannot be used comes back as
//! `{"refused": {"plan": […], "rules": […]}}`, with all faults, each with its place and what would be right.

mod asked;
mod check;
mod clerk;
mod draw;
mod files;
mod held;
mod keep;
mod rules;
mod sets;
mod steps;
mod written;

pub use asked::asked;
pub use check::{answer, begin, check, follow};
pub use clerk::{faults, read_back, try_cases};
pub use draw::draw;
pub use files::{file, link, open, open_home, open_link};
pub use held::{
    add, add_place, add_pool, answer_matter, begin_anew, begin_outline, can_redo, can_undo,
    draw_lot, edit, faces, figure_shown, figure_typed, forget_matter, handles, outline_as,
    own_rules, pick_source, plan, redo, reshape, rules_cases, rules_name, rules_text, say,
    say_figure, size_lot, size_of_lot, take_away, undo, use_rules, vary,
};
pub use keep::{forget_aside, keep, open_aside, restore, set_aside};
pub use rules::speak;
pub use sets::rule_sets;
pub use steps::steps;
