//! Sagging wires and the spread of sound.

pub(super) mod sound;
pub(super) mod wire;
