//! The command `siting`.
fn main() {}
