//! What is checked against the outside.

pub mod cases;
pub mod random_plans;
pub mod soundness;
