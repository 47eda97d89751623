//! Every measure of the rule language tried on plans that are a little wrong, from the plan's text to the reading.
//!
//! A plan is drawn, with how far off each of its things may be; worlds of that plan are drawn, everything elsewhere by no
//! more than that; and what the measure comes to in each world, worked out here by plain floats that share no code with
//! the library, must lie in the interval that the library gives for the plan. So that "anything" cannot pass, the plan
//! drawn exactly must be measured exactly, and the worlds must reach across a good part of the interval.

pub mod property;
pub mod shapes;
pub mod site;
pub mod trade;
pub mod truth;
pub mod zones;
