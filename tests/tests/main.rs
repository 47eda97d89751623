//! All that is held against the outside, in one program: it is built and linked once.

mod adversary;
mod applies;
mod common;
mod common_practice;
mod contours;
mod coverage;
mod demo;
mod docs;
mod drawn_alike;
mod editions;
mod enclosure;
mod equivalence;
mod false_verdicts;
mod faults;
mod less_said;
mod levels;
mod lots;
mod measured;
mod measures;
#[cfg(feature = "mutants")]
mod mutants;
mod none_left_out;
mod published_rules_na;
mod published_rules_world;
mod published_values;
mod reference_geometry;
mod reference_trade;
mod rule_faults;
mod ruleset_soundness;
mod rulesets;
mod schemas;
mod site_work;
mod soundness;
mod tried_clauses;
