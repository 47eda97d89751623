//! Checks against things outside the project, and the parts that several of them share.

pub mod by_grade;
pub mod cases;
pub mod deletions;
mod fault_page;
pub mod fuzzing;
mod grammar_page;
pub mod large;
pub mod measured;
pub mod one_site;
pub mod pages;
pub mod placing;
pub mod random_plans;
pub mod random_rules;
pub mod read;
pub mod reference;
pub mod soundness;
