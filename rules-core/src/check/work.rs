//! How much work judging a plan may be: a bound that no input can get past.

use std::cell::Cell;

/// The work done so far, counted in steps: a requirement or a value looked at, a pair of sides compared.
#[derive(Debug, Default)]
pub(crate) struct Work {
    steps: Cell<u64>,
}

/// Beyond so many steps nothing more is judged. A large plan under a large rule set takes some hundred thousand.
pub(crate) const MOST_STEPS: u64 = 20_000_000;

impl Work {
    /// Counts so many steps.
    pub(crate) fn step(&self, by: u64) {
        self.steps.set(self.steps.get().saturating_add(by));
    }

    /// How many steps were taken.
    pub(crate) fn steps(&self) -> u64 {
        self.steps.get()
    }

    /// Counts a step, and says whether too many were taken.
    pub(crate) fn is_spent(&self) -> bool {
        self.step(1);
        self.steps.get() > MOST_STEPS
    }
}
