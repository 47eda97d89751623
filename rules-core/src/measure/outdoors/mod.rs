//! Wires that sag, and how far sound carries.

pub(super) mod sound;
pub(super) mod wire;
