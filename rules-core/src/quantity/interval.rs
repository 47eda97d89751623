//! The possible values of an amount.

/// All amounts from `low` to `high`, both included. `i128::MIN` and `i128::MAX` stand for "no bound".
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Interval {
    /// The least possible amount.
    pub low: i128,
    /// The greatest possible amount.
    pub high: i128,
}
