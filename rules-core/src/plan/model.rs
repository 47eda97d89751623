//! What a plan says.
