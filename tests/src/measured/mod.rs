//! Every measure of the rule language, tried from the plan's text to the reading on plans that are slightly off.
//!
//! Each test makes a plan that states how far off each of its things may be, then worlds of that plan, in which
//! everything is moved by no more than that. The measure's value in each world, worked out here in plain floats that
//! share no code with the library, must lie in the interval that the library gives for the plan. So that an answer of
//! "anything" cannot pass, the plan drawn exactly must be measured exactly, and the worlds must span a good part of the
//! interval.

mod drawn;
pub mod property;
pub mod round;
mod scenes;
pub mod shapes;
pub mod site;
pub mod trade;
pub mod truth;
mod walks;
mod wires;
pub mod zones;
