//! What is possible: the plan as one judgement sees it, the values that each fact can still have, and which things a rule
//! means.

pub(super) mod base;
pub(super) mod dependency;
pub(super) mod env;
pub(super) mod facts;
pub(super) mod memo;
pub(super) mod missing;
pub(super) mod places;
pub(super) mod scene;
pub(super) mod seen;
pub(super) mod select;
pub(crate) mod special;
pub(super) mod split;
pub(super) mod tapes;
pub(super) mod target;
pub(super) mod tolerance;
