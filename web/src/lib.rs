//! The page: the plan in somebody's hands, its rules, what the browser stores, and what is shown of it all.
//!
//! The page's script calls [`open_page`] and nothing else. The other calls are for tests and answer in JSON: a text that
//! cannot be used comes back as `{"refused": {"plan": […], "rules": […]}}`, with all faults, each with its place and what
//! would be right.

mod acts;
mod asked;
mod browser;
mod check;
mod clerk;
mod compared;
mod draft;
mod drag;
mod draw;
mod files;
mod hand;
mod held;
mod judged;
mod keep;
mod link;
mod looks;
mod page;
mod plan;
mod room;
mod rules;
mod sets;
mod steps;
mod view;
mod windows;
mod words;
mod written;

pub use asked::asked;
pub use check::{answer, begin, check, follow};
pub use clerk::{Cases, FileRow, Found, found};
pub use draw::draw;
pub use files::{file, link, open, open_home, open_link};
pub use held::{
    begin_anew, edit, faces, handles, own_rules, plan, redo, rules_name, say, say_figure, undo,
    use_rules,
};
pub use page::open_page;
pub use rules::speak;
pub use sets::rule_sets;
pub use steps::steps;
pub use words::word;
