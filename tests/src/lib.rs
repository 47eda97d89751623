//! What is checked against the outside.
