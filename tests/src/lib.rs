//! What is checked against the outside.

pub mod random_plans;
