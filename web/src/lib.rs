//! What the page calls: text in, text out, and no logic of its own.
//!
//! What goes in is the text of a plan or of a rule file, what comes out is JSON. A text that cannot be used comes back as
//! `{"refused": {"plan": […], "rules": […]}}`, with all faults, each with its place and what would be right.

mod asked;
mod check;
mod clerk;
mod document;
mod draw;
mod edit;
mod rules;
mod sets;
mod steps;
mod written;

pub use asked::asked;
pub use check::{answer, begin, check, follow};
pub use clerk::{faults, read_back, try_cases};
pub use document::{blank, to_json, to_yaml};
pub use draw::draw;
pub use edit::{edit, faces, handles};
pub use rules::speak;
pub use sets::{cases_text, home, rule_sets, rule_text};
pub use steps::steps;
