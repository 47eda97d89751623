//! What is possible: the plan as one judgement sees it, the values that each fact can still have, and what is remembered
//! of what was measured on it.

pub(super) mod alike;
pub(super) mod base;
pub(super) mod dependency;
pub(super) mod env;
pub(super) mod facts;
mod parts;
pub(super) mod places;
pub(super) mod scene;
pub(super) mod seen;
pub(crate) mod special;
pub(super) mod split;
pub(super) mod spots;
pub(super) mod ways;
pub(super) mod ways_out;
