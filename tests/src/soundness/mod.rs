//! The soundness of the checker, tried against a second evaluator that judges one exact world at a time.
//!
//! Truth comes first: a random world is made, then rules, then plans that say less and less about that world. The
//! outcomes that the checker finds possible for a plan must include the judgement of each of its worlds, and must not
//! become more as the plan becomes more certain. So that "always unknown" cannot pass, open findings must have worlds
//! of both judgements.

pub mod agrees;
pub mod blur;
pub mod classes;
pub mod cover;
pub mod cuts;
pub mod dump;
pub mod evaluate;
pub mod exact;
pub mod fault;
pub mod generate;
pub mod geometry;
pub mod less;
pub mod number;
pub mod property;
pub mod random;
pub mod same;
pub mod sample;
pub mod sites;
pub mod tally;
pub mod walk;
pub mod words;
pub mod world;
