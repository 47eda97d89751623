//! What is checked against the outside.

pub mod cases;
pub mod pages;
pub mod random_plans;
pub mod reference;
pub mod soundness;
