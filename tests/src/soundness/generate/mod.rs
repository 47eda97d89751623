//! Random worlds and random rule sets, whose limits are near the world's own values.

mod leaf;
mod papers;
mod rules;
mod shapes;
mod values;
mod worlds;

pub use leaf::stated;
pub use papers::{DOCUMENTS, paper_for};
pub use rules::{Style, rule_set};
pub use shapes::{moved, scattered};
pub use worlds::{being, join, world};
